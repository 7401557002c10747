using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>
/// Stated uncertainties against the analytic truth of clean sites: values within two standard uncertainties, out of at least
/// 2 000 draws of each kind. For a normal error 95.45 % are expected; 93 to 97 % is asked.
/// </summary>
public sealed class TruthCoverageTests
{
    private const int Draws = 2000;

    private static readonly Lazy<Dictionary<string, Tally>> Sites = new(Draw);

    [Theory]
    [InlineData("plan length")]
    [InlineData("slope length")]
    [InlineData("area")]
    [InlineData("radius")]
    public void TwoStandardUncertainties_CleanSites_HoldTheTruthAsOftenAsTheyShould(string kind)
    {
        var tally = Sites.Value[kind];
        Assert.True(tally.All >= Draws, $"Only {tally.All} draws.");
        Assert.True(tally.Share is >= 0.93 and <= 0.97, $"{kind}: {tally.Within} of {tally.All} within, {tally.Share:P2}.");
    }

    private sealed class Tally
    {
        public int All { get; private set; }

        public int Within { get; private set; }

        public double Share => (double)Within / All;

        public void Add(double value, double? u, double truth)
        {
            if (u is not { } known) return;
            All++;
            if (Math.Abs(value - truth) <= 2 * known) Within++;
        }
    }

    private static Dictionary<string, Tally> Draw()
    {
        var tallies = new Dictionary<string, Tally> { ["plan length"] = new(), ["slope length"] = new(), ["area"] = new(), ["radius"] = new() };
        for (var seed = 1; tallies.Values.Any(tally => tally.All < Draws); seed++)
        {
            var site = SampleSites.Clean(seed, decimals: 5);
            var record = Derivation.Derive(SampleInputs.Of(site), ParallelWorkers.Instance);
            foreach (var truth in site.Truth)
            {
                if (record.Runs.Find($"{truth.Code}/{truth.Label}@{truth.Crew}") is not { } run) continue;
                tallies["plan length"].Add(run.PlanLength, run.UPlanLength, truth.PlanLength);
                if (truth.SlopeLength is { } slope && run.SlopeLength is { } measured) tallies["slope length"].Add(measured, run.USlopeLength, slope);
                if (truth.Area is { } area) tallies["area"].Add(run.Area!.Value, run.UArea, area);
                Radii(run, truth, tallies["radius"]);
            }
        }

        return tallies;
    }

    private static void Radii(Run run, TrueRun truth, Tally tally)
    {
        var arc = 0;
        for (var number = 0; number < run.PieceCount; number++)
        {
            var piece = run.Piece(number);
            if (piece.Kind == PieceKind.Arc) tally.Add(piece.Arc.Radius, piece.URadius, truth.Arcs[arc++].Radius);
        }

        Assert.Equal(truth.Arcs.Length, arc);
    }
}
