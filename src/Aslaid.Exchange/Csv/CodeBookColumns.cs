using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>A column of the code book: how an entry takes its cell, and how it gives it back.</summary>
internal sealed record CodeBookColumn(string Name, Func<CodeEntry, CsvTable, int, CodeEntry> Take, Func<CodeEntry, string?> Give);

/// <summary>The columns of the code book in the order in which they are written; code and kind come before them.</summary>
internal static class CodeBookColumns
{
    private static readonly NumberRule Length = new("a number of metres such as 0.05", 0, 1e6, "a length from 0 to 1000000 m");
    private static readonly NumberRule Degrees = new("a number of degrees such as 3", 0, 180, "an angle from 0 to 180 degrees");
    private static readonly NumberRule PerCent = new("a number of per cent such as 0.5", 0, 1000, "a fall from 0 to 1000 per cent");

    public static ImmutableArray<CodeBookColumn> All { get; } =
    [
        Text("name", e => e.Name, (e, v) => e with { Name = v }),
        Text("group", e => e.Group, (e, v) => e with { Group = v }),
        Text("service", e => e.Service, (e, v) => e with { Service = v }),
        new("measured_at", TakeMeasuredAt, e => e.MeasuredAt),
        Metres("od_m", e => e.OutsideDiameter, (e, v) => e with { OutsideDiameter = v }),
        Metres("wall_m", e => e.Wall, (e, v) => e with { Wall = v }),
        Metres("width_m", e => e.Width, (e, v) => e with { Width = v }),
        Metres("depth_m", e => e.Depth, (e, v) => e with { Depth = v }),
        Metres("tol_plan_m", e => e.TolerancePlan, (e, v) => e with { TolerancePlan = v }),
        Metres("tol_height_m", e => e.ToleranceHeight, (e, v) => e with { ToleranceHeight = v }),
        Metres("tol_high_m", e => e.ToleranceHigh, (e, v) => e with { ToleranceHigh = v }),
        Metres("tol_low_m", e => e.ToleranceLow, (e, v) => e with { ToleranceLow = v }),
        Metres("plan_95_max_m", e => e.Plan95Max, (e, v) => e with { Plan95Max = v }),
        Metres("height_95_max_m", e => e.Height95Max, (e, v) => e with { Height95Max = v }),
        Metres("spacing_max_m", e => e.SpacingMax, (e, v) => e with { SpacingMax = v }),
        Metres("sagitta_max_m", e => e.SagittaMax, (e, v) => e with { SagittaMax = v }),
        Metres("radius_min_m", e => e.RadiusMin, (e, v) => e with { RadiusMin = v }),
        Metres("radius_max_m", e => e.RadiusMax, (e, v) => e with { RadiusMax = v }),
        Number("tangent_break_max_deg", Degrees, e => e.TangentBreakMaxDegrees, (e, v) => e with { TangentBreakMaxDegrees = v }),
        Yes("closes", e => e.Closes, (e, v) => e with { Closes = v }),
        Number("fall_min_pct", PerCent, e => e.FallMinPercent, (e, v) => e with { FallMinPercent = v }),
        Metres("cover_min_m", e => e.CoverMin, (e, v) => e with { CoverMin = v }),
        Metres("end_reach_m", e => e.EndReach, (e, v) => e with { EndReach = v }),
        Text("ends_on", e => e.EndsOn.IsEmpty ? null : string.Join(' ', e.EndsOn), (e, v) => e with { EndsOn = Words(v) }),
        Yes("needs_proof", e => e.NeedsProof, (e, v) => e with { NeedsProof = v }),
        Metres("photo_every_m", e => e.PhotoEvery, (e, v) => e with { PhotoEvery = v }),
        Text("releases", e => e.Releases, (e, v) => e with { Releases = v }),
        Text("pay_item", e => e.PayItem, (e, v) => e with { PayItem = v }),
        Text("colour", e => e.Colour, (e, v) => e with { Colour = v }),
        Text("line", e => e.Line, (e, v) => e with { Line = v }),
        Text("symbol", e => e.Symbol, (e, v) => e with { Symbol = v }),
        Text("layer", e => e.Layer, (e, v) => e with { Layer = v }),
        Text("source", e => e.Source, (e, v) => e with { Source = v }),
    ];

    private static readonly string[] MeasuredAt = ["top", "centre", "invert", "soffit", "underside", "ground", "channel", "face", "back", "lip"];

    private static CodeBookColumn Text(string name, Func<CodeEntry, string?> give, Func<CodeEntry, string?, CodeEntry> take) =>
        new(name, (entry, table, column) => take(entry, table.Text(column)), give);

    private static CodeBookColumn Metres(string name, Func<CodeEntry, double?> give, Func<CodeEntry, double?, CodeEntry> take) =>
        Number(name, Length, give, take);

    private static CodeBookColumn Number(string name, NumberRule rule, Func<CodeEntry, double?> give, Func<CodeEntry, double?, CodeEntry> take) =>
        new(name, (entry, table, column) => take(entry, table.Number(column, rule)), entry => Csv.Number(give(entry)));

    private static CodeBookColumn Yes(string name, Func<CodeEntry, bool> give, Func<CodeEntry, bool, CodeEntry> take) =>
        new(name, (entry, table, column) => take(entry, TakeYes(table, column)), entry => give(entry) ? "yes" : null);

    private static bool TakeYes(CsvTable table, int column)
    {
        var word = table.Text(column)?.ToUpperInvariant();
        if (word is not (null or "YES" or "NO")) table.Reject(column, table.Cell(column), "is neither yes nor no; yes, no or nothing was expected");
        return word == "YES";
    }

    private static CodeEntry TakeMeasuredAt(CodeEntry entry, CsvTable table, int column)
    {
        var word = table.Text(column)?.ToLowerInvariant();
        if (word is not null && !MeasuredAt.Contains(word))
            table.Reject(column, table.Cell(column), $"is no place that is measured; {string.Join(", ", MeasuredAt)} or nothing was expected");
        return entry with { MeasuredAt = word };
    }

    private static ImmutableArray<string> Words(string? text) => text is null ? [] : [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries)];
}
