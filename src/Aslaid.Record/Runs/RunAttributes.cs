using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Attributes of runs as the journal sets them. They follow a run that is cut or joined.</summary>
internal static class RunAttributes
{
    /// <summary>Sets them in the order of the journal.</summary>
    /// <param name="cut">Positions of the entries that did cut a run: its new part begins with what was said of the whole.</param>
    public static void Apply(RunTable runs, ImmutableArray<JournalEntry> inForce, IReadOnlySet<int> cut, ICollection<string> unresolved)
    {
        var joined = new Dictionary<string, string>(StringComparer.Ordinal);
        var later = new List<(int Position, AttributeSet Set)>();
        foreach (var entry in inForce)
        {
            if (entry.What is RunJoined join) joined.TryAdd(join.Run, join.Into);
            if (entry.What is RunSplit split && cut.Contains(entry.Position)) PassOn(runs, split);
            if (entry.What is not AttributeSet set) continue;
            if (runs.Find(set.Run) is { } run) runs.SetAttribute(run.Number, set.Name, set.Value);
            else later.Add((entry.Position, set));
        }

        foreach (var (position, set) in later)
            if (OfPart(runs, set, Standing(runs, joined, set.Run)) is { } problem) unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {position}: {problem}."));
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
    }

    /// <summary>The run that a joined one went into, and that one in its turn; null where none stands.</summary>
    private static Run? Standing(RunTable runs, Dictionary<string, string> joined, string key)
    {
        for (var steps = 0; steps <= joined.Count && joined.TryGetValue(key, out var into); steps++)
        {
            if (runs.Find(into) is { } run) return run;
            key = into;
        }

        return null;
    }

    /// <summary>Lets what was said of a part hold for the run that it went into, whose own word prevails; or tells why it cannot.</summary>
    private static string? OfPart(RunTable runs, AttributeSet set, Run? whole)
    {
        if (whole is not { } run) return $"there is no run {set.Run}";
        if (Is(set.Name, "start") || Is(set.Name, "end") || Is(set.Name, "flow")) return $"{set.Run} is part of {run.Key} now; say the {set.Name} of that run";
        if (runs.AttributesOf(run.Number).TryGetValue(set.Name, out var own))
            return own == set.Value ? null : $"{set.Run} is part of {run.Key} now, whose {set.Name} is {own}, not {set.Value}";
        runs.SetAttribute(run.Number, set.Name, set.Value);
        return null;
    }

    private static bool Is(string name, string other) => string.Equals(name, other, StringComparison.OrdinalIgnoreCase);
}
