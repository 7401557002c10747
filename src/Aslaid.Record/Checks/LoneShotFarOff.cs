using System.Runtime.InteropServices;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A shot far from all others, or one that sticks out of its run.</summary>
internal sealed class LoneShotFarOff : ICheck
{
    public string Name => "lone-shot-far-off";

    public string Title => "A shot far from everything else";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    public void Look(Site site, Findings found)
    {
        var lone = new List<int>();
        FindLone(site, lone);
        foreach (var row in lone)
        {
            if (site.BatchPlaces.Explains(row)) continue;
            var run = site.Membership.Run[row];
            var (from, to) = run < 0 ? ((double?)null, (double?)null) : RunRange.About(site.Runs[run], site.Membership.Member[row], site.Membership.Member[row]);
            found.Add(Severity.Stop, [row], site.Shots.At(row), site.Shots.HeightOf(row), run, from, to,
                Nearest(site, row), site.Settings.LoneDistance, figures: [0]);
        }

        foreach (var gap in site.RunBreaks.All)
        {
            if (gap.Target >= 0) continue;
            var run = site.Runs[gap.Run];
            var row = run.Members[gap.First];
            if (lone.BinarySearch(row) >= 0 || site.BatchPlaces.Explains(row)) continue;
            var (from, to) = RunRange.About(run, gap.First, gap.Last);
            found.Add(Severity.Stop, [row], site.Shots.At(row), site.Shots.HeightOf(row), gap.Run, from, to,
                gap.Leg, run.Entry?.SpacingMax ?? RunBreaks.UsualSpacing, figures: [gap.Median]);
        }
    }

    /// <summary>Cells so small that two shots of one are never lone; only a shot that has its cell to itself looks around.</summary>
    private static void FindLone(Site site, List<int> lone)
    {
        var shots = site.Shots;
        if (site.ShotRows.Length < 2) return; // the only shot is far from nothing
        var reach = site.Settings.LoneDistance;
        var cell = reach / Math.Sqrt(2);
        var counts = new Dictionary<(long, long), (int Count, int Row)>();
        foreach (var row in site.ShotRows)
        {
            ref var here = ref CollectionsMarshal.GetValueRefOrAddDefault(counts, CellOf(row), out _);
            here = (here.Count + 1, row);
        }

        var wanted = new HashSet<(long, long)>();
        foreach (var (at, (count, row)) in counts)
        {
            if (count > 1) continue;
            lone.Add(row);
            for (var e = -2; e <= 2; e++)
                for (var n = -2; n <= 2; n++)
                    if (counts.ContainsKey((at.Item1 + e, at.Item2 + n)) && (e, n) != (0, 0)) wanted.Add((at.Item1 + e, at.Item2 + n));
        }

        if (lone.Count == 0) return;
        var about = new Dictionary<(long, long), List<int>>();
        foreach (var row in site.ShotRows)
        {
            var at = CellOf(row);
            if (!wanted.Contains(at)) continue;
            if (!about.TryGetValue(at, out var rows)) about[at] = rows = [];
            rows.Add(row);
        }

        lone.RemoveAll(row => HasCompany(row));
        lone.Sort();

        (long, long) CellOf(int row) => ((long)Math.Floor(shots.Raw.East[row] / cell), (long)Math.Floor(shots.Raw.North[row] / cell));

        bool HasCompany(int row)
        {
            var (east, north) = CellOf(row);
            for (var e = -2; e <= 2; e++)
                for (var n = -2; n <= 2; n++)
                    if (about.TryGetValue((east + e, north + n), out var rows))
                        foreach (var other in rows)
                            if (other != row && shots.At(row).DistanceTo(shots.At(other)) <= reach) return true;
            return false;
        }
    }

    private static double Nearest(Site site, int row)
    {
        site.ShotIndex.Nearest(site.Shots.At(row), new ToOther(site, row), out var distance);
        return distance;
    }

    /// <summary>Distance to any shot but itself.</summary>
    private readonly struct ToOther(Site site, int row) : IDistanceTo
    {
        public double To(int id) => site.ShotRows[id] == row ? double.PositiveInfinity : site.Shots.At(row).DistanceTo(site.Shots.At(site.ShotRows[id]));
    }

    public string Message(Finding finding) => finding.Figure(0) > 0
        ? $"{finding.Shot(0)} sticks out of {finding.RunLabel()}: {CheckText.Metres(finding.Measured)} from the shot before, usual {CheckText.Metres(finding.Figure(0))}, limit {CheckText.Metres(finding.Allowed)}."
        : $"{finding.Shot(0)} lies {CheckText.Number(finding.Measured, "0.0")} m from the nearest other shot, limit {CheckText.Number(finding.Allowed, "0.0")} m.";

    public string Cure(Finding finding) => "Set it aside and shoot it again, or find out which coordinates were meant.";

    public Change? Correction(Finding finding) => new SetAside(finding.Keys());

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
