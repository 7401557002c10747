using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// What names, layers and properties of designs stand for, as CSV: <c>design, code</c>; where wanted also <c>level</c> (top, centre, invert, soffit,
/// underside: of what the design's heights are) and <c>status</c> (new, existing).
/// </summary>
public static class DesignMapCsv
{
    private static readonly string[] Needed = ["design", "code"];
    private static readonly string[] All = [.. Needed, "level", "status"];
    private static readonly string[] Levels = ["top", "centre", "invert", "soffit", "underside"];

    /// <summary>Reads a map; each word once, whatever its capitals.</summary>
    public static TableIntake<DesignMap> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, Needed, rejected);
        var words = ImmutableArray.CreateBuilder<DesignWord>();
        if (table is not null)
        {
            var lines = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
            while (table.Read())
                if (Word(table, lines) is { } word) words.Add(word);
            if (words.Count == 0 && rejected.Count == 0) rejected.Add(0, null, (string?)null, "the file has a header but no rows; a word of a design and its code a line were expected below it");
        }

        return new(rejected.Count == 0 ? new(words.ToImmutable()) : null, rejected.First, rejected.Count, table?.Unknown(All) ?? []);
    }

    private static DesignWord? Word(CsvTable table, Dictionary<string, int> lines)
    {
        var (design, code) = (table.Find("design"), table.Find("code"));
        if (table.Text(design) is not { } word)
        {
            table.RejectEmpty(design, "the cell is empty; a name, layer or property of the design was expected");
            return null;
        }

        if (!lines.TryAdd(word, table.Line))
        {
            table.Reject(design, table.Cell(design), string.Create(CultureInfo.InvariantCulture, $"stands in line {lines[word]} already; each word once was expected: remove one"));
            return null;
        }

        if (table.Text(code) is not { } means)
        {
            table.RejectEmpty(code, "the cell is empty; a code of the code book was expected");
            return null;
        }

        var level = OneOf(table, "level", Levels);
        var status = OneOf(table, "status", ["new", "existing"]);
        return new(word, means, level, status switch { "new" => RunStatus.New, "existing" => RunStatus.Existing, _ => null });
    }

    private static string? OneOf(CsvTable table, string name, string[] words)
    {
        if (table.Find(name) is not (>= 0 and var column) || table.Text(column) is not { } text) return null;
        if (words.Contains(text)) return text;
        table.Reject(column, table.Cell(column), $"is none of {string.Join(", ", words)}");
        return null;
    }
}
