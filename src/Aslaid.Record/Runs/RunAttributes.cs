using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Attributes of runs as the journal sets them.</summary>
internal static class RunAttributes
{
    public static void Apply(RunTable runs, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        foreach (var entry in inForce)
        {
            if (entry.What is not AttributeSet set) continue;
            if (runs.Find(set.Run) is { } run) runs.SetAttribute(run.Number, set.Name, set.Value);
            else unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: there is no run {set.Run}."));
        }
    }
}
