using System.Globalization;
using System.Text;
using CsvHelper;

namespace Aslaid.Exchange;

/// <summary>What every CSV that leaves the program shares.</summary>
public static class Csv
{
    private const string Dangerous = "=+-@\t\r";

    /// <summary>
    /// Text that a spreadsheet will not run as a formula: a leading apostrophe where it begins with <c>= + - @</c>, tab or carriage
    /// return. A plain number stays as it is. The readers of this program take the apostrophe off again.
    /// </summary>
    /// <remarks>A text that begins with apostrophes and then one of those gets one more, so that taking one off always restores it.</remarks>
    public static string Safe(string text)
    {
        var bare = text.AsSpan().TrimStart('\'');
        if (bare.Length == 0 || !Dangerous.Contains(bare[0], StringComparison.Ordinal)) return text;
        return bare.Length == text.Length && IsNumber(text) ? text : "'" + text;
    }

    /// <summary>The text that <see cref="Safe"/> was given.</summary>
    internal static ReadOnlySpan<byte> Unguarded(ReadOnlySpan<byte> cell)
    {
        if (cell[0] != '\'') return cell;
        var bare = cell.TrimStart((byte)'\'');
        return bare.Length > 0 && bare[0] is (byte)'=' or (byte)'+' or (byte)'-' or (byte)'@' or (byte)'\t' or (byte)'\r' ? cell[1..] : cell;
    }

    /// <summary>Rows of a table that this program wrote, cells by the name of their column; null where it is no such table.</summary>
    public static List<Dictionary<string, string>>? Read(byte[] file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, [], rejected);
        if (table is null) return null;
        var rows = new List<Dictionary<string, string>>();
        while (table.Read())
        {
            var row = new Dictionary<string, string>(StringComparer.Ordinal);
            for (var column = 0; column < table.Columns.Length; column++) row[table.Columns[column]] = table.Text(column) ?? "";
            rows.Add(row);
        }

        return rejected.Count == 0 ? rows : null;
    }

    /// <summary>A table as UTF-8, cells separated by commas, lines ended by a line feed; null is an empty cell.</summary>
    internal static byte[] Write(IEnumerable<IReadOnlyList<string?>> rows)
    {
        using var stream = new System.IO.MemoryStream();
        using (var writer = CsvWriter.Create(stream, new CsvWriterOptions { NewLine = "\n" }, leaveOpen: true))
        {
            foreach (var row in rows)
            {
                foreach (var cell in row) writer.WriteField(cell is null ? null : Safe(cell));
                writer.EndRecord();
            }
        }

        return stream.ToArray();
    }

    /// <summary>A number in the shortest form that reads back the same.</summary>
    internal static string? Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    private static bool IsNumber(string text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number)
        && double.IsFinite(number);
}
