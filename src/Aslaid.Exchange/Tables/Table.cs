using System.Globalization;
using System.IO;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>A CSV being written (RFC 4180, but lines end in LF): comma, decimal point, UTF-8 without mark, header first.</summary>
internal sealed class Table : IDisposable
{
    private readonly StreamWriter text;
    private readonly int columns;
    private int cell;

    public Table(string path, params IReadOnlyList<string> header)
    {
        text = new(path, false, new UTF8Encoding(false), 1 << 16);
        columns = header.Count;
        foreach (var name in header) Text(name);
        End();
    }

    /// <summary>A cell of words; empty for null.</summary>
    public Table Text(string? words) => Cell(Quoted(Guarded(words ?? "")));

    /// <summary>A cell with a number; empty for null.</summary>
    public Table Number(double? number, int decimals) => Cell(number is { } known ? Fixed.Text(known, decimals) : "");

    /// <summary>A cell with a number as short as it can be without losing a bit.</summary>
    public Table Number(double? number) => Cell(number?.ToString("R", CultureInfo.InvariantCulture) ?? "");

    public Table Whole(int number) => Cell(number.ToString(CultureInfo.InvariantCulture));

    public Table YesNo(bool yes) => Cell(yes ? "yes" : "no");

    /// <summary>Ends the row.</summary>
    public void End()
    {
        if (cell != columns) throw new InvalidOperationException($"A row has {cell} cells; the header has {columns}.");
        text.Write('\n');
        cell = 0;
    }

    public void Dispose() => text.Dispose();

    /// <summary>A spreadsheet runs a cell that begins like a formula. Such words get an apostrophe before them, numbers do not.</summary>
    internal static string Guarded(string words)
    {
        if (words.Length == 0) return words;
        var first = words.AsSpan().TrimStart();
        var risky = words[0] is '\t' or '\r' or '\n' || first.Length > 0 && first[0] is '=' or '+' or '-' or '@' or '＝' or '＋' or '－' or '＠';
        return risky && !IsNumber(words) ? "'" + words : words;
    }

    private static bool IsNumber(string words) =>
        double.TryParse(words, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number)
        && double.IsFinite(number);

    private static string Quoted(string words) =>
        words.AsSpan().IndexOfAny(",\"\r\n") < 0 ? words : "\"" + words.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";

    private Table Cell(string ready)
    {
        if (cell++ > 0) text.Write(',');
        text.Write(ready);
        return this;
    }
}
