using Aslaid.Geometry;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>Words and plates on the plan. Each takes the best free place near what it names, or is left out: nothing is written over anything.</summary>
internal sealed class PlanLabels(Drawing drawing, PlanView view, Occupancy taken)
{
    private const int MostLabels = 400;

    /// <summary>Where along a run its label may belong, the best first.</summary>
    private static readonly float[] RunParts = [0.5f, 0.3f, 0.7f, 0.15f, 0.85f, 0.04f, 0.96f];

    /// <summary>Numbered plates with leaders; those that the list has no room for as small plates without a number.</summary>
    public void Plates(IReadOnlyList<FindingNote> notes, int numbered)
    {
        foreach (var note in notes.Take(numbered))
        {
            var at = view.At(note.At);
            if (!view.Area.Contains(at)) continue;
            const float box = 2 * Plate.Half + 0.6f;
            if (taken.Place(new(box, box), [at], [2.5f, 4.5f, 7, 10, 14, 19, 25]) is not { } place) continue;
            var middle = new SKPoint(place.Box.MidX, place.Box.MidY);
            drawing.Line(at.X, at.Y, middle.X, middle.Y, 0.7f, Ink.White);
            drawing.Line(at.X, at.Y, middle.X, middle.Y, Weight.Fine, Ink.Black);
            drawing.Disc(at, 0.55f, Ink.White);
            drawing.Circle(at, 0.55f, 0.2f, Ink.Black);
            Plate.Draw(drawing, middle, note.Severity, note.Number);
        }

        foreach (var note in notes.Skip(numbered).Where(note => note.Severity != Severity.Note && note.AcceptedAt == 0))
        {
            var at = view.At(note.At);
            var box = new SKRect(at.X - 1.1f, at.Y - 1.1f, at.X + 1.1f, at.Y + 1.1f);
            if (taken.Cost(box) is null) continue;
            taken.Take(box);
            Plate.Draw(drawing, at, note.Severity, null, 1.1f);
        }
    }

    /// <summary>The letters of a service, along its line.</summary>
    public void Letters(IReadOnlyList<(Run Run, PaperTrace Trace)> traces)
    {
        foreach (var (run, trace) in traces)
        {
            if (Naming.Letters(run.Entry?.Service) is not { } letters || trace.Length < 14) continue;
            foreach (var at in LineStyles.Steps(trace, Math.Min(55, trace.Length)))
                foreach (var shift in new[] { 0f, 4f, -4f, 8f, -8f })
                    if (Letter(trace, at + shift, letters)) break;
        }
    }

    /// <summary>What a run is called, how long it is, and how much of it is held.</summary>
    public void Runs(AsBuiltRecord record, IReadOnlyList<(Run Run, PaperTrace Trace)> traces)
    {
        var marked = new Dictionary<(int Run, HoldMark Mark), double>();
        foreach (var hold in record.Holds)
            marked[(hold.Run, HoldMarks.Of(hold))] = marked.GetValueOrDefault((hold.Run, HoldMarks.Of(hold))) + hold.To - hold.From;
        foreach (var (run, trace) in traces.OrderByDescending(shown => shown.Trace.Length).Take(MostLabels))
        {
            if (trace.Length < 4) continue;
            var anchors = RunParts.Select(part => trace.At(part * trace.Length).At).Where(view.Area.Contains).Where(at => !taken.IsFirm(at)).ToArray();
            var name = Naming.Of(run);
            if (trace.Length < 25)
            {
                Label(run, anchors, name, null, TypeSize.Data);
                continue;
            }

            var what = Naming.Short(run.Entry, run.Code);
            var more = (what == name ? "" : what + ", ") + Naming.Figure(run.PlanLength, "#,0.00") + " m";
            foreach (var mark in new[] { HoldMark.Held, HoldMark.CoveredNotProven })
                if (marked.GetValueOrDefault((run.Number, mark)) is > 0 and var metres) more += $", {Naming.Figure(metres, "#,0.0")} {HoldMarks.Word(mark)}";
            if (!Label(run, anchors, name, more)) Label(run, anchors, name, null);
        }
    }

    /// <summary>Labels that crews gave to points, and ids of control points.</summary>
    public void Points(AsBuiltRecord record)
    {
        foreach (var point in record.Inputs.Control)
            if (view.Area.Contains(view.At(point.At))) Small(view.At(point.At), point.Id);
        var most = MostLabels;
        foreach (var row in record.Points)
        {
            var word = record.Shots.Labels[record.Shots.Label[row]];
            var at = view.At(record.Shots.At(row));
            if (word is null || most == 0 || !view.Area.Contains(at)) continue;
            most--;
            Small(at, word);
        }
    }

    /// <summary>A tick at each end of an arc, and where there is room its radius with what it is good to (95 %).</summary>
    public void Arcs(IReadOnlyList<(Run Run, PaperTrace Trace)> traces)
    {
        const float leastOnPaper = 5;
        var most = MostLabels;
        foreach (var (run, _) in traces)
        {
            for (var number = 0; number < run.PieceCount; number++)
            {
                var piece = run.Piece(number);
                if (piece.Kind != PieceKind.Arc || piece.PlanLength * view.PerMetre < leastOnPaper) continue;
                TickAcross(piece, 0);
                if (!piece.Arc.IsFullCircle) TickAcross(piece, piece.PlanLength);
                var middle = view.At(piece.Arc.MidPoint);
                if (most == 0 || !view.Area.Contains(middle)) continue;
                most--;
                var radius = "R " + Naming.Figure(piece.Arc.Radius, "#,0.00");
                if (piece.URadius is { } u) radius += " ± " + Naming.Figure(1.96 * u, "#,0.00");
                Tiny([middle, view.At(piece.Arc.PointAt(piece.PlanLength * 0.3)), view.At(piece.Arc.PointAt(piece.PlanLength * 0.7))], radius, Ink.Black);
            }
        }
    }

    /// <summary>Levels of shots along services: at the ends, and between them no nearer than there is room for.</summary>
    public void Levels(IReadOnlyList<(Run Run, PaperTrace Trace)> traces)
    {
        const double apart = 28; // mm of paper
        var most = 2 * MostLabels;
        foreach (var (run, trace) in traces)
        {
            if (Naming.Letters(run.Entry?.Service) is null || trace.Length < 8) continue;
            var last = double.NegativeInfinity;
            for (var member = 0; member < run.MemberCount && most > 0; member++)
            {
                var isEnd = member == run.MemberCount - 1;
                if (run.Table.Shots.HeightOf(run.Members[member]) is not { } height || (!isEnd && (run.Chainages[member] - last) * view.PerMetre < apart)) continue;
                var at = view.At(run.Table.Shots.At(run.Members[member]));
                if (!view.Area.Contains(at) || !Tiny([at], Naming.Figure(height, "0.00"), Ink.Second)) continue;
                last = run.Chainages[member];
                most--;
            }
        }
    }

    /// <summary>Half the length of a tick, millimetres.</summary>
    public const float Tick = 1.3f;

    private void TickAcross(Piece arc, double along)
    {
        var bearing = arc.Arc.BearingAt(along).Unit;
        var (place, half) = (arc.Arc.PointAt(along), Tick / view.PerMetre);
        var (a, b) = (view.At(place + half * bearing.Left), view.At(place + -half * bearing.Left));
        drawing.Line(a.X, a.Y, b.X, b.Y, Weight.Fine, Ink.Black);
    }

    /// <summary>A figure that hides nothing and needs no leader, or is left out.</summary>
    private bool Tiny(SKPoint[] anchors, string figure, SKColor colour)
    {
        var width = drawing.Type.Width(figure, TypeSize.Small);
        if (taken.Place(new(width, 1.7f), anchors, [1.1f, 1.8f, 2.6f], 0) is not { } place) return false;
        drawing.Text(figure, place.Box.Left, place.Box.Bottom, TypeSize.Small, colour: colour, halo: true);
        return true;
    }

    private bool Letter(PaperTrace trace, float distance, string letters)
    {
        if (distance < 3 || distance > trace.Length - 3) return false;
        var width = drawing.Type.Width(letters, TypeSize.Data, true);
        var (at, angle) = trace.At(distance);
        var (before, after) = (trace.At(distance - 2).Angle, trace.At(distance + 2).Angle);
        if (MathF.Abs(MathF.IEEERemainder(after - before, MathF.Tau)) > 0.35f) return false; // in a bend letters would leave the line
        var box = new SKRect(at.X - 1.6f, at.Y - 1.6f, at.X + 1.6f, at.Y + 1.6f);
        if (taken.Cost(box) is not { } hidden || hidden > 14) return false; // another line crosses here
        taken.Take(box);
        if (MathF.Cos(angle) < -0.01f) angle += MathF.PI; // legible from below and from the right
        drawing.Canvas.Save();
        drawing.Canvas.Translate(at.X, at.Y);
        drawing.Canvas.RotateRadians(angle);
        drawing.FillRect(new(-width / 2 - 0.5f, -1.2f, width / 2 + 0.5f, 1.2f), Ink.White);
        drawing.Text(letters, 0, TypeSize.Data * 0.34f, TypeSize.Data, true, SKTextAlign.Center);
        drawing.Canvas.Restore();
        return true;
    }

    private bool Label(Run run, SKPoint[] anchors, string name, string? more, float size = TypeSize.Name)
    {
        var width = Math.Max(drawing.Type.Width(name, size, true), more is null ? 0 : drawing.Type.Width(more, TypeSize.Data));
        var height = more is null ? 0.9f * size : 6.6f;
        if (taken.Place(new(width, height), anchors, [1.6f, 3, 5, 8, 12, 17, 24], more is null ? int.MaxValue : 12, run.Number) is not { } place) return false;
        var (box, anchor) = place;
        var to = Occupancy.Nearest(box, anchor);
        if (SKPoint.Distance(anchor, to) > 2.2f)
        {
            drawing.Line(anchor.X, anchor.Y, to.X, to.Y, 0.6f, Ink.White);
            drawing.Line(anchor.X, anchor.Y, to.X, to.Y, Weight.Fine, Ink.Black);
        }

        drawing.Text(name, box.Left, box.Top + 0.78f * size, size, true, halo: true);
        if (more is not null) drawing.Text(more, box.Left, box.Top + 6f, TypeSize.Data, halo: true);
        return true;
    }

    private void Small(SKPoint at, string word)
    {
        var width = drawing.Type.Width(word, TypeSize.Data);
        if (taken.Place(new(width, 2.1f), [at], [2.1f, 3f, 4.5f]) is not { } place) return;
        drawing.Text(word, place.Box.Left, place.Box.Bottom - 0.2f, TypeSize.Data, halo: true);
    }
}
