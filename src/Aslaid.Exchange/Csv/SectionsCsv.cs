using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// Sections as CSV: code, part, right_m, up_m, part_code. A bank of ducts is one row with <c>rows</c>, <c>columns</c> and <c>pitch_m</c>, from its first
/// duct to the right and down; a strip is one row with <c>width_m</c>, whose second edge lies so far to the right.
/// </summary>
public static class SectionsCsv
{
    private static readonly string[] Needed = ["code", "part", "right_m", "up_m", "part_code"];
    private static readonly string[] All = [.. Needed, "rows", "columns", "pitch_m", "width_m"];
    private static readonly NumberRule Offset = new("a number of metres such as -0.125", -100, 100, "an offset from -100 to 100 m");
    private static readonly NumberRule Size = new("a number of metres such as 0.25", 0.001, 100, "a length from 0.001 to 100 m");
    private static readonly NumberRule Many = new("a whole number such as 3", 1, 50, "a number from 1 to 50");

    /// <summary>Reads sections; each part of a code once.</summary>
    public static TableIntake<SectionTable> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, Needed, rejected);
        var parts = ImmutableArray.CreateBuilder<SectionPart>();
        if (table is not null)
        {
            var seen = new Dictionary<(string, string), int>();
            while (table.Read()) Take(table, parts, seen);
            if (parts.Count == 0 && rejected.Count == 0) rejected.Add(0, null, (string?)null, "the file has a header but no rows; a part of a code a line was expected below it");
        }

        return new(rejected.Count == 0 ? new(parts.ToImmutable()) : null, rejected.First, rejected.Count, table?.Unknown(All) ?? []);
    }

    private static void Take(CsvTable table, ImmutableArray<SectionPart>.Builder parts, Dictionary<(string, string), int> seen)
    {
        var (code, part, partCode) = (Word(table, "code", "a code of the code book"), Word(table, "part", "the name of a part"), Word(table, "part_code", "the code of the part"));
        var (right, up) = (Needs(table, "right_m"), Needs(table, "up_m"));
        var (rows, columns, pitch, width) = (Maybe(table, "rows", Many), Maybe(table, "columns", Many), Maybe(table, "pitch_m", Size), Maybe(table, "width_m", Size));
        if ((rows > 1 || columns > 1) && pitch is null && table.Find("pitch_m") is var at)
        {
            table.RejectEmpty(at < 0 ? table.Find("part") : at, "a bank needs pitch_m, the distance from the middle of one duct to the next");
            return;
        }

        if (code is null || part is null || partCode is null || right is not { } first || up is not { } high) return;
        if (!seen.TryAdd((code, part), table.Line))
        {
            var column = table.Find("part");
            table.Reject(column, table.Cell(column), string.Create(CultureInfo.InvariantCulture, $"stands for {code} in line {seen[(code, part)]} already; each part of a code once was expected: rename or remove one"));
            return;
        }

        var (across, down) = ((int)(columns ?? 1), (int)(rows ?? 1));
        if (across * down == 1 && width is null) parts.Add(new(code, part, first, high, partCode));
        for (var row = 0; row < down && across * down > 1; row++)
            for (var column = 0; column < across; column++)
                parts.Add(new(code, string.Create(CultureInfo.InvariantCulture, $"{part} {row + 1}.{column + 1}"), first + column * (pitch ?? 0), high - row * (pitch ?? 0), partCode));
        if (width is not { } strip || across * down > 1) return;
        parts.Add(new(code, part + " left edge", first, high, partCode));
        parts.Add(new(code, part + " right edge", first + strip, high, partCode));
    }

    private static string? Word(CsvTable table, string name, string wanted)
    {
        var column = table.Find(name);
        if (table.Text(column) is not { } text) table.RejectEmpty(column, $"the cell is empty; {wanted} was expected");
        else if (CellText.HasUnseen(text)) table.Reject(column, table.Cell(column), "holds characters that cannot be seen; remove them");
        else return text;
        return null;
    }

    private static double? Needs(CsvTable table, string name)
    {
        var column = table.Find(name);
        if (table.Cell(column).Length == 0) table.RejectEmpty(column, "the cell is empty; a number of metres was expected, 0 where the part lies there");
        return table.Cell(column).Length == 0 ? null : table.Number(column, Offset);
    }

    private static double? Maybe(CsvTable table, string name, NumberRule rule) => table.Find(name) is >= 0 and var column && table.Cell(column).Length > 0 ? table.Number(column, rule) : null;
}
