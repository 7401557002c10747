using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>Draws a run in the line of its code. Each line differs in shape, so that a print in black tells services apart.</summary>
internal static class LineStyles
{
    /// <param name="flow">1 along the run, −1 against it, 0 unknown: only then do chevrons point anywhere.</param>
    public static void Draw(Drawing drawing, PaperTrace trace, CodeEntry? entry, int flow)
    {
        var (path, colour) = (trace.Path, Ink.Of(entry?.Colour));
        var keyline = Ink.NeedsKeyline(entry?.Colour);
        if (trace.IsSmallRing)
        {
            drawing.Stroke(path, Weight.Fine, keyline ? Ink.Black : colour); // dashes or an edge would make crumbs of it
            return;
        }

        switch (entry?.Line)
        {
            case "thick":
                Plain(0.6f);
                break;
            case "medium":
                Plain(0.4f);
                break;
            case "rails":
                drawing.Stroke(path, 0.95f, keyline ? Ink.Black : colour);
                drawing.Stroke(path, 0.5f, Ink.White);
                break;
            case "beads":
                Plain(0.35f);
                Beads(drawing, trace, keyline ? Ink.Black : colour);
                break;
            case "chevrons":
                Plain(0.95f);
                if (flow != 0) Chevrons(drawing, trace, flow);
                break;
            case "edge":
                drawing.Stroke(path, 1.1f, Ink.Band);
                drawing.Stroke(path, Weight.Medium, colour);
                break;
            case "thin":
                Plain(Weight.Fine);
                break;
            case "dashed":
                if (keyline) drawing.Stroke(path, 0.6f, Ink.Black, 2.3f, 0.9f);
                drawing.Stroke(path, keyline ? 0.3f : Weight.Thin, colour, 2f, 1.2f);
                break;
            case "long-two-short":
                if (keyline) drawing.Stroke(path, 0.95f, Ink.Black, 6f, 0.8f, 1.1f, 0.8f, 1.1f, 0.8f);
                drawing.Stroke(path, 0.55f, colour, 6f, 0.8f, 1.1f, 0.8f, 1.1f, 0.8f);
                break;
            default:
                Plain(Weight.Medium);
                break;
        }

        void Plain(float width)
        {
            if (keyline) drawing.Stroke(path, width + 0.36f, Ink.Black);
            drawing.Stroke(path, width, colour);
        }
    }

    private static void Beads(Drawing drawing, PaperTrace trace, SKColor colour)
    {
        foreach (var at in Steps(trace, 4f))
        {
            var bead = trace.At(at).At;
            drawing.Disc(bead, 0.5f, Ink.White);
            drawing.Circle(bead, 0.5f, 0.22f, colour);
        }
    }

    private static void Chevrons(Drawing drawing, PaperTrace trace, int flow)
    {
        foreach (var at in Steps(trace, 7f))
        {
            var (place, angle) = trace.At(at);
            var (cos, sin) = (MathF.Cos(angle) * flow, MathF.Sin(angle) * flow);
            using var mark = new SKPathBuilder();
            mark.MoveTo(Turned(-0.35f, -0.5f));
            mark.LineTo(Turned(0.35f, 0));
            mark.LineTo(Turned(-0.35f, 0.5f));
            using var chevron = mark.Detach();
            drawing.Stroke(chevron, 0.28f, Ink.White);

            SKPoint Turned(float x, float y) => new(place.X + x * cos - y * sin, place.Y + x * sin + y * cos);
        }
    }

    /// <summary>Distances along, evenly spread and centred.</summary>
    public static IEnumerable<float> Steps(PaperTrace trace, float apart)
    {
        var count = (int)MathF.Floor(trace.Length / apart);
        for (var i = 0; i < count; i++) yield return trace.Length * (i + 0.5f) / count;
    }
}
