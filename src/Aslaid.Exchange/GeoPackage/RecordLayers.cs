using System.Buffers;
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using System.Text;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// The as-built record as layers of a GeoPackage: shots, lines with true arcs, areas, findings, and a chorded copy of lines and
/// areas for readers without curves.
/// </summary>
public static class RecordLayers
{
    /// <summary>Largest distance between an arc and the chords that stand for it in the chorded copy, metres.</summary>
    public const double Sagitta = 0.002;

    private static readonly ImmutableArray<GeoPackageColumn> RunColumns =
    [
        new("run", GeoPackageType.Text, Required: true), new("label", GeoPackageType.Text), new("code", GeoPackageType.Text),
        new("name", GeoPackageType.Text), new("service", GeoPackageType.Text), new("closed", GeoPackageType.Boolean),
        new("state", GeoPackageType.Text), new("plan_length_m", GeoPackageType.Real), new("u_plan_length_m", GeoPackageType.Real),
        new("slope_length_m", GeoPackageType.Real), new("u_slope_length_m", GeoPackageType.Real), new("area_m2", GeoPackageType.Real),
        new("u_area_m2", GeoPackageType.Real), new("arcs", GeoPackageType.Whole), new("shots", GeoPackageType.Text),
        new("u_plan_max_m", GeoPackageType.Real), new("status", GeoPackageType.Text), new("flow", GeoPackageType.Text),
        new("start", GeoPackageType.Text), new("end", GeoPackageType.Text), new("layer", GeoPackageType.Text), new("attributes", GeoPackageType.Text),
    ];

    /// <summary>By vertex of the true path; the ends of chords are no shots.</summary>
    private static readonly ImmutableArray<GeoPackageColumn> VertexColumns =
    [
        new("vertex_u_plan_m", GeoPackageType.Text), new("vertex_u_height_m", GeoPackageType.Text),
        new("vertex_method", GeoPackageType.Text), new("vertex_time", GeoPackageType.Text),
    ];

    /// <summary>The layers, empty.</summary>
    /// <param name="srsId">A spatial reference that the file holds.</param>
    public static ImmutableArray<GeoPackageTable> Tables(int srsId) =>
    [
        new("shots", "Shots", "Shots as the journal leaves them; those set aside are marked", [
            new("batch", GeoPackageType.Whole), new("line", GeoPackageType.Whole), new("shot", GeoPackageType.Text, Required: true),
            new("code", GeoPackageType.Text), new("code_measured", GeoPackageType.Text), new("run", GeoPackageType.Text),
            new("crew", GeoPackageType.Text), new("time", GeoPackageType.Text), new("u_plan_m", GeoPackageType.Real),
            new("u_height_m", GeoPackageType.Real), new("accuracy", GeoPackageType.Text), new("fix", GeoPackageType.Text),
            new("method", GeoPackageType.Text), new("used", GeoPackageType.Boolean), new("height_measured_m", GeoPackageType.Real)], // as measured, where the journal changed it
            new(CurveKind.Point, CurveDimensions.Height, srsId)),
        new("lines", "Lines", "Runs as true straights and arcs; M is chainage in metres", [.. RunColumns, .. VertexColumns],
            new(CurveKind.CompoundCurve, CurveDimensions.HeightAndMeasure, srsId)),
        new("areas", "Areas", "Closed runs of area codes as true straights and arcs", [.. RunColumns, .. VertexColumns],
            new(CurveKind.CurvePolygon, CurveDimensions.Height, srsId)),
        new("lines_chorded", "Lines, chorded", "Copy of the lines for readers without curves; chords stay within 0.002 m of their arcs", RunColumns,
            new(CurveKind.LineString, CurveDimensions.HeightAndMeasure, srsId)),
        new("areas_chorded", "Areas, chorded", "Copy of the areas for readers without curves; chords stay within 0.002 m of their arcs", RunColumns,
            new(CurveKind.Polygon, CurveDimensions.Height, srsId)),
        new("derived", "Derived lines", "Lines that nobody shot: runs moved aside and up by their sections; counted in nothing", [
            new("derived", GeoPackageType.Text, Required: true), new("of", GeoPackageType.Text), new("part", GeoPackageType.Text), new("code", GeoPackageType.Text),
            new("layer", GeoPackageType.Text), new("right_m", GeoPackageType.Real), new("up_m", GeoPackageType.Real), new("plan_length_m", GeoPackageType.Real)],
            new(CurveKind.CompoundCurve, CurveDimensions.HeightAndMeasure, srsId)),
        new("findings", "Findings", "What checks say about the record", [
            new("finding", GeoPackageType.Text, Required: true), new("check_name", GeoPackageType.Text), new("severity", GeoPackageType.Text),
            new("state", GeoPackageType.Text), new("shots", GeoPackageType.Text), new("run", GeoPackageType.Text),
            new("from_m", GeoPackageType.Real), new("to_m", GeoPackageType.Real), new("measured", GeoPackageType.Real),
            new("allowed", GeoPackageType.Real), new("unit", GeoPackageType.Text), new("message", GeoPackageType.Text),
            new("cure", GeoPackageType.Text), new("reshoot", GeoPackageType.Text), new("under", GeoPackageType.Text)],
            new(CurveKind.Point, CurveDimensions.Height, srsId)),
    ];

    /// <summary>Fills the layers with a record, whatever they held before. To be called inside a transaction.</summary>
    public static void Write(GeoPackageFile file, AsBuiltRecord record, int srsId, DateTimeOffset changed)
    {
        var tables = Tables(srsId).ToDictionary(table => table.Name);
        using var encoded = new EncodedRuns(record, srsId, Sagitta); // goes on while shots are inserted
        WriteShots(file, tables["shots"], record, changed);
        WriteRuns(file, tables, encoded, changed);
        WriteDerived(file, tables["derived"], record, srsId, changed);
        WriteFindings(file, tables["findings"], record, changed);
    }

    private static void WriteDerived(GeoPackageFile file, GeoPackageTable table, AsBuiltRecord record, int srsId, DateTimeOffset changed)
    {
        using var fill = file.Fill(table);
        var (rows, first, number) = (fill.Rows, fill.FirstColumn, 0);
        var (vertices, blob) = (new List<CurveVertex>(), new ArrayBufferWriter<byte>(4096));
        foreach (var line in DerivedLines.Of(record))
        {
            CurveVertices.True(line.Path, vertices);
            var span = CollectionsMarshal.AsSpan(vertices);
            var lacks = line.Path.Vertices.Any(vertex => vertex.Height is null);
            blob.ResetWrittenCount();
            var box = GeoPackageBlob.Write(blob, srsId, CurveKind.CompoundCurve, span, lacks ? CurveDimensions.Measure : CurveDimensions.HeightAndMeasure);
            fill.Start(++number, new EncodedGeometry(blob.WrittenSpan.ToArray(), box, lacks));
            rows.Text(first, line.Key(record.Runs));
            rows.Text(first + 1, record.Runs[line.Of].Key);
            rows.Text(first + 2, line.Part.Part);
            rows.Text(first + 3, line.Part.PartCode);
            rows.Text(first + 4, record.Inputs.Delivery.LayerOf(line.Part.PartCode));
            rows.Real(first + 5, line.Part.Right);
            rows.Real(first + 6, line.Part.Up);
            rows.Real(first + 7, line.PlanLength);
            rows.Row();
        }

        fill.Complete(changed);
    }

    /// <summary>Whether a run encloses an area and not merely lies on the ground.</summary>
    public static bool IsArea(Run run) => run.IsClosed && run.Entry?.Kind == CodeKind.Area;

    private static void WriteShots(GeoPackageFile file, GeoPackageTable table, AsBuiltRecord record, DateTimeOffset changed)
    {
        var shots = record.Shots;
        var raw = shots.Raw;
        var runs = RunOfShot(record);
        var keys = new byte[record.Runs.Count][];
        var crews = raw.TextColumns.GetValueOrDefault("crew");
        var (fix, method) = (raw.TextColumns.GetValueOrDefault("fix"), raw.TextColumns.GetValueOrDefault("method"));
        var (codes, rawCodes, texts) = (new Utf8Words(shots.Codes), new Utf8Words(raw.Codes), new Utf8Words(raw.Texts));
        var recoded = shots.HasChanges;
        using var fill = file.Fill(table);
        var (rows, first) = (fill.Rows, fill.FirstColumn);
        foreach (var batch in raw.Batches)
        {
            var crew = batch.Crew is null ? null : Encoding.UTF8.GetBytes(batch.Crew);
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
                if (shots.IsShot(row)) Put(row, batch.Number, crew);
        }

        for (var row = 0; row < raw.Count; row++)
            if (raw.IsConstructed(row) && shots.Used[row]) Put(row, 0, null);
        fill.Complete(changed);

        void Put(int row, int batch, byte[]? crew)
        {
            fill.Start(row + 1, raw.East[row], raw.North[row], shots.Heights[row]);
            rows.Whole(first, batch);
            rows.Whole(first + 1, raw.Line[row]);
            rows.Text(first + 2, raw.IdBytes(row));
            codes.Put(rows, first + 3, shots.Code[row]);
            if (recoded && shots.BecauseOf(row).Count > 0) rawCodes.Put(rows, first + 4, raw.Code[row]);
            if (runs[row] is >= 0 and var run) rows.Text(first + 5, keys[run] ??= Encoding.UTF8.GetBytes(record.Runs[run].Key));
            if (crews is not null && crews[row] != Words.None) texts.Put(rows, first + 6, crews[row]);
            else if (crew is not null) rows.Text(first + 6, crew);
            if (raw.Time[row] != long.MinValue) rows.Text(first + 7, WrittenTime.Of(raw.Time[row], raw.Zone[row]));
            Real(rows, first + 8, shots.SigmaPlan[row] * Math.Sqrt(2));
            Real(rows, first + 9, shots.SigmaHeight[row]);
            rows.Text(first + 10, double.IsNaN(shots.SigmaPlan[row]) ? "none"u8 : raw.IsConstructed(row) ? "constructed"u8 : shots.IsDeclared(row) ? "declared"u8 : "stated"u8);
            if (fix is not null) texts.Put(rows, first + 11, fix[row]);
            if (raw.IsConstructed(row)) rows.Text(first + 12, "constructed: " + raw.Text("constructed", row));
            else if (method is not null) texts.Put(rows, first + 12, method[row]);
            rows.Whole(first + 13, shots.Used[row] ? 1 : 0);
            if (raw.Height[row] != shots.Heights[row]) Real(rows, first + 14, raw.Height[row]);
            rows.Row();
        }
    }

    /// <summary>The first run that goes through each shot, or −1.</summary>
    private static int[] RunOfShot(AsBuiltRecord record)
    {
        var runs = new int[record.Shots.Count];
        runs.AsSpan().Fill(-1);
        for (var run = record.Runs.Count - 1; run >= 0; run--)
            foreach (var shot in record.Runs[run].Members) runs[shot] = run;
        return runs;
    }

    private static void WriteRuns(GeoPackageFile file, Dictionary<string, GeoPackageTable> tables, EncodedRuns encoded, DateTimeOffset changed)
    {
        using var lines = file.Fill(tables["lines"]);
        using var linesChorded = file.Fill(tables["lines_chorded"]);
        using var areas = file.Fill(tables["areas"]);
        using var areasChorded = file.Fill(tables["areas_chorded"]);
        foreach (var run in encoded)
        {
            var fill = run.IsArea ? areas : lines;
            Put(fill, run, run.True);
            PutVertices(fill, run.Texts);
            fill.Rows.Row();
            fill = run.IsArea ? areasChorded : linesChorded;
            Put(fill, run, run.Chorded);
            fill.Rows.Row();
        }

        foreach (var fill in (TableFill[])[lines, linesChorded, areas, areasChorded]) fill.Complete(changed);
    }

    private static void Put(TableFill fill, EncodedRun encoded, EncodedGeometry geometry)
    {
        var (rows, first, run) = (fill.Rows, fill.FirstColumn, encoded.Run);
        fill.Start(run.Number + 1, geometry);
        rows.Text(first, run.Key);
        rows.Text(first + 1, run.Label);
        rows.Text(first + 2, run.Code);
        rows.Text(first + 3, run.Entry?.Name);
        rows.Text(first + 4, run.Entry?.Service);
        rows.Whole(first + 5, run.IsClosed ? 1 : 0);
        rows.Text(first + 6, encoded.State);
        rows.Real(first + 7, run.PlanLength);
        rows.Real(first + 8, run.UPlanLength);
        rows.Real(first + 9, run.SlopeLength);
        rows.Real(first + 10, run.USlopeLength);
        rows.Real(first + 11, run.Area);
        rows.Real(first + 12, run.UArea);
        rows.Whole(first + 13, encoded.Texts.Arcs);
        rows.Text(first + 14, encoded.Texts.Shots);
        rows.Real(first + 15, encoded.Texts.UPlanMax);
        var facts = run.Facts;
        rows.Text(first + 16, facts.StatusWord);
        if (facts.Flow != FlowSense.Unknown) rows.Text(first + 17, facts.FlowWord);
        rows.Text(first + 18, facts.Start);
        rows.Text(first + 19, facts.End);
        rows.Text(first + 20, encoded.Layer);
        rows.Text(first + 21, encoded.Attributes);
    }

    private static void PutVertices(TableFill fill, VertexTexts texts)
    {
        var (rows, first) = (fill.Rows, fill.FirstColumn + RunColumns.Length);
        rows.Text(first, texts.UPlan);
        rows.Text(first + 1, texts.UHeight);
        rows.Text(first + 2, texts.Method);
        rows.Text(first + 3, texts.Time);
    }

    private static void WriteFindings(GeoPackageFile file, GeoPackageTable table, AsBuiltRecord record, DateTimeOffset changed)
    {
        using var fill = file.Fill(table);
        var (rows, first) = (fill.Rows, fill.FirstColumn);
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            fill.Start(number + 1, finding.At.East, finding.At.North, finding.AtHeight ?? double.NaN);
            rows.Text(first, finding.Id);
            rows.Text(first + 1, finding.Check.Name);
            rows.Text(first + 2, EnumWords.Of(finding.Severity));
            rows.Text(first + 3, EnumWords.Of(finding.State));
            rows.Text(first + 4, TablesDeliverable.Ids(record, finding.Shots));
            rows.Text(first + 5, finding.Run?.Key);
            rows.Real(first + 6, finding.From);
            rows.Real(first + 7, finding.To);
            rows.Real(first + 8, finding.Measured);
            rows.Real(first + 9, finding.Allowed);
            rows.Text(first + 10, finding.Check.Unit);
            rows.Text(first + 11, finding.Message);
            rows.Text(first + 12, finding.Cure);
            rows.Text(first + 13, EnumWords.Of(finding.Reshoot));
            rows.Text(first + 14, finding.Under?.Id);
            rows.Row();
        }

        fill.Complete(changed);
    }

    private static void Real(BulkInsert rows, int column, double value)
    {
        if (!double.IsNaN(value)) rows.Real(column, value);
    }
}
