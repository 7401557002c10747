using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A length of a run that somebody said is covered, and when that was told.</summary>
/// <param name="Run">Number of the run.</param>
/// <param name="From">Chainage, metres.</param>
/// <param name="To">Chainage, metres.</param>
/// <param name="Ticks">When the entry was written, UTC.</param>
/// <param name="Position">Journal position of the entry.</param>
public readonly record struct Covering(int Run, double From, double To, long Ticks, int Position)
{
    /// <summary>Coverings in force by run, the earliest told first. One of a run that does not exist is left out: holds tell of it.</summary>
    internal static ImmutableArray<Covering> Of(RunTable runs, ImmutableArray<JournalEntry> inForce)
    {
        var coverings = ImmutableArray.CreateBuilder<Covering>();
        foreach (var entry in inForce)
            if (entry.What is LengthCovered cover && runs.Find(cover.Run) is { } run)
                coverings.Add(new(run.Number, cover.From, cover.To, entry.Time.UtcTicks, entry.Position));
        coverings.Sort((a, b) => (a.Run, a.Ticks, a.Position).CompareTo((b.Run, b.Ticks, b.Position)));
        return coverings.ToImmutable();
    }
}
