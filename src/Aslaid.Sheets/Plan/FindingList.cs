using Aslaid.Record;
using System.Globalization;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The numbered list beside the plan: what is wrong, and in bold what to do. Stops first; as many as there is room for.</summary>
internal sealed class FindingList
{
    private const float TextSize = TypeSize.Data;
    private const float Leading = TextSize * 1.2f;
    private const float Indent = 9;

    private readonly Drawing drawing;
    private readonly SKRect area;
    private readonly IReadOnlyList<FindingNote> notes;

    public FindingList(Drawing drawing, SKRect area, IReadOnlyList<FindingNote> notes)
    {
        (this.drawing, this.area, this.notes) = (drawing, area, notes);
        Shown = CountThatFit();
    }

    /// <summary>How many of the findings have a place on the list.</summary>
    public int Shown { get; }

    public void Draw()
    {
        drawing.Rect(area, Weight.Medium, Ink.Black);
        drawing.Text("Findings, stops first", area.Left + 4, area.Top + 6.5f, TypeSize.Name, true);
        var y = area.Top + 10f;
        for (var at = 0; at < Shown; at++) y = Entry(notes[at], y);
        if (Shown < notes.Count)
            drawing.Text(Rest(), area.Left + 4, area.Bottom - 2.6f, TextSize, true);
    }

    private string Rest() => string.Create(CultureInfo.InvariantCulture, $"and {notes.Count - Shown} more: see the list of findings of this handover");

    private float Entry(FindingNote note, float y)
    {
        Plate.Draw(drawing, new(area.Left + 5, y + 2.3f), note.Severity, note.Number, 2.1f);
        var line = y + 2.9f;
        foreach (var (text, bold) in Lines(note))
        {
            drawing.Text(text, area.Left + Indent, line, TextSize, bold);
            line += Leading;
        }

        return y + Height(note);
    }

    private int CountThatFit()
    {
        var room = area.Height - 10f;
        var used = 0f;
        for (var at = 0; at < notes.Count; at++)
        {
            used += Height(notes[at]);
            var footer = at + 1 < notes.Count ? 6f : 1f;
            if (used + footer > room) return at;
        }

        return notes.Count;
    }

    private float Height(FindingNote note) => Math.Max(5.4f, Lines(note).Count * Leading + 1.9f);

    private List<(string Text, bool Bold)> Lines(FindingNote note)
    {
        var width = area.Width - Indent - 3;
        var message = note.Subject.Length == 0 ? note.Message : $"{note.Subject}: {note.Message}";
        if (note.AcceptedAt > 0) message += string.Create(CultureInfo.InvariantCulture, $" Accepted, journal {note.AcceptedAt}.");
        var lines = drawing.Type.Wrap(message, width, TextSize).Select(line => (line, false)).ToList();
        if (note.AcceptedAt == 0) lines.AddRange(drawing.Type.Wrap(note.Cure, width, TextSize, true).Select(line => (line, true)));
        return lines;
    }
}
