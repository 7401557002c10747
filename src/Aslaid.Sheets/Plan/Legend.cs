using System.Globalization;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>What each line, symbol and mark on this sheet means: only codes that are there, in the order of the code book; and on what the figures rest.</summary>
internal sealed class Legend(Drawing drawing, SKRect area, AsBuiltRecord record, IReadOnlyList<FindingNote> notes)
{
    private const float Row = 4f;
    private const float Sample = 13;
    private const float BasisWidth = 56;

    public void Draw()
    {
        drawing.Text("Legend", area.Left + 4, area.Top + 6, TypeSize.Name, true);
        var rows = Codes().Concat(Marks()).ToList();
        var perColumn = (int)((area.Height - 9) / Row);
        var columns = Math.Clamp((rows.Count + perColumn - 1) / perColumn, 1, 3);
        perColumn = Math.Min(perColumn, (rows.Count + columns - 1) / columns);
        var width = (area.Width - BasisWidth - 4) / Math.Max(2, columns);
        for (var at = 0; at < Math.Min(rows.Count, columns * perColumn); at++)
        {
            var place = new SKPoint(area.Left + 4 + at / perColumn * width, area.Top + 10.4f + at % perColumn * Row);
            rows[at].Sample(place);
            Words(rows[at].Words, new(place.X + Sample + 1.5f, place.Y), width - Sample - 3);
        }

        Basis(new(area.Right - BasisWidth, area.Top, area.Right, area.Bottom));
    }

    /// <summary>One line, or two in smaller type: what a line means is never cut short without need.</summary>
    private void Words(string words, SKPoint at, float width)
    {
        if (drawing.Type.Width(words, TypeSize.Data) <= width)
        {
            drawing.Text(words, at.X, at.Y + 0.9f, TypeSize.Data);
            return;
        }

        const float size = 2;
        var lines = drawing.Type.Wrap(words, width, size);
        if (lines.Count == 1) drawing.Text(lines[0], at.X, at.Y + 0.7f, size);
        else
        {
            drawing.Text(lines[0], at.X, at.Y - 0.3f, size);
            drawing.Text(drawing.Type.Fit(string.Join(' ', lines.Skip(1)), width, size), at.X, at.Y + 1.7f, size);
        }
    }

    private readonly record struct Entry(Action<SKPoint> Sample, string Words);

    private IEnumerable<Entry> Codes()
    {
        var (lines, points) = (new HashSet<string>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal));
        for (var number = 0; number < record.Runs.Count; number++) lines.Add(record.Runs[number].Code);
        foreach (var row in record.Points) points.Add(record.Shots.CodeOf(row));
        foreach (var entry in record.Inputs.Codes.Entries)
        {
            if (lines.Remove(entry.Code)) yield return Line(entry, entry.Code);
            if (points.Remove(entry.Code)) yield return Point(entry, entry.Code);
        }

        foreach (var unknown in lines.Order(StringComparer.Ordinal)) yield return Line(null, unknown);
        foreach (var unknown in points.Order(StringComparer.Ordinal)) yield return Point(null, unknown);
    }

    private Entry Line(CodeEntry? entry, string code) => new(
        at =>
        {
            using var trace = PaperTrace.Straight(at, new(at.X + Sample, at.Y));
            LineStyles.Draw(drawing, trace, entry, 1);
            if (Naming.Letters(entry?.Service) is not { } letters) return;
            var width = drawing.Type.Width(letters, TypeSize.Small, true) + 0.8f;
            var middle = at.X + Sample / 2;
            drawing.FillRect(new(middle - width / 2, at.Y - 1, middle + width / 2, at.Y + 1), Ink.White);
            drawing.Text(letters, middle, at.Y + 0.75f, TypeSize.Small, true, SKTextAlign.Center);
        },
        Words(entry, code));

    private Entry Point(CodeEntry? entry, string code) => new(
        at => PointSymbols.Draw(drawing, new(at.X + Sample / 2, entry?.Symbol == "post" ? at.Y + 1.2f : at.Y), entry?.Symbol, Ink.NeedsKeyline(entry?.Colour) ? Ink.Black : Ink.Of(entry?.Colour)),
        Words(entry, code));

    private static string Words(CodeEntry? entry, string code) => entry is null ? code + " (not in the code book)" : Naming.Short(entry, code);

    private IEnumerable<Entry> Marks()
    {
        if (record.Runs.Count > 0) yield return new(at => drawing.Disc(new(at.X + Sample / 2, at.Y), 0.4f, Ink.Black), "Shot of a run");
        if (DerivedLines.Of(record).Any())
            yield return new(at => drawing.Line(at.X, at.Y, at.X + Sample, at.Y, Weight.Fine, Ink.Second, 1.2f, 0.8f), "Derived by a section, not measured");
        if (record.Runs.Count > 0 && HeightsMissing() > 0)
            yield return new(at => drawing.Circle(new(at.X + Sample / 2, at.Y), 0.5f, 0.16f, Ink.Black), "Shot without a height");
        if (record.Runs.PieceCount > 0)
        {
            yield return new(
                at =>
                {
                    drawing.Line(at.X + Sample / 2, at.Y - PlanLabels.Tick, at.X + Sample / 2, at.Y + PlanLabels.Tick, Weight.Fine, Ink.Black);
                    drawing.Text("R", at.X + Sample / 2 + 1.2f, at.Y + 0.8f, TypeSize.Small);
                },
                "End of an arc; its radius ± 95 %, m");
            yield return new(at => drawing.Text("5.39", at.X + Sample / 2, at.Y + 0.8f, TypeSize.Small, align: SKTextAlign.Center, colour: Ink.Second), "Level of a shot, m");
        }

        if (record.Inputs.Control.Length > 0)
            yield return new(
                at =>
                {
                    PointSymbols.Triangle(drawing, new(at.X + Sample / 4, at.Y + 0.3f), Ink.Black, false);
                    PointSymbols.Triangle(drawing, new(at.X + Sample * 3 / 4, at.Y + 0.3f), Ink.Black, true);
                },
                "Control; crossed: shots disagree");
        foreach (var mark in new[] { HoldMark.Held, HoldMark.CoveredNotProven, HoldMark.Complete, HoldMark.Covered })
            if (record.Holds.Any(hold => HoldMarks.Of(hold) == mark))
                yield return new(
                    at => HoldBands.Fill(drawing, new(at.X, at.Y - 1.4f, at.X + Sample, at.Y + 1.4f), mark), "Length " + HoldMarks.Word(mark));
        foreach (var (severity, word) in new[] { (Severity.Stop, "Stop: holds the length"), (Severity.Look, "Look: a person decides"), (Severity.Note, "Note") })
            if (notes.Any(note => note.Severity == severity))
                yield return new(at => Plate.Draw(drawing, new(at.X + Sample / 2, at.Y), severity, null, 1.8f), word);
    }

    private void Basis(SKRect box)
    {
        drawing.Text("Basis", box.Left, box.Top + 6, TypeSize.Name, true);
        var y = box.Top + 11.5f;
        foreach (var sentence in BasisSentences()) y = drawing.Paragraph(sentence, box.Left, y, box.Width - 4, TypeSize.Data) + 0.9f;
    }

    /// <summary>Grid, shots, dates, accuracy: what the drawing rests on.</summary>
    private IEnumerable<string> BasisSentences()
    {
        var system = record.Inputs.Settings.CoordinateSystem;
        yield return system is null ? "Site grid, metres; no coordinate system is declared." : $"Site grid, metres: {(system.Length > 40 ? system[..40] + "…" : system)}.";
        var rows = record.Site.ShotRows.ToArray();
        if (rows.Length == 0) yield break;
        var files = record.Shots.Raw.Batches.Length;
        yield return Naming.Count(rows.Length, "shot", "shots") + (files > 0 ? " from " + Naming.Count(files, "file", "files") : "") + Dates(rows) + ".";
        yield return AccuracyBasis.Of(record);
        if (HeightsMissing() is > 0 and var missing) yield return Naming.Count(missing, "shot has", "shots have") + " no height.";
        if (record.Shots.Constructed?.All.Count() is > 0 and var made) yield return Naming.Count(made, "point in a ring is", "points in rings are") + " constructed from shots, not measured.";
        yield return "Arcs are drawn as true arcs through their shots; lengths are in plan on the site grid.";
    }

    private string Dates(int[] rows)
    {
        DateTimeOffset? first = null, last = null;
        foreach (var row in rows)
        {
            if (record.Shots.Raw[row].Time is not { } time) continue;
            if (first is null || time < first) first = time;
            if (last is null || time > last) last = time;
        }

        if (first is not { } from || last is not { } to) return "";
        var (a, b) = (from.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), to.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        return a == b ? ", " + a : $", {a} to {b}";
    }

    private int HeightsMissing()
    {
        var missing = 0;
        foreach (var row in record.Site.ShotRows)
            if (record.Shots.HeightOf(row) is null) missing++;
        return missing;
    }
}
