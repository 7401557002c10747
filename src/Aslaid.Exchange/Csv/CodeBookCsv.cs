using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// The code book as CSV that people edit in a spreadsheet: one code a row, columns in any order, only code and kind needed. An
/// empty cell means that a check does not apply. Metres, degrees and per cent as the columns' names say; ends_on lists codes
/// parted by spaces.
/// </summary>
public static class CodeBookCsv
{
    private static readonly string[] Needed = ["code", "kind"];
    private static readonly string[] Kinds = ["point", "line", "area", "control"];

    /// <summary>Reads a code book. A column that it does not know is named in a remark, and so is a code in ends_on that the book lacks.</summary>
    public static TableIntake<CodeBook> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, Needed, rejected);
        var entries = ImmutableArray.CreateBuilder<CodeEntry>();
        if (table is not null)
        {
            var lines = new Dictionary<string, int>(StringComparer.Ordinal);
            while (table.Read())
                if (Entry(table, lines) is { } entry) entries.Add(entry);
            if (entries.Count == 0 && rejected.Count == 0)
                rejected.Add(0, null, (string?)null, "the file has a header but no rows; a code a line was expected below it");
        }

        if (table is null || rejected.Count > 0) return new(null, rejected.First, rejected.Count, []);
        var book = new CodeBook(entries.ToImmutable());
        return new(book, [], 0, [.. table.Unknown([.. Needed, .. CodeBookColumns.All.Select(c => c.Name)]), .. LackingEnds(book)]);
    }

    /// <summary>Writes a code book as this reader reads it, in UTF-8.</summary>
    public static byte[] Write(CodeBook book)
    {
        ArgumentNullException.ThrowIfNull(book);
        return Csv.Write(
        [
            [.. Needed, .. CodeBookColumns.All.Select(column => column.Name)],
            .. book.Entries.Select(entry => (IReadOnlyList<string?>)[entry.Code, Kinds[(int)entry.Kind], .. CodeBookColumns.All.Select(column => column.Give(entry))]),
        ]);
    }

    private static CodeEntry? Entry(CsvTable table, Dictionary<string, int> lines)
    {
        var (codeColumn, kindColumn) = (table.Find("code"), table.Find("kind"));
        var code = table.Name(codeColumn, lines);
        if (code is not null && code.AsSpan().IndexOfAny(" /\t") >= 0)
            table.Reject(codeColumn, table.Cell(codeColumn), "holds a space or a slash; a code of letters, digits and hyphens such as WATER-MAIN was expected");
        var kind = Array.IndexOf(Kinds, table.Text(kindColumn)?.ToLowerInvariant());
        if (kind < 0) table.Reject(kindColumn, table.Cell(kindColumn), $"is no kind; {string.Join(", ", Kinds)} was expected");
        var entry = new CodeEntry(code ?? "", (CodeKind)Math.Max(0, kind));
        foreach (var column in CodeBookColumns.All)
            if (table.Find(column.Name) is >= 0 and var place) entry = column.Take(entry, table, place);
        if (entry.RadiusMin > entry.RadiusMax)
            table.Reject(table.Find("radius_min_m"), table.Cell(table.Find("radius_min_m")), "is larger than radius_max_m of the same code; exchange the two");
        return code is null ? null : entry;
    }

    private static IEnumerable<string> LackingEnds(CodeBook book) =>
        from entry in book.Entries
        from end in entry.EndsOn
        where book.Find(end) < 0
        select $"{entry.Code} may end on {end}, which is no code of this book.";
}
