using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A session by what names it, and what its check shots say.</summary>
/// <param name="Number">From 0, as <see cref="CurrentShots.Session"/> has it.</param>
/// <param name="Batch">Number of its batch.</param>
/// <param name="Crew">Null where not named, as the others.</param>
/// <param name="Shots">Shots that count.</param>
public sealed record SessionFacts(int Number, int Batch, string? Crew, string? Instrument, string? Setup, int Shots, SessionAccuracy Accuracy)
{
    /// <summary>Of every session of a record with shots, in order.</summary>
    public static ImmutableArray<SessionFacts> Of(AsBuiltRecord record)
    {
        var shots = record.Shots;
        var (counts, firsts) = (new int[shots.SessionCount], new int[shots.SessionCount]);
        for (var row = shots.Count - 1; row >= 0; row--)
        {
            firsts[shots.Session[row]] = row;
            if (shots.IsShot(row) && shots.Used[row]) counts[shots.Session[row]]++;
        }

        var facts = ImmutableArray.CreateBuilder<SessionFacts>(counts.Length);
        for (var session = 0; session < counts.Length; session++)
        {
            if (counts[session] == 0) continue; // rows that use shots again, or shots set aside
            var (raw, first) = (shots.Raw, firsts[session]);
            facts.Add(new(session, raw.BatchOf(first).Number, raw.Crew(first), raw.Text("instrument", first), raw.Text("setup", first), counts[session], shots.Sessions[session]));
        }

        return facts.ToImmutable();
    }
}
