namespace Aslaid.Record;

/// <summary>One entry of the journal, which is only ever appended to.</summary>
/// <param name="Position">From 1, without gaps.</param>
/// <param name="Time">When it was written.</param>
/// <param name="By">Who wrote it.</param>
/// <param name="Why">The reason given; empty only where the act is its own reason (an intake).</param>
/// <param name="What">What it changes.</param>
public sealed record JournalEntry(int Position, DateTimeOffset Time, Actor By, string Why, Change What);
