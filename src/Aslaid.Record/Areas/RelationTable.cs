using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Runs that lie in another, as a cable in a duct, and runs of one bank.</summary>
public sealed class RelationTable
{
    private readonly SortedDictionary<int, int> within = [];
    private readonly Dictionary<int, int> bank = [];

    /// <summary>The run in which a run lies, or null.</summary>
    public int? In(int run) => within.TryGetValue(run, out var of) ? of : null;

    /// <summary>Runs that lie in a run, rising.</summary>
    public IEnumerable<int> Inside(int run) => within.Where(pair => pair.Value == run).Select(pair => pair.Key);

    /// <summary>Runs of one bank with a run, itself left out, rising.</summary>
    public IEnumerable<int> Bank(int run) => bank.TryGetValue(run, out var of) ? bank.Where(pair => pair.Value == of && pair.Key != run).Select(pair => pair.Key).Order() : [];

    /// <summary>Whether two runs may touch: one lies in the other, at any depth, or both are of one bank.</summary>
    public bool MayTouch(int a, int b) => Holds(a, b) || Holds(b, a) || bank.TryGetValue(Outermost(a), out var first) && bank.TryGetValue(Outermost(b), out var second) && first == second;

    private bool Holds(int outer, int inner)
    {
        for (var at = inner; within.TryGetValue(at, out var of); at = of)
            if (of == outer) return true;
        return false;
    }

    private int Outermost(int run)
    {
        while (within.TryGetValue(run, out var of)) run = of;
        return run;
    }

    internal static RelationTable Of(RunTable runs, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        var table = new RelationTable();
        foreach (var entry in inForce)
        {
            if (entry.What is not RelationSet said) continue;
            if (Known(said.Run, entry) is not { } run || Known(said.Of, entry) is not { } of) continue;
            if (run == of) Say(entry, $"{said.Run} is related to itself");
            else if (said.Relation == RunRelation.Bank) table.Join(run, of);
            else if (table.Holds(run, of)) Say(entry, $"{said.Of} lies in {said.Run} already");
            else table.within[run] = of;
        }

        return table;

        int? Known(string key, JournalEntry entry)
        {
            if (runs.Find(key) is { } run) return run.Number;
            Say(entry, $"there is no run {key}");
            return null;
        }

        void Say(JournalEntry entry, string what) => unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: {what}."));
    }

    private void Join(int a, int b)
    {
        var (first, second) = (bank.GetValueOrDefault(a, a), bank.GetValueOrDefault(b, b));
        foreach (var run in bank.Where(pair => pair.Value == second).Select(pair => pair.Key).ToArray()) bank[run] = first;
        (bank[a], bank[b]) = (first, first);
    }
}
