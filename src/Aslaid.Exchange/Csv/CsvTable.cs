using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using CsvHelper;

namespace Aslaid.Exchange;

/// <summary>
/// A table with a header line, read strictly: comma, semicolon or tab, as many cells in each row as in the header, quotes that
/// close on their line. What is wrong with a line is rejected here; its rows are then passed over.
/// </summary>
internal sealed class CsvTable : IDisposable
{
    public const int MostColumns = 200;
    private readonly CsvReader reader;
    private readonly Rejections rejected;
    private int brokenLine; // a line whose quotes are already rejected

    private CsvTable(ReadOnlyMemory<byte> text, char separator, Rejections rejected)
    {
        this.rejected = rejected;
        Separator = separator;
        Numbers = new(separator != ',' ? null :
            "has a decimal comma in a file whose cells are separated by commas; write a decimal point, or separate the cells by semicolons");
        reader = CsvReader.Create(text, new CsvReaderOptions
        {
            Separator = separator,
            HasHeader = false,
            DetectSeparatorHint = false,
            TrackLineNumbers = true,
            AllowLineBreaksInQuotes = false, // one wrong quote must not swallow the rest of the file
            MalformedData = CsvMalformedDataHandling.Recover, // to name every wrong line, not only the first
            OnMalformedRecord = Malformed,
            FieldCountMismatch = CsvFieldCountHandling.Allow, // likewise
            TrimWhitespace = false,
        });
    }

    /// <summary>Names of the columns as the header writes them, trimmed.</summary>
    public ImmutableArray<string> Columns { get; private set; } = [];

    public char Separator { get; }

    /// <summary>Reads the numbers of this file.</summary>
    public NumberReader Numbers { get; }

    /// <summary>Line of the current row, the first line of the file being 1.</summary>
    public int Line { get; private set; }

    /// <summary>How much of the file is read.</summary>
    public long BytesRead => reader.ByteOffset;

    /// <summary>Opens a table that has the needed columns; null when the file was rejected.</summary>
    public static CsvTable? Open(ReadOnlyMemory<byte> file, string[] needed, Rejections rejected)
    {
        if (FileGate.Open(file, rejected) is not { } text) return null;
        if (SeparatorOf(HeaderLine(text.Span), needed) is not { } separator)
        {
            rejected.Add(1, null, HeaderLine(text.Span),
                $"is no header of a table; names separated by commas, semicolons or tabs were expected, among them {string.Join(", ", needed)}");
            return null;
        }

        var table = new CsvTable(text, separator, rejected);
        if (table.ReadHeader(needed)) return table;
        table.Dispose();
        return null;
    }

    /// <summary>The first line that is not blank.</summary>
    public static ReadOnlySpan<byte> HeaderLine(ReadOnlySpan<byte> text)
    {
        if (text.StartsWith("\uFEFF"u8)) text = text[3..];
        text = text.TrimStart("\r\n"u8);
        var end = text.IndexOfAny((byte)'\r', (byte)'\n');
        return end < 0 ? text : text[..end];
    }

    /// <summary>What separates the names of a header: by which most of the needed names appear, then by which most names appear.</summary>
    public static char? SeparatorOf(ReadOnlySpan<byte> header, string[] needed)
    {
        var line = Encoding.UTF8.GetString(header);
        char? best = null;
        var (bestNeeded, bestNames) = (0, 1);
        foreach (var separator in ",;\t")
        {
            var names = line.Split(separator).Select(name => name.Trim(' ', '\t', '"')).ToHashSet(StringComparer.OrdinalIgnoreCase);
            var known = needed.Count(names.Contains);
            var count = line.Count(letter => letter == separator) + 1;
            if (count < 2 || (known, count).CompareTo((bestNeeded, bestNames)) <= 0) continue;
            (best, bestNeeded, bestNames) = (separator, known, count);
        }

        return best;
    }

    /// <summary>Place of a column, or −1.</summary>
    public int Find(string name)
    {
        for (var place = 0; place < Columns.Length; place++)
            if (string.Equals(Columns[place], name, StringComparison.OrdinalIgnoreCase)) return place;
        return -1;
    }

    /// <summary>Goes to the next row that has its cells.</summary>
    public bool Read()
    {
        while (reader.Read())
        {
            Line = (int)reader.LineNumber;
            if (Line == brokenLine) continue;
            if (reader.FieldCount == Columns.Length) return true;
            if (reader.RawRecord.IndexOfAnyExcept((byte)' ', (byte)'\t') < 0) continue; // a blank line with a space in it
            rejected.Add(Line, null, (string?)null, rejected.Full ? "" : string.Create(CultureInfo.InvariantCulture,
                $"the line has {Cells(reader.FieldCount)} where the header has {Columns.Length}, separated by {SeparatorName}s; {Cells(Columns.Length)} were expected: a cell that holds a {SeparatorName} must stand in quotes"));
        }

        return false;
    }

    /// <summary>A cell of the current row, without quotes and blanks around it. Valid until the next row.</summary>
    public ReadOnlySpan<byte> Cell(int column) => CellText.Trimmed(reader.GetSpan(column));

    /// <summary>A cell as text, an apostrophe that only guards it against a spreadsheet taken off; null where it is empty.</summary>
    public string? Text(int column) => Cell(column) is { Length: > 0 } cell ? Encoding.UTF8.GetString(Csv.Unguarded(cell)) : null;

    /// <summary>A number; null where the cell is empty, or was rejected.</summary>
    public double? Number(int column, NumberRule rule)
    {
        var cell = Cell(column);
        if (cell.Length == 0) return null;
        var number = Numbers.Read(cell, Line, rule, out var refused);
        if (refused is not null) Reject(column, cell, refused);
        return number;
    }

    /// <summary>A name that each row must have and no two may share; null where it was rejected.</summary>
    /// <param name="lines">Line of each name so far.</param>
    public string? Name(int column, Dictionary<string, int> lines)
    {
        if (Text(column) is not { } name)
        {
            RejectEmpty(column, "the cell is empty; a name was expected");
            return null;
        }

        if (CellText.HasUnseen(name))
        {
            Reject(column, Cell(column), "holds characters that cannot be seen; remove them");
            return null;
        }

        if (lines.TryAdd(name, Line)) return name;
        Reject(column, Cell(column), string.Create(CultureInfo.InvariantCulture, $"stands in line {lines[name]} already; each name once was expected: rename or remove one"));
        return null;
    }

    /// <summary>A remark for each column that is none of these.</summary>
    public ImmutableArray<string> Unknown(IReadOnlyCollection<string> known) =>
        [.. Columns.Where(name => !known.Contains(name, StringComparer.OrdinalIgnoreCase)).Select(name => $"Column {name} is unknown here and was not read.")];

    /// <summary>Rejects a cell of the current row.</summary>
    public void Reject(int column, ReadOnlySpan<byte> found, string expected) => rejected.Add(Line, Columns[column], found, expected);

    /// <summary>Rejects an empty cell of the current row.</summary>
    public void RejectEmpty(int column, string expected) => rejected.Add(Line, Columns[column], (string?)null, expected);

    public void Dispose() => reader.Dispose();

    private string SeparatorName => Separator switch { ',' => "comma", ';' => "semicolon", _ => "tab" };

    private static string Cells(int count) => count == 1 ? "1 cell" : string.Create(CultureInfo.InvariantCulture, $"{count} cells");

    private bool ReadHeader(string[] needed)
    {
        if (!reader.Read()) throw new InvalidOperationException("A file that is not blank has a first line.");
        Line = (int)reader.LineNumber;
        if (Line == brokenLine) return false;
        if (reader.FieldCount > MostColumns)
        {
            rejected.Add(Line, null, (string?)null, string.Create(CultureInfo.InvariantCulture,
                $"the header has {reader.FieldCount} columns; {MostColumns} at most were expected"));
            return false;
        }

        var before = rejected.Count;
        var names = ImmutableArray.CreateBuilder<string>(reader.FieldCount);
        var seen = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        for (var place = 0; place < reader.FieldCount; place++)
        {
            var name = Encoding.UTF8.GetString(Cell(place));
            names.Add(name);
            if (name.Length == 0)
                rejected.Add(Line, null, (string?)null, string.Create(CultureInfo.InvariantCulture,
                    $"column {place + 1} has no name; a name was expected: name it or remove the column"));
            else if (CellText.HasUnseen(name))
                rejected.Add(Line, null, CellText.Shown(name), "is a column name with characters that cannot be seen; remove them");
            else if (!seen.TryAdd(name, place))
                rejected.Add(Line, name, (string?)null, string.Create(CultureInfo.InvariantCulture,
                    $"columns {seen[name] + 1} and {place + 1} have the same name; each name once was expected: rename or remove one"));
        }

        Columns = names.MoveToImmutable();
        foreach (var name in needed)
            if (!seen.ContainsKey(name))
                rejected.Add(Line, name, (string?)null, $"the header has no such column; it has {CellText.Shown(string.Join(", ", Columns))}, and {string.Join(", ", needed)} are needed");
        return rejected.Count == before;
    }

    private void Malformed(CsvMalformedRecord record)
    {
        brokenLine = (int)record.LineNumber;
        rejected.Add(brokenLine, null, CellText.Shown(record.RawRecord), record.Reason switch
        {
            CsvMalformedReason.LineBreakInQuotes or CsvMalformedReason.UnterminatedQuote =>
                "opens a quote that is not closed on its line; a closing quote was expected, and no line end within a cell",
            CsvMalformedReason.TextAfterClosingQuote =>
                "has text behind a closing quote; a quote within a cell must be doubled, and the cell stand in quotes",
            _ => "has a quote within a cell that does not begin with one; put the cell in quotes and double the quote in it",
        });
    }
}
