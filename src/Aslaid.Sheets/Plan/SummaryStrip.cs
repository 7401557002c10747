using System.Globalization;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The answer before the drawing: how much is held, open, complete, covered, and by how many findings.</summary>
internal static class SummaryStrip
{
    /// <summary>Stands beside every answer.</summary>
    public const string NoPermission = "No permission to enter, backfill, load or energise.";

    public static void Draw(Drawing drawing, SKRect area, AsBuiltRecord record, IReadOnlyList<FindingNote> notes)
    {
        var middle = area.MidY + 2.1f;
        if (record.Site.ShotRows.Length == 0)
        {
            drawing.Text("No shots yet.", area.Left + 4, middle, TypeSize.Answer, true);
            return;
        }

        var lengths = HoldMarks.Metres(record);
        var stops = notes.Count(note => note.Severity == Severity.Stop && note.AcceptedAt == 0);
        var answer = Answer(lengths, stops);
        drawing.Text(answer, area.Left + 4, area.Top + 6.6f, TypeSize.Answer, true);
        drawing.Text(NoPermission, area.Left + 4, area.Bottom - 2.2f, TypeSize.Name);
        var counts = Counts(notes);
        drawing.Text(counts, area.Right - 4, middle - 0.4f, TypeSize.Name, true, SKTextAlign.Right);
        var left = area.Left + 8 + Math.Max(drawing.Type.Width(answer, TypeSize.Answer, true), drawing.Type.Width(NoPermission, TypeSize.Name));
        Bar(drawing, new SKRect(left + 4, area.Top + 2.2f, area.Right - 12 - drawing.Type.Width(counts, TypeSize.Name, true), area.Top + 6.4f), area.Bottom - 2.6f, lengths);
    }

    /// <summary>Speaks of the position record only: nobody may read leave to backfill into it.</summary>
    /// <param name="metres">By <see cref="HoldMark"/>.</param>
    /// <param name="stops">Stops that nobody accepted.</param>
    public static string Answer(double[] metres, int stops)
    {
        double Of(HoldMark mark) => metres[(int)mark];
        if (Of(HoldMark.Held) > 0) return $"{Metres(Of(HoldMark.Held))} m held.";
        if (stops > 0) return Naming.Count(stops, "stop stands.", "stops stand.");
        if (Of(HoldMark.CoveredNotProven) > 0) return $"{Metres(Of(HoldMark.CoveredNotProven))} m covered, not proven.";
        if (Of(HoldMark.Open) > 0) return "Position record open, nothing held.";
        if (Of(HoldMark.Covered) > 0) return "Position record complete or covered.";
        return Of(HoldMark.Complete) > 0 ? "Position record complete." : "Points only.";
    }

    /// <summary>As <c>12 stops, 4 looks, 1 note</c>; accepted ones apart.</summary>
    public static string Counts(IReadOnlyList<FindingNote> notes)
    {
        var standing = notes.Where(note => note.AcceptedAt == 0).ToArray();
        int Of(Severity severity) => standing.Count(note => note.Severity == severity);
        var text = $"{Naming.Count(Of(Severity.Stop), "stop", "stops")}, {Naming.Count(Of(Severity.Look), "look", "looks")}";
        if (Of(Severity.Note) is > 0 and var rest) text += ", " + Naming.Count(rest, "note", "notes");
        var accepted = notes.Count - standing.Length;
        return accepted == 0 ? text : text + string.Create(CultureInfo.InvariantCulture, $", {accepted} accepted");
    }

    private static void Bar(Drawing drawing, SKRect bar, float words, double[] lengths)
    {
        var whole = lengths.Sum();
        if (!(whole > 0)) return;
        var parts = new List<(SKRect Part, string Words, float Width)>();
        var x = bar.Left;
        foreach (var mark in Enum.GetValues<HoldMark>())
        {
            var length = lengths[(int)mark];
            if (!(length > 0)) continue;
            var part = new SKRect(x, bar.Top, x + (float)(length / whole * bar.Width), bar.Bottom);
            HoldBands.Fill(drawing, part, mark);
            drawing.Rect(part, Weight.Thin, Ink.Black);
            var text = $"{Metres(length)} m {HoldMarks.Word(mark)}";
            parts.Add((part, text, drawing.Type.Width(text, TypeSize.Data)));
            x = part.Right;
        }

        const float gap = 3;
        var (word, rest) = (bar.Left, parts.Sum(part => part.Width + gap) - gap);
        foreach (var (part, text, width) in parts)
        {
            word = Math.Max(word, Math.Min(part.Left, bar.Right - rest)); // below its part, and room for those that follow
            drawing.Text(text, word, words, TypeSize.Data);
            word += width + gap;
            rest -= width + gap;
        }
    }

    private static string Metres(double length) => Naming.Figure(length, length < 100 ? "#,0.0" : "#,0");
}
