using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Attributes of runs as the journal sets them.</summary>
internal static class RunAttributes
{
    /// <summary>Sets them in the order of the journal.</summary>
    /// <param name="cut">Positions of the entries that did cut a run: its new part begins with what was said of the whole.</param>
    public static void Apply(RunTable runs, ImmutableArray<JournalEntry> inForce, IReadOnlySet<int> cut, ICollection<string> unresolved)
    {
        foreach (var entry in inForce)
        {
            if (entry.What is RunSplit split && cut.Contains(entry.Position)) PassOn(runs, split);
            if (entry.What is not AttributeSet set) continue;
            if (runs.Find(set.Run) is { } run) runs.SetAttribute(run.Number, set.Name, set.Value);
            else unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: there is no run {set.Run}."));
        }
    }

    /// <summary>What was said of the end is true of the last part alone, what was said of the start of the first.</summary>
    private static void PassOn(RunTable runs, RunSplit split)
    {
        if (runs.Find(split.Run) is not { } whole || runs.Find(RunShaping.KeyOfPart(split.Run, split.Label)) is not { } part) return;
        foreach (var (name, value) in runs.AttributesOf(whole.Number))
        {
            if (!Is(name, "start")) runs.SetAttribute(part.Number, name, value);
            if (Is(name, "end")) runs.RemoveAttribute(whole.Number, name);
        }

        static bool Is(string name, string end) => string.Equals(name, end, StringComparison.OrdinalIgnoreCase);
    }
}
