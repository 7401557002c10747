using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>All findings, as columns, in the order of the catalogue and then as found.</summary>
public sealed class FindingTable
{
    internal FindingTable(RunTable runs, ImmutableArray<ICheck> checks, Findings[] found)
    {
        (RunTable, Checks) = (runs, checks);
        CheckOf = [.. found.SelectMany((f, check) => Enumerable.Repeat(check, f.Severities.Count))];
        Count = CheckOf.Length;
        Severities = Joined(found, f => f.Severities);
        Runs = Joined(found, f => f.Runs);
        Froms = Joined(found, f => f.Froms);
        Tos = Joined(found, f => f.Tos);
        AtEast = Joined(found, f => f.AtEast);
        AtNorth = Joined(found, f => f.AtNorth);
        AtHeight = Joined(found, f => f.AtHeight);
        Measured = Joined(found, f => f.Measured);
        Allowed = Joined(found, f => f.Allowed);
        WordsOf = Joined(found, f => f.Words);
        ShotList = Joined(found, f => f.Shots);
        FigureList = Joined(found, f => f.Figures);
        FirstShot = Starts(found, f => f.ShotCounts);
        FirstFigure = Starts(found, f => f.FigureCounts);
        Ids = new string[Count];
        States = new FindingState[Count];
        AcceptedAt = new int[Count];
        Under = new int[Count];
    }

    /// <summary>How many findings.</summary>
    public int Count { get; }

    /// <summary>The checks that looked.</summary>
    public ImmutableArray<ICheck> Checks { get; }

    /// <summary>The runs that findings speak of.</summary>
    public RunTable RunTable { get; }

    internal int[] CheckOf { get; }

    internal Severity[] Severities { get; }

    internal int[] Runs { get; }

    internal double[] Froms { get; }

    internal double[] Tos { get; }

    internal double[] AtEast { get; }

    internal double[] AtNorth { get; }

    internal double[] AtHeight { get; }

    internal double[] Measured { get; }

    internal double[] Allowed { get; }

    internal string?[] WordsOf { get; }

    internal int[] ShotList { get; }

    internal int[] FirstShot { get; }

    internal double[] FigureList { get; }

    internal int[] FirstFigure { get; }

    internal string[] Ids { get; }

    internal FindingState[] States { get; }

    internal int[] AcceptedAt { get; }

    internal int[] Under { get; }

    /// <summary>The handle of a finding.</summary>
    public Finding this[int number] => new(this, number);

    /// <summary>Numbers of the findings that fold under each one that leads, rising.</summary>
    private ILookup<int, int> FoldedUnder => folded ??= Enumerable.Range(0, Count).Where(number => Under[number] >= 0).ToLookup(number => Under[number]);

    private ILookup<int, int>? folded;

    internal IEnumerable<Finding> FoldedOf(int number) => FoldedUnder[number].Select(other => this[other]);

    /// <summary>The finding of an id, or null.</summary>
    public Finding? Find(string id)
    {
        var number = Array.FindIndex(Ids, known => string.Equals(known, id, StringComparison.OrdinalIgnoreCase));
        return number < 0 ? null : new Finding(this, number);
    }

    private static T[] Joined<T>(Findings[] found, Func<Findings, List<T>> column) => [.. found.SelectMany(column)];

    private static int[] Starts(Findings[] found, Func<Findings, List<int>> counts)
    {
        var starts = new List<int> { 0 };
        foreach (var count in found.SelectMany(counts)) starts.Add(starts[^1] + count);
        return [.. starts];
    }
}
