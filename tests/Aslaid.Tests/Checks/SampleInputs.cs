using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>A sample site as inputs of a record, read by plain splitting: these tests judge checks, not readers.</summary>
internal static class SampleInputs
{
    public static RecordInputs Of(SampleSite site)
    {
        var builder = new ShotTableBuilder();
        var known = new Dictionary<(string Crew, string Id), int>();
        foreach (var file in site.Shots)
        {
            var (firstRow, line) = (builder.Count, 1);
            foreach (var row in SampleRow.Of(file)) Add(builder, known, row, ++line);
            builder.EndBatch(file.Name, "", firstRow, file.Crew, default);
        }

        var control = site.Control.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(text => text.Split(','))
            .Select(c => new ControlPoint(c[0], new(Number(c[1]), Number(c[2])), Number(c[3]), Number(c[4]), Number(c[5])));
        return new(builder.Build(), [], Codes(site.Codes), [.. control], Settings.Default);
    }

    private static void Add(ShotTableBuilder builder, Dictionary<(string, string), int> known, SampleRow row, int line)
    {
        var time = row["time"].Length == 0 ? long.MinValue : DateTimeOffset.Parse(row["time"], CultureInfo.InvariantCulture).UtcTicks;
        var leg = row["leg"].Length == 0 ? Leg.Straight : Enum.Parse<Leg>(row["leg"], ignoreCase: true);
        var again = row.Again ? known[(row.Crew, row["id"])] : -1;
        var at = builder.Add(Encoding.UTF8.GetBytes(row["id"]), Number(row["east"]), Number(row["north"]), Number(row["height"]),
            builder.Codes.Keep(row["code"]), builder.Labels.Keep(OrNull(row["run"])), leg, line, again, time, 60, Number(row["u_plan"]), Number(row["u_height"]));
        if (!row.Again) known.TryAdd((row.Crew, row["id"]), at);
        foreach (var column in new[] { "method", "setup", "fix", "seen", "note" }) builder.TextColumn(column)[at] = builder.Texts.Keep(OrNull(row[column]));
    }

    private static CodeBook Codes(string csv)
    {
        var lines = csv.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var header = Cells(lines[0]);
        return new([.. lines.Skip(1).Select(line => Entry(header.Zip(Cells(line)).ToDictionary(cell => cell.First, cell => cell.Second)))]);
    }

    private static CodeEntry Entry(Dictionary<string, string> cells)
    {
        return new(cells["code"], Enum.Parse<CodeKind>(cells["kind"], ignoreCase: true))
        {
            Service = OrNull(cells["service"]),
            TolerancePlan = Limit("tol_plan_m"),
            ToleranceHeight = Limit("tol_height_m"),
            ToleranceHigh = Limit("tol_high_m"),
            ToleranceLow = Limit("tol_low_m"),
            Plan95Max = Limit("plan_95_max_m"),
            Height95Max = Limit("height_95_max_m"),
            SpacingMax = Limit("spacing_max_m"),
            SagittaMax = Limit("sagitta_max_m"),
            RadiusMin = Limit("radius_min_m"),
            RadiusMax = Limit("radius_max_m"),
            Closes = cells["closes"] == "yes",
            EndReach = Limit("end_reach_m"),
            EndsOn = [.. cells["ends_on"].Split(' ', StringSplitOptions.RemoveEmptyEntries)],
            NeedsProof = cells["needs_proof"] == "yes",
        };

        double? Limit(string column) => cells[column].Length == 0 ? null : Number(cells[column]);
    }

    private static List<string> Cells(string line)
    {
        var (cells, cell, quoted) = (new List<string>(), new StringBuilder(), false);
        foreach (var letter in line)
        {
            if (letter == '"') quoted = !quoted;
            else if (letter == ',' && !quoted) Next();
            else cell.Append(letter);
        }

        Next();
        return cells;

        void Next()
        {
            cells.Add(cell.ToString());
            cell.Clear();
        }
    }

    private static string? OrNull(string cell) => cell.Length == 0 ? null : cell;

    private static double Number(string cell) => cell.Length == 0 ? double.NaN : double.Parse(cell, CultureInfo.InvariantCulture);
}
