using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What was built, as the inputs show it: the outcome of <see cref="Derivation.Derive"/>.</summary>
public sealed class AsBuiltRecord
{
    internal AsBuiltRecord(
        RecordInputs inputs, Site site, FindingTable findings, ImmutableArray<Hold> holds, ImmutableArray<Quantity> quantities,
        ImmutableArray<string> unresolved)
    {
        (Inputs, Site, Findings, Holds, Quantities, Unresolved) = (inputs, site, findings, holds, quantities, unresolved);
    }

    /// <summary>What it was derived from.</summary>
    public RecordInputs Inputs { get; }

    /// <summary>Shots as they now stand, runs, points, control.</summary>
    public Site Site { get; }

    /// <summary>Shots as they now stand.</summary>
    public CurrentShots Shots => Site.Shots;

    /// <summary>Runs.</summary>
    public RunTable Runs => Site.Runs;

    /// <summary>What was measured as a run and no longer counts: superseded, removed, or a check of a run that stands.</summary>
    public FormerRuns Former => Site.Former;

    /// <summary>Rows of shots that are points by themselves, control left out.</summary>
    public ImmutableArray<int> Points => Site.Points;

    /// <summary>Findings.</summary>
    public FindingTable Findings { get; }

    /// <summary>Each length of each run, in run order and along the run: open, held, complete or covered.</summary>
    public ImmutableArray<Hold> Holds { get; }

    /// <summary>The lengths of one run.</summary>
    public IEnumerable<Hold> HoldsOf(int run)
    {
        var (low, high) = (0, Holds.Length); // holds are in run order
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (Holds[middle].Run < run) low = middle + 1;
            else high = middle;
        }

        for (; low < Holds.Length && Holds[low].Run == run; low++) yield return Holds[low];
    }

    /// <summary>Quantities by code.</summary>
    public ImmutableArray<Quantity> Quantities { get; }

    /// <summary>Entries that name a run or shot that does not exist as the journal now stands, in words.</summary>
    public ImmutableArray<string> Unresolved { get; }

    /// <summary>Position of the last journal entry behind it; 0 for none.</summary>
    public int Position => Inputs.Journal.IsEmpty ? 0 : Inputs.Journal[^1].Position;
}
