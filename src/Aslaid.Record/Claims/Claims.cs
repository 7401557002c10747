using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>One line of a claim's sheet. <c>ToDate</c> is <c>Previous</c> plus <c>Now</c>, always.</summary>
/// <param name="Previous">Claimed before.</param>
/// <param name="Now">Claimed with this period; negative where the record has shrunk since, as when a stretch was relaid shorter or set aside.</param>
/// <param name="ToDate">Claimed with it and before.</param>
public readonly record struct ClaimFigures(ClaimLine Line, double Previous, double Now, double ToDate);

/// <summary>A claim: what the record held at a journal position, less what was claimed before.</summary>
/// <param name="Period">Name of the period; null for what is not claimed yet.</param>
/// <param name="Entry">Journal position of the claim; 0 for what is not claimed yet.</param>
/// <param name="Upto">Journal position up to which the record counts.</param>
public sealed record Claim(string? Period, int Entry, int Upto, ImmutableArray<ClaimFigures> Lines);

/// <summary>Claims in the order in which they were made, and after them what is not claimed yet.</summary>
public static class Claims
{
    /// <param name="journal">The whole journal.</param>
    /// <param name="at">The record at a journal position.</param>
    public static ImmutableArray<Claim> Of(ImmutableArray<JournalEntry> journal, Func<int, AsBuiltRecord> at)
    {
        var claims = ImmutableArray.CreateBuilder<Claim>();
        var before = ImmutableSortedDictionary<ClaimLine, double>.Empty;
        foreach (var entry in Replay.InForce(journal))
        {
            if (entry.What is not ClaimMade claim) continue;
            var now = ClaimTake.Of(at(claim.Upto));
            claims.Add(new(claim.Period, entry.Position, claim.Upto, Lines(before, now)));
            before = now;
        }

        if (!journal.IsEmpty) claims.Add(new(null, 0, journal[^1].Position, Lines(before, ClaimTake.Of(at(journal[^1].Position)))));
        return claims.ToImmutable();
    }

    private static ImmutableArray<ClaimFigures> Lines(ImmutableSortedDictionary<ClaimLine, double> before, ImmutableSortedDictionary<ClaimLine, double> now) =>
    [
        .. before.Keys.Union(now.Keys).Order().Select(line => (Line: line, Was: before.GetValueOrDefault(line), Is: now.GetValueOrDefault(line)))
            .Select(line => new ClaimFigures(line.Line, line.Was, line.Is - line.Was, line.Is)),
    ];
}
