using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>The record of a sample site, read by plain splitting: a drawing needs no reader of files.</summary>
internal static class SampleRecord
{
    public static AsBuiltRecord Of(SampleSite site, ImmutableArray<JournalEntry> journal = default) => Derivation.Derive(new(
        Shots(site), journal.IsDefault ? [] : journal, Codes(site.Codes), Control(site.Control), Settings.Default));

    public static CodeBook Codes(string csv)
    {
        var lines = csv.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var header = Cells(lines[0]);
        return new([.. lines.Skip(1).Select(line =>
        {
            var cells = Cells(line);
            string? Cell(string name) => cells[header.IndexOf(name)] is { Length: > 0 } text ? text : null;
            return new CodeEntry(Cell("code")!, Enum.Parse<CodeKind>(Cell("kind")!, ignoreCase: true))
            {
                Name = Cell("name"), Service = Cell("service"), MeasuredAt = Cell("measured_at"),
                Colour = Cell("colour"), Line = Cell("line"), Symbol = Cell("symbol"), Closes = Cell("closes") == "yes",
            };
        })]);
    }

    private static ImmutableArray<ControlPoint> Control(string csv) =>
    [
        .. csv.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => line.Split(','))
            .Select(c => new ControlPoint(c[0], new(Number(c[1]), Number(c[2])), Number(c[3]), Number(c[4]), Number(c[5]))),
    ];

    private static ShotTable Shots(SampleSite site)
    {
        var table = new ShotTableBuilder();
        var known = new Dictionary<(string Crew, string Id), int>();
        foreach (var file in site.Shots)
        {
            var first = table.Count;
            var lines = file.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
            var header = Cells(lines[0]);
            for (var line = 1; line < lines.Length; line++)
            {
                var cells = Cells(lines[line]);
                string Cell(string name) => cells[header.IndexOf(name)];
                var again = Cell("east").Length == 0 ? known.GetValueOrDefault((file.Crew, Cell("id")), -1) : -1;
                var row = table.Add(
                    Encoding.UTF8.GetBytes(Cell("id")), Number(Cell("east")), Number(Cell("north")), Number(Cell("height")),
                    table.Codes.Keep(Cell("code")), table.Labels.Keep(Cell("run").Length == 0 ? null : Cell("run")),
                    Cell("leg").Length == 0 ? Leg.Straight : Enum.Parse<Leg>(Cell("leg"), ignoreCase: true), line + 1, again,
                    DateTimeOffset.TryParse(Cell("time"), CultureInfo.InvariantCulture, out var time) ? time.UtcTicks : long.MinValue, 60,
                    Number(Cell("u_plan")), Number(Cell("u_height")));
                table.TextColumn("note")[row] = table.Texts.Keep(Cell("note"));
                if (again < 0) known.TryAdd((file.Crew, Cell("id")), row);
            }

            table.EndBatch(file.Name, new string('0', 64), first, file.Crew, default);
        }

        return table.Build();
    }

    private static double Number(string text) => text.Length == 0 ? double.NaN : double.Parse(text, CultureInfo.InvariantCulture);

    private static List<string> Cells(string line)
    {
        var (cells, cell, quoted) = (new List<string>(), new StringBuilder(), false);
        foreach (var letter in line)
        {
            if (letter == '"') quoted = !quoted;
            else if (letter == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else if (letter != '\r') cell.Append(letter);
        }

        cells.Add(cell.ToString());
        return cells;
    }
}
