using System.IO;

namespace Aslaid.Cli;

/// <summary>Text in aligned columns; figures to the right.</summary>
internal sealed class Columns(params ReadOnlySpan<string> heads)
{
    private readonly List<string[]> rows = [heads.ToArray()];

    public void Add(params ReadOnlySpan<string> cells) => rows.Add(cells.ToArray());

    public void Write(TextWriter to)
    {
        var widths = Enumerable.Range(0, rows[0].Length).Select(column => rows.Max(row => row[column].Length)).ToArray();
        var right = widths.Select((_, column) => rows.Count > 1 && rows.Skip(1).All(row => IsFigure(row[column]))).ToArray();
        foreach (var row in rows)
        {
            var cells = row.Select((cell, column) => right[column] ? cell.PadLeft(widths[column]) : cell.PadRight(widths[column]));
            to.WriteLine(string.Join("  ", cells).TrimEnd());
        }
    }

    private static bool IsFigure(string cell) => cell.Length == 0 || cell == "–" || char.IsAsciiDigit(cell[^1]) && cell.All(c => char.IsAsciiDigit(c) || c is '.' or '-' or ' ' or '±');
}
