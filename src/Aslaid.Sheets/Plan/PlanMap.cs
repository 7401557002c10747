using System.Globalization;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The window of the plan: bands of holds below, then lines, shots, symbols; words and plates last, where they find room.</summary>
internal sealed class PlanMap
{
    private readonly Drawing drawing;
    private readonly PlanView view;
    private readonly AsBuiltRecord record;
    private readonly IReadOnlyList<FindingNote> notes;
    private readonly int numbered;
    private readonly Occupancy taken;

    /// <param name="numbered">How many findings the list beside has room for: only those get a number.</param>
    public PlanMap(Drawing drawing, PlanView view, AsBuiltRecord record, IReadOnlyList<FindingNote> notes, int numbered)
    {
        (this.drawing, this.view, this.record, this.notes, this.numbered) = (drawing, view, record, notes, numbered);
        taken = new(view.Area);
    }

    public void Draw(PlanExtent extent)
    {
        drawing.Canvas.Save();
        drawing.Canvas.ClipRect(view.Area);
        if (extent.Places.Length == 0)
        {
            drawing.Text("No shots yet.", view.Area.MidX, view.Area.MidY, TypeSize.Answer, align: SKTextAlign.Center);
            drawing.Canvas.Restore();
            return;
        }

        var traces = RunsShown();
        PlanGrid.DrawFigures(drawing, view, taken);
        Outside(extent);
        foreach (var (run, trace) in traces) taken.TakeLine(trace, run.Number);
        Bands();
        PlanGrid.DrawCrosses(drawing, view);
        foreach (var (run, trace) in traces) LineStyles.Draw(drawing, trace, run.Entry, Flow.Of(run));
        DerivedLinesShown();
        ShotDots(traces);
        Points();
        Control();
        PlanGrid.DrawFurniture(drawing, view, taken);
        var labels = new PlanLabels(drawing, view, taken);
        labels.Plates(notes, numbered);
        labels.Letters(traces);
        labels.Runs(record, traces);
        labels.Points(record);
        labels.Arcs(traces);
        labels.Levels(traces);
        foreach (var (_, trace) in traces) trace.Dispose();
        drawing.Canvas.Restore();
    }

    /// <summary>Runs that touch the window, in the order in which they are drawn: works and kerbs below, services above.</summary>
    private List<(Run Run, PaperTrace Trace)> RunsShown()
    {
        var shown = view.Shown;
        var runs = new List<Run>();
        for (var number = 0; number < record.Runs.Count; number++)
            if (record.Runs[number].PieceCount > 0 && record.Runs[number].Box.Intersects(shown)) runs.Add(record.Runs[number]);
        return [.. runs.OrderBy(run => Naming.Letters(run.Entry?.Service) is null ? 0 : 1).Select(run => (run, PaperTrace.Of(run, view)))];
    }

    /// <summary>Lines that nobody shot: thin and broken.</summary>
    private void DerivedLinesShown()
    {
        foreach (var line in DerivedLines.Of(record))
        {
            if (!record.Runs[line.Of].Box.Intersects(view.Shown)) continue;
            using var builder = new SKPathBuilder();
            var first = true;
            foreach (var point in line.Path.Chords(0.01))
            {
                var at = view.At(point.At);
                if (first) builder.MoveTo(at);
                else builder.LineTo(at);
                first = false;
            }

            using var path = builder.Detach();
            drawing.Stroke(path, Weight.Fine, Ink.Second, 1.2f, 0.8f);
        }
    }

    private void Bands()
    {
        foreach (var mark in new[] { HoldMark.Covered, HoldMark.CoveredNotProven, HoldMark.Complete, HoldMark.Held })
        {
            using var builder = new SKPathBuilder();
            foreach (var hold in record.Holds)
            {
                if (HoldMarks.Of(hold) != mark || !record.Runs[hold.Run].Box.Intersects(view.Shown)) continue;
                using var trace = PaperTrace.Of(record.Runs[hold.Run], view, hold.From, hold.To);
                builder.AddPath(trace.Path);
            }

            using var lengths = builder.Detach();
            if (!lengths.IsEmpty) HoldBands.Draw(drawing, lengths, mark);
        }
    }

    /// <summary>Where runs were shot, if there is room to tell shots apart; no two dots on one spot of paper, so that a large site does not blacken.</summary>
    private void ShotDots(IReadOnlyList<(Run Run, PaperTrace Trace)> traces)
    {
        const float apart = 0.6f;
        const float leastSpacing = 1.5f;
        var seen = new HashSet<(int, int)>();
        foreach (var (run, trace) in traces)
        {
            if (trace.IsSmallRing || run.PlanLength * view.PerMetre < leastSpacing * (run.MemberCount - 1)) continue;
            foreach (var row in run.Members)
            {
                var at = view.At(record.Shots.At(row));
                if (!view.Area.Contains(at) || !seen.Add(((int)(at.X / apart), (int)(at.Y / apart)))) continue;
                drawing.Disc(at, 0.42f, Ink.White);
                if (record.Shots.Raw.IsConstructed(row)) drawing.Circle(at, 0.9f, 0.16f, Ink.Black); // nobody stood there
                if (record.Shots.HeightOf(row) is null) drawing.Circle(at, 0.42f, 0.16f, Ink.Black);
                else drawing.Disc(at, 0.32f, Ink.Black);
            }
        }
    }

    private void Points()
    {
        var seen = new HashSet<(int, int)>();
        foreach (var row in record.Points)
        {
            var at = view.At(record.Shots.At(row));
            var entry = record.Shots.Entry(row);
            if (!view.Area.Contains(at) || !seen.Add(((int)at.X, (int)at.Y))) continue;
            PointSymbols.Draw(drawing, at, entry?.Symbol, Ink.NeedsKeyline(entry?.Colour) ? Ink.Black : Ink.Of(entry?.Colour));
            if (record.Shots.Raw.IsConstructed(row)) drawing.Circle(at, 1.6f, 0.16f, Ink.Black);
            if (!PointSymbols.IsSmall(entry?.Symbol)) taken.Take(new(at.X - 1.4f, at.Y - 1.4f, at.X + 1.4f, at.Y + 1.4f));
        }
    }

    private void Control()
    {
        var settings = record.Inputs.Settings;
        for (var place = 0; place < record.Inputs.Control.Length; place++)
        {
            var point = record.Inputs.Control[place];
            var at = view.At(point.At);
            if (!view.Area.Contains(at)) continue;
            var disturbed = record.Site.CheckShots.Any(check => check.Point == place
                && (check.Plan > settings.ControlPlanMax || Math.Abs(check.Height ?? 0) > settings.ControlHeightMax));
            PointSymbols.Triangle(drawing, at, Ink.Black, disturbed);
            taken.Take(new(at.X - 1.8f, at.Y - 1.9f, at.X + 1.8f, at.Y + 1.3f));
        }
    }

    /// <summary>Names what lies beyond the window, so that nothing goes missing unsaid.</summary>
    private void Outside(PlanExtent extent)
    {
        var control = record.Inputs.Control.Where(point => !view.Area.Contains(view.At(point.At))).Select(point => point.Id).ToArray();
        var lines = new List<string>();
        if (extent.Outside.Count > 0)
        {
            const int most = 3;
            var named = string.Join("; ", extent.Outside.Take(most).Select(row =>
            {
                var at = record.Shots.At(row);
                return string.Create(CultureInfo.InvariantCulture, $"{record.Shots.Raw.Id(row)} at E {at.East:0.0}, N {at.North:0.0}");
            }));
            var more = extent.Outside.Count > most ? string.Create(CultureInfo.InvariantCulture, $"; and {extent.Outside.Count - most} more") : "";
            lines.Add($"{(extent.Outside.Count == 1 ? "1 shot lies" : Naming.Count(extent.Outside.Count, "shot lies", "shots lie"))} outside this sheet: {named}{more}.");
        }

        if (control.Length > 0) lines.Add($"Control outside this sheet: {string.Join(", ", control.Take(8))}{(control.Length > 8 ? " and more" : "")}.");
        var y = view.Area.Bottom - 2.4f - (lines.Count - 1) * 3.6f;
        foreach (var line in lines)
        {
            var text = drawing.Type.Fit(line, view.Area.Width - 14, TypeSize.Data, true);
            var width = drawing.Type.Width(text, TypeSize.Data, true);
            drawing.Text(text, view.Area.Left + 7, y, TypeSize.Data, true, halo: true);
            taken.Take(new(view.Area.Left + 5, y - 2.8f, view.Area.Left + 9 + width, y + 1.2f));
            y += 3.6f;
        }
    }
}
