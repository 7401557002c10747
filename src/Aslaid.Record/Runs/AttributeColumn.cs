namespace Aslaid.Record;

/// <summary>One attribute of runs: what the journal set, else what their own shots state.</summary>
public sealed class AttributeColumn
{
    private readonly AttributeValues values;
    private readonly List<string> said = [];

    /// <summary>The attribute of a name.</summary>
    public AttributeColumn(AsBuiltRecord record, string name) => values = new(record.Site, name);

    /// <summary>Values along a run, one for as long as it stays the same, parted by bars; null where there is none.</summary>
    public string? Of(Run run)
    {
        said.Clear();
        values.AddOf(run, said);
        return said.Count == 0 ? null : string.Join('|', said);
    }
}
