using System.Globalization;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// The record as a drawing, <c>record.dxf</c>: ASCII DXF, version AC1015, metres, site grid. In plan, at elevation 0, each run
/// is one polyline whose arcs are bulges; beside it, on <c>…-ARCS</c>, the same arcs by themselves; on <c>…-3D</c> a polyline in
/// space whose chords leave the arcs by no more than <see cref="Sagitta"/>.
/// </summary>
/// <remarks>
/// Layers, colours and line types follow the code book. Points lie on the layer of their code, with their height; shots of runs
/// on <c>…-SHOTS</c>; runs that are not new on <c>…-EXISTING</c>, <c>…-ABANDONED</c>, <c>…-REMOVED</c> or <c>…-SUPERSEDED</c>; what has no height at elevation 0 on <c>…-NO-HEIGHT</c>. Extended data of application <c>ASLAID</c> carry
/// key, accuracy, method and time. Positions to 1 nm, so radii come back from the bulges to 1e-6 m.
/// </remarks>
public sealed class DxfDeliverable : IDeliverable
{
    private const double RunText = 0.5; // metres on the ground: 2.5 mm at 1:200
    private const double ShotText = 0.2;

    /// <inheritdoc/>
    public string Name => "dxf";

    /// <inheritdoc/>
    public string What => "drawing with true arcs in plan and polylines in space, DXF, site grid, metres";

    /// <summary>How far a chord may leave its arc in the polylines in space, metres, above 0.</summary>
    public double Sagitta { get; init; } = 0.005;

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        var facts = new ShotFacts(handover.Record);
        DxfDrawing.Save(folder.PathOf("record.dxf"), drawing => Draw(drawing, handover, facts));
    }

    private void Draw(DxfDrawing drawing, Handover handover, ShotFacts facts)
    {
        drawing.Comments.AddRange([$"{handover.Project}: as-built record, {handover.Stamp}", "Site grid, metres; plan at elevation 0.", .. Cautions.All]);
        drawing.Comments.Add(string.Create(CultureInfo.InvariantCulture, $"Polylines in space leave their arcs by at most {Sagitta} m."));
        for (var run = 0; run < handover.Record.Runs.Count; run++) Draw(drawing, handover.Record.Runs[run], handover.Record.Inputs.Delivery);
        foreach (var line in DerivedLines.Of(handover.Record)) Draw(drawing, handover.Record, line);
        Shots(drawing, handover.Record, facts);
    }

    /// <summary>A line that nobody shot, on a layer that says so.</summary>
    private static void Draw(DxfDrawing drawing, AsBuiltRecord record, DerivedLine line)
    {
        var chain = PlanSegments.Of(line.Path);
        if (chain.Count == 0) return;
        var entry = record.Inputs.Codes[line.Part.PartCode];
        var closed = chain.Count > 1 && chain[0].From == chain[^1].To;
        drawing.Chain(drawing.Layer(DxfStyles.LayerOf(entry, line.Part.PartCode, record.Inputs.Delivery) + "-DERIVED", DxfStyles.Of(entry)), chain, closed, [$"derived {line.Key(record.Runs)}", "not measured, counted in nothing"]);
    }

    private void Draw(DxfDrawing drawing, Run run, DeliveryTable delivery)
    {
        var path = run.PieceCount == 0 ? null : run.Path;
        var chain = path is null ? [] : PlanSegments.Of(path);
        if (path is null || chain.Count == 0)
        {
            drawing.Comments.Add($"{run.Key} lies in one place and has no line.");
            return;
        }

        var look = DxfStyles.Of(run.Entry);
        var name = DxfStyles.LayerOf(run.Entry, run.Code, delivery) + (run.Counts ? "" : $"-{run.Facts.StatusWord.ToUpperInvariant()}");
        var closed = chain.Count > 1 && chain[0].From == chain[^1].To;
        drawing.Chain(drawing.Layer(name, look), chain, closed, Told(run));

        var arcs = drawing.Layer(name + "-ARCS", look with { LineType = DxfStyles.Continuous });
        foreach (var piece in path.Pieces)
            if (piece.Kind == PieceKind.Arc) drawing.Arc(arcs, piece.Arc, $"run {run.Key}");

        var points = path.Chords(Sagitta);
        var missing = points.Any(point => point.Height is null);
        if (missing) drawing.Comments.Add($"{run.Key} lacks a height and is drawn in plan only.");
        else drawing.Space(drawing.Layer(name + "-3D", look), points.AsSpan(), closed, $"run {run.Key}");

        var middle = path.PlanLength / 2;
        drawing.Text(drawing.Layer(name + "-TEXT", look with { LineType = DxfStyles.Continuous }), path.PointAt(middle), 0, RunText, $"{run.Label} {run.Code}", Upright(path.BearingAt(middle)), centred: true);
    }

    /// <summary>The way that text reads along a bearing and never upside down: degrees anticlockwise from east, in (−90, 90].</summary>
    private static double Upright(Bearing bearing)
    {
        var degrees = 90 - bearing.Degrees;
        return degrees <= -90 ? degrees + 180 : degrees;
    }

    private static void Shots(DxfDrawing drawing, AsBuiltRecord record, ShotFacts facts)
    {
        var shots = record.Shots;
        var alone = record.Points.ToHashSet();
        for (var row = 0; row < shots.Count; row++)
        {
            if (!shots.IsPlace(row) || !shots.Used[row]) continue;
            var look = DxfStyles.Of(shots.Entry(row)) with { LineType = DxfStyles.Continuous };
            var name = DxfStyles.LayerOf(shots.Entry(row), shots.CodeOf(row), record.Inputs.Delivery);
            var (isAlone, height) = (alone.Contains(row), shots.HeightOf(row));
            var layer = drawing.Layer(height is null ? name + "-NO-HEIGHT" : shots.Raw.IsConstructed(row) ? name + "-CONSTRUCTED" : isAlone ? name : name + "-SHOTS", look);
            drawing.Point(layer, shots.At(row), height ?? 0, Told(shots, row, facts));
            var (id, code) = (shots.Raw.Id(row), shots.CodeOf(row));
            drawing.Text(isAlone ? drawing.Layer(name + "-TEXT", look) : layer, shots.At(row) + new Step(ShotText / 2, ShotText / 2), height ?? 0, ShotText, isAlone ? $"{id} {code}" : id);
        }
    }

    private static IEnumerable<string> Told(Run run)
    {
        yield return $"run {run.Key}";
        yield return $"code {run.Code}";
        yield return $"status {run.Facts.StatusWord}";
        if (run.Facts.Flow != FlowSense.Unknown) yield return $"flow {run.Facts.FlowWord}";
        if (run.Facts.Start is { } start) yield return $"start {start}";
        if (run.Facts.End is { } end) yield return $"end {end}";
        yield return $"plan_length_m {Fixed.Text(run.PlanLength, Fixed.Coordinate)}";
        if (run.UPlanLength is { } u) yield return $"u_plan_length_m {Fixed.Text(u, Fixed.Coordinate)}";
    }

    private static IEnumerable<string> Told(CurrentShots shots, int row, ShotFacts facts)
    {
        yield return $"shot {shots.Raw.Key(row)} {shots.Raw.Id(row)}";
        yield return $"code {shots.CodeOf(row)}";
        yield return $"accuracy {facts.Accuracy(row)}";
        if (facts.UPlan(row) is { } plan) yield return $"u_plan_m {Fixed.Text(plan, Fixed.Coordinate)}";
        if (facts.UHeight(row) is { } height) yield return $"u_height_m {Fixed.Text(height, Fixed.Coordinate)}";
        if (facts.Method(row) is { Length: > 0 } method) yield return $"method {method}";
        if (facts.Time(row) is { } time) yield return $"time {time}";
    }
}
