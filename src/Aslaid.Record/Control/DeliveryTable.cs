using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What the client asks of one attribute of one code.</summary>
/// <param name="Code">A code of the code book.</param>
/// <param name="Attribute">Name of the attribute, as the journal or a column of the shots has it.</param>
/// <param name="Required">Whether each run or point of the code must have it.</param>
public sealed record DeliveryItem(string Code, string Attribute, bool Required)
{
    /// <summary>Values of which it must have one; empty where any word will do.</summary>
    public ImmutableArray<string> Words { get; init; } = [];

    /// <summary>Least number allowed, in the attribute's unit; null where there is no range.</summary>
    public double? Least { get; init; }

    /// <summary>Largest number allowed.</summary>
    public double? Most { get; init; }

    /// <summary>The client's layer for the code.</summary>
    public string? Layer { get; init; }

    /// <summary>The client's name for the attribute.</summary>
    public string? Field { get; init; }
}

/// <summary>What the client asks of attributes: code, attribute, whether required, what is allowed, and the client's own names.</summary>
public sealed class DeliveryTable
{
    private readonly Dictionary<string, string> layers = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Code, string Attribute), string> fields = [];

    /// <summary>A delivery table of these items.</summary>
    public DeliveryTable(ImmutableArray<DeliveryItem> items)
    {
        Items = items;
        foreach (var item in items)
        {
            if (!string.IsNullOrWhiteSpace(item.Layer)) layers.TryAdd(item.Code, item.Layer.Trim());
            if (!string.IsNullOrWhiteSpace(item.Field)) fields.TryAdd((item.Code, item.Attribute), item.Field.Trim());
        }
    }

    /// <summary>Nothing asked for.</summary>
    public static DeliveryTable Empty { get; } = new([]);

    /// <summary>The items, in the table's order.</summary>
    public ImmutableArray<DeliveryItem> Items { get; }

    /// <summary>The client's layer for a code: the first that its items name; null where none does.</summary>
    public string? LayerOf(string code) => layers.GetValueOrDefault(code);

    /// <summary>The client's name of an attribute of a code; the attribute's own where he names none.</summary>
    public string FieldOf(string code, string attribute) => fields.GetValueOrDefault((code, attribute), attribute);

    /// <summary>Attributes of a code of which the client names a field or asks for a value.</summary>
    public IEnumerable<string> AttributesOf(string code) => Items.Where(item => item.Code == code).Select(item => item.Attribute);
}
