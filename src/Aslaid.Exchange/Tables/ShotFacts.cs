using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What every format says about a shot besides where it is: accuracy, method, time, and the runs through it.</summary>
internal sealed class ShotFacts
{
    private readonly CurrentShots shots;
    private readonly Dictionary<int, List<string>> runs = [];

    public ShotFacts(AsBuiltRecord record)
    {
        shots = record.Shots;
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            foreach (var shot in run.Members)
            {
                if (!runs.TryGetValue(shot, out var keys)) runs[shot] = keys = [];
                if (!keys.Contains(run.Key)) keys.Add(run.Key);
            }
        }
    }

    /// <summary>Keys of the runs that go through a shot, in run order.</summary>
    public IReadOnlyList<string> RunsOf(int row) => runs.TryGetValue(row, out var keys) ? keys : [];

    /// <summary>Standard uncertainty in plan of what is the shot's own, radial, metres.</summary>
    public double? UPlan(int row) => double.IsNaN(shots.SigmaPlan[row]) ? null : shots.SigmaPlan[row] * Math.Sqrt(2);

    /// <summary>Standard uncertainty of height of what is the shot's own, metres.</summary>
    public double? UHeight(int row) => double.IsNaN(shots.SigmaHeight[row]) ? null : shots.SigmaHeight[row];

    /// <summary>How well its place is known on the grid, with what its session has in common: radial, metres.</summary>
    public double? UPlace(int row) => double.IsNaN(shots.SigmaPlan[row]) ? null : shots.PlaceSigma(row) * Math.Sqrt(2);

    /// <summary>How well its level is known, with what its session has in common, metres.</summary>
    public double? ULevel(int row) => double.IsNaN(shots.SigmaHeight[row]) ? null : shots.LevelSigma(row);

    /// <summary>Whether the file states the plan accuracy, a person declared it for the batch, or nobody did; <c>constructed</c> where it follows from other shots.</summary>
    public string Accuracy(int row) => double.IsNaN(shots.SigmaPlan[row]) ? "none" : shots.Raw.IsConstructed(row) ? "constructed" : shots.IsDeclared(row) ? "declared" : "stated";

    /// <summary>How it was measured; for a constructed point <c>constructed</c>, and from what.</summary>
    public string? Method(int row) => shots.Raw.IsConstructed(row) ? "constructed: " + shots.Raw.Text("constructed", row) : shots.Raw.Text("method", row);

    /// <summary>ISO 8601, with the zone where one was written; null where no time was.</summary>
    public string? Time(int row)
    {
        if (shots.Raw[row].Time is not { } time) return null;
        var form = shots.Raw.Zone[row] == short.MinValue ? "yyyy-MM-dd'T'HH:mm:ss.FFF" : "yyyy-MM-dd'T'HH:mm:ss.FFFzzz";
        return time.ToString(form, CultureInfo.InvariantCulture);
    }
}
