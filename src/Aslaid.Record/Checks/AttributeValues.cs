using System.Globalization;

namespace Aslaid.Record;

/// <summary>Attributes of runs and points: what the journal set for a run prevails over the columns of its own shots.</summary>
/// <param name="shots">The shots.</param>
/// <param name="name">The attribute; where no column has just this name, one that differs by capitals is taken.</param>
internal readonly struct AttributeValues(CurrentShots shots, string name)
{
    private readonly int[]? texts = Column(shots.Raw.TextColumns, name);
    private readonly double[]? numbers = Column(shots.Raw.NumberColumns, name);

    public AttributeValues(Site site, string name)
        : this(site.Shots, name)
    {
    }

    /// <summary>Whether any column or journal entry can have it.</summary>
    public bool HasColumn => texts is not null || numbers is not null;

    /// <summary>Value of a shot; null where it has none.</summary>
    public string? Of(int row)
    {
        if (texts is not null && shots.Raw.Texts[texts[row]]?.Trim() is { Length: > 0 } word) return word;
        return numbers is null || double.IsNaN(numbers[row]) ? null : numbers[row].ToString("R", CultureInfo.InvariantCulture);
    }

    /// <summary>Adds the values of a run in order, one for as long as it stays the same; shots lent by another code are not asked.</summary>
    public void AddOf(Run run, List<string> into)
    {
        if (Set(run) is { } set)
        {
            into.Add(set);
            return;
        }

        if (!HasColumn) return;
        foreach (var shot in run.Members)
            if (shots.CodeColumn[shot] == run.Table.CodeWords[run.Number] && Of(shot) is { } value && (into.Count == 0 || into[^1] != value)) into.Add(value);
    }

    /// <summary>What the journal set; null where it set nothing, or nothing but blanks.</summary>
    public string? Set(Run run)
    {
        var attributes = run.Table.AttributesOf(run.Number);
        if (attributes.IsEmpty) return null;
        if (!attributes.TryGetValue(name, out var value))
            foreach (var (other, said) in attributes)
                if (string.Equals(other, name, StringComparison.OrdinalIgnoreCase)) value = said;
        return value?.Trim() is { Length: > 0 } word ? word : null;
    }

    private static T[]? Column<T>(System.Collections.Immutable.ImmutableSortedDictionary<string, T[]> columns, string name)
    {
        if (columns.TryGetValue(name, out var column)) return column;
        foreach (var (other, here) in columns)
            if (string.Equals(other, name, StringComparison.OrdinalIgnoreCase)) return here;
        return null;
    }
}
