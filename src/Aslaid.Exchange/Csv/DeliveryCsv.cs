using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// The delivery table as CSV: what the client asks of attributes, one attribute of one code a row. Allowed values are parted by
/// <c>|</c>, or a range with decimal points as <c>0.1..2.0</c>; layer and field are the client's own names.
/// </summary>
public static class DeliveryCsv
{
    private const string Range = "..";
    private static readonly string[] Needed = ["code", "attribute"];
    private static readonly string[] All = [.. Needed, "required", "allowed", "layer", "field"];

    /// <summary>Reads a delivery table; each attribute of a code once.</summary>
    public static TableIntake<DeliveryTable> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, Needed, rejected);
        var items = ImmutableArray.CreateBuilder<DeliveryItem>();
        if (table is not null)
        {
            var lines = new Dictionary<(string, string), int>();
            while (table.Read())
                if (Item(table, lines) is { } item) items.Add(item);
            if (items.Count == 0 && rejected.Count == 0)
                rejected.Add(0, null, (string?)null, "the file has a header but no rows; an attribute of a code a line was expected below it");
        }

        return new(rejected.Count == 0 ? new(items.ToImmutable()) : null, rejected.First, rejected.Count, table?.Unknown(All) ?? []);
    }

    /// <summary>Writes a delivery table as this reader reads it, in UTF-8.</summary>
    public static byte[] Write(DeliveryTable delivery)
    {
        ArgumentNullException.ThrowIfNull(delivery);
        return Csv.Write(
        [
            All,
            .. delivery.Items.Select(item => (IReadOnlyList<string?>)[item.Code, item.Attribute, item.Required ? "yes" : null, Allowed(item), item.Layer, item.Field]),
        ]);
    }

    /// <summary>What is allowed, as its cell has it; null where any value is.</summary>
    public static string? Allowed(DeliveryItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        if (!item.Words.IsEmpty) return string.Join('|', item.Words);
        return item.Least is { } least && item.Most is { } most ? Csv.Number(least) + Range + Csv.Number(most) : null;
    }

    private static DeliveryItem? Item(CsvTable table, Dictionary<(string, string), int> lines)
    {
        var (code, attribute) = (Named(table, "code", "a code of the code book"), Named(table, "attribute", "the name of an attribute"));
        var required = TakeYes(table, table.Find("required"));
        var (words, least, most) = TakeAllowed(table, table.Find("allowed"));
        var (layer, field) = (Maybe(table, "layer"), Maybe(table, "field"));
        if (code is null || attribute is null) return null;
        if (lines.TryAdd((code, attribute), table.Line)) return new(code, attribute, required) { Words = words, Least = least, Most = most, Layer = layer, Field = field };
        var column = table.Find("attribute");
        table.Reject(column, table.Cell(column), string.Create(CultureInfo.InvariantCulture,
            $"stands for {code} in line {lines[(code, attribute)]} already; each attribute of a code once was expected: remove one"));
        return null;
    }

    private static string? Named(CsvTable table, string name, string wanted)
    {
        var column = table.Find(name);
        if (table.Text(column) is not { } text) table.RejectEmpty(column, $"the cell is empty; {wanted} was expected");
        else if (CellText.HasUnseen(text)) table.Reject(column, table.Cell(column), "holds characters that cannot be seen; remove them");
        else return text;
        return null;
    }

    private static string? Maybe(CsvTable table, string name) => table.Find(name) is >= 0 and var column ? table.Text(column) : null;

    private static bool TakeYes(CsvTable table, int column)
    {
        var word = column < 0 ? null : table.Text(column)?.ToUpperInvariant();
        if (word is not (null or "YES" or "NO")) table.Reject(column, table.Cell(column), "is neither yes nor no; yes, no or nothing was expected");
        return word == "YES";
    }

    private static (ImmutableArray<string> Words, double? Least, double? Most) TakeAllowed(CsvTable table, int column)
    {
        if (column < 0 || table.Text(column) is not { } text) return ([], null, null);
        if (text.Contains(Range, StringComparison.Ordinal) && !text.Contains('|', StringComparison.Ordinal))
        {
            var range = RangeOf(text);
            if (range is null)
                table.Reject(column, table.Cell(column), "is no range; two numbers with decimal points, the smaller first, were expected, such as 0.1..2.0");
            return ([], range?.Least, range?.Most);
        }

        string[] words = [.. text.Split('|').Select(word => word.Trim())];
        if (words.Any(word => word.Length == 0))
            table.Reject(column, table.Cell(column), "has an empty value between bars; values such as PE|PVC, or a range such as 0.1..2.0, were expected");
        else if (words.Distinct().Count() < words.Length)
            table.Reject(column, table.Cell(column), "names a value twice; each value once was expected");
        return ([.. words], null, null);
    }

    private static (double Least, double Most)? RangeOf(string text)
    {
        var at = text.IndexOf(Range, StringComparison.Ordinal);
        return double.TryParse(text.AsSpan(0, at), NumberStyles.Float, CultureInfo.InvariantCulture, out var least)
            && double.TryParse(text.AsSpan(at + Range.Length), NumberStyles.Float, CultureInfo.InvariantCulture, out var most)
            && double.IsFinite(least) && double.IsFinite(most) && least <= most ? (least, most) : null;
    }
}
