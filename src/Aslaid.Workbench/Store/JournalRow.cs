using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>An entry as kept: what it means, its bytes, and the chain's hash after it.</summary>
internal sealed record JournalRow(JournalEntry Entry, byte[] Bytes, byte[] Hash);
