using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Why shots that were taken as a run are no longer part of what lies there.</summary>
public enum FormerAs : byte
{
    /// <summary>Measured anew: the later shots say better where the same thing lies.</summary>
    Superseded,

    /// <summary>Taken out, and another laid instead.</summary>
    Removed,

    /// <summary>A second measurement, to check the first; it lays nothing.</summary>
    Check,
}

/// <summary>Shots that were a run, or part of one, until somebody decided otherwise.</summary>
/// <param name="Run">Their path and its measures, in <see cref="FormerRuns.Table"/>.</param>
/// <param name="Of">Key of the run that stands.</param>
/// <param name="Batch">The batch that brought the label again.</param>
/// <param name="Entry">Journal position of the decision.</param>
public readonly record struct FormerRun(Run Run, string Of, FormerAs As, int Batch, int Entry);

/// <summary>What was measured as a run and no longer counts: kept with its path, in no quantity, hold or check.</summary>
public sealed class FormerRuns
{
    internal FormerRuns(RunTable table, IReadOnlyList<FormerMembers> members)
    {
        Table = table;
        All = [.. members.Select((former, number) => new FormerRun(table[number], former.Of, former.As, former.Batch, former.Entry))];
    }

    /// <summary>Their paths.</summary>
    public RunTable Table { get; }

    /// <summary>All of them, in the order in which they were decided.</summary>
    public ImmutableArray<FormerRun> All { get; }

    /// <summary>Those that belong to a run that stands.</summary>
    public IEnumerable<FormerRun> Of(string key) => All.Where(former => former.Of == key);
}

/// <summary>A former run before any geometry.</summary>
internal sealed record FormerMembers(RunMembers Members, string Of, FormerAs As, int Batch, int Entry);
