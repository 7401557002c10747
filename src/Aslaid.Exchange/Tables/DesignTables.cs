using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>The record held against the design, as tables.</summary>
internal static class DesignTables
{
    public static void Deviations(AsBuiltRecord record, string path)
    {
        using var table = new Table(
            path,
            "run", "shot", "code", "design", "chainage_m", "offset_m", "u_offset_m", "tol_plan_m", "within_plan", "p_conforms_plan", "verdict_plan",
            "height_m", "u_height_m", "tol_low_m", "tol_high_m", "within_height", "p_conforms_height", "verdict_height");
        foreach (var one in Record.Deviations.Of(record))
        {
            table.Text(one.Run?.Key).Text(TablesDeliverable.Ids(record, [one.Row])).Text(one.Code).Text(one.Design).Number(one.Chainage, Fixed.Coordinate)
                .Number(one.Offset, Fixed.Coordinate).Number(one.UOffset, Fixed.Coordinate).Number(one.Plan?.Limits.Upper, Fixed.Coordinate);
            Judged(table, one.Plan);
            table.Number(one.Height, Fixed.Coordinate).Number(one.UHeight, Fixed.Coordinate).Number(one.Level?.Limits.Lower, Fixed.Coordinate).Number(one.Level?.Limits.Upper, Fixed.Coordinate);
            Judged(table, one.Level);
            table.End();
        }
    }

    public static void Coverage(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "design", "code", "file", "length_m", "measured_m", "share_pct", "missing");
        foreach (var one in record.Site.Coverage.Lines)
            table.Text(one.Line.Name).Text(one.Line.Code).Text(one.Line.Of.What.FileName).Number(one.Line.Length, Fixed.Coordinate).Number(one.Length, Fixed.Coordinate).Number(100 * one.Share, 2)
                .Text(string.Join("; ", one.Missing.Select(range => string.Create(CultureInfo.InvariantCulture, $"{one.Line.StationAt(range.From):0.00} to {one.Line.StationAt(range.To):0.00}")))).End();
        foreach (var point in record.Site.Coverage.Points)
            table.Text(point.Point.Name).Text(point.Code).Text(point.Of.What.FileName).Number(null, 0).Number(null, 0).Number(0, 2).Text("no shot").End();
    }

    public static void Cover(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "run", "code", "chainage_m", "surface", "surface_kind", "surface_date", "surface_height_m", "top_m", "cover_m", "u_cover_m", "cover_min_m");
        var covers = new CoverAlong(record.Site);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (run.Entry?.CoverMin is not { } least) continue;
            foreach (var point in covers.Of(run))
                table.Text(run.Key).Text(run.Code).Number(point.Chainage, Fixed.Coordinate).Text(point.Surface?.Name).Text(point.Surface is { } surface ? EnumWords.Of(surface.Kind) : null)
                    .Text(point.Surface?.Date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)).Number(point.SurfaceHeight, Fixed.Coordinate).Number(point.Top, Fixed.Coordinate)
                    .Number(point.Cover, Fixed.Coordinate).Number(covers.U(run, point), Fixed.Coordinate).Number(least, Fixed.Coordinate).End();
        }
    }

    public static void Clearances(AsBuiltRecord record, string path)
    {
        using var table = new Table(
            path, "kind", "run", "other_run", "east_m", "north_m", "chainage_m", "other_chainage_m", "plan_m", "vertical_m", "space_m", "u_m", "least_m", "within", "verdict", "p_conforms", "source");
        foreach (var one in record.Site.Clearances.All)
        {
            table.Text(EnumWords.Of(one.Kind)).Text(record.Runs[one.One].Key).Text(record.Runs[one.Other].Key).Number(one.At.East, Fixed.Coordinate).Number(one.At.North, Fixed.Coordinate)
                .Number(one.Chainage, Fixed.Coordinate).Number(one.OtherChainage, Fixed.Coordinate).Number(one.Plan, Fixed.Coordinate).Number(one.Vertical, Fixed.Coordinate).Number(one.Space, Fixed.Coordinate)
                .Number(one.Judgement.U, Fixed.Coordinate).Number(one.Judgement.Limits.Lower, Fixed.Coordinate).Text(one.Judgement.Within switch { true => "yes", false => "no", _ => null })
                .Text(EnumWords.Of(one.Judgement.Verdict)).Number(one.Judgement.PConforms, Fixed.Figure).Text(one.Rule.Source).End();
        }
    }

    private static void Judged(Table table, Judgement? judged) =>
        table.Text(judged?.Within switch { true => "yes", false => "no", _ => null }).Number(judged?.PConforms, Fixed.Figure).Text(judged is { } known ? EnumWords.Of(known.Verdict) : null);
}
