using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>Draws a point by the symbol word of its code: shapes about 3 mm large, told apart without colour.</summary>
internal static class PointSymbols
{
    private const float Half = 1.35f;
    private const float Pen = 0.3f;

    public static void Draw(Drawing drawing, SKPoint at, string? symbol, SKColor colour)
    {
        var box = new SKRect(at.X - Half, at.Y - Half, at.X + Half, at.Y + Half);
        switch (symbol)
        {
            case "square-diagonal":
                drawing.FillRect(box, Ink.White);
                drawing.Line(box.Left, box.Top, box.Right, box.Bottom, Pen, colour);
                drawing.Rect(box, Pen, colour);
                break;
            case "barred-box":
                var gully = new SKRect(at.X - Half, at.Y - 0.9f, at.X + Half, at.Y + 0.9f);
                drawing.FillRect(gully, Ink.White);
                for (var bar = -1; bar <= 1; bar++) drawing.Line(at.X + bar * 0.65f, gully.Top, at.X + bar * 0.65f, gully.Bottom, 0.22f, colour);
                drawing.Rect(gully, Pen, colour);
                break;
            case "letter-h":
                drawing.Disc(at, 1.5f, Ink.White);
                drawing.Circle(at, 1.5f, Pen, colour);
                drawing.Text("H", at.X, at.Y + 0.72f, 2.1f, true, SKTextAlign.Center, colour);
                break;
            case "bow-tie":
                BowTie(drawing, at, colour);
                break;
            case "ring-arm":
                drawing.Line(at.X, at.Y, at.X + 2.3f, at.Y, Pen, colour);
                drawing.Line(at.X + 2.3f, at.Y - 0.7f, at.X + 2.3f, at.Y + 0.7f, Pen, colour);
                drawing.Disc(at, 0.85f, Ink.White);
                drawing.Circle(at, 0.85f, Pen, colour);
                break;
            case "dashed-ring":
                drawing.Circle(at, 1.3f, Pen, colour, 0.7f, 0.5f);
                drawing.Disc(at, 0.3f, colour);
                break;
            case "post":
                drawing.Line(at.X, at.Y, at.X, at.Y - 2.2f, Pen, colour);
                drawing.FillRect(new(at.X - 0.8f, at.Y - 2.6f, at.X + 0.8f, at.Y - 1.6f), colour);
                drawing.Disc(at, 0.35f, colour);
                break;
            case "triangle":
                Triangle(drawing, at, colour, crossed: false);
                break;
            case "dot":
                drawing.Disc(at, 0.3f, colour.WithAlpha(0xA0));
                break;
            case "ring":
                drawing.Disc(at, 0.2f, Ink.Grid); // finished surfaces are shot by the hundred: they stay in the background
                break;
            default:
                drawing.Line(at.X - 0.9f, at.Y - 0.9f, at.X + 0.9f, at.Y + 0.9f, Pen, colour);
                drawing.Line(at.X - 0.9f, at.Y + 0.9f, at.X + 0.9f, at.Y - 0.9f, Pen, colour);
                break;
        }
    }

    /// <summary>A control point; crossed where a shot on it disagrees.</summary>
    public static void Triangle(Drawing drawing, SKPoint at, SKColor colour, bool crossed)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo(at.X, at.Y - 1.75f);
        builder.LineTo(at.X + 1.6f, at.Y + 1.05f);
        builder.LineTo(at.X - 1.6f, at.Y + 1.05f);
        builder.Close();
        using var triangle = builder.Detach();
        drawing.Fill(triangle, Ink.White);
        drawing.Stroke(triangle, Pen, colour);
        drawing.Disc(at, 0.3f, colour);
        if (!crossed) return;
        drawing.Line(at.X - 2.1f, at.Y - 2.1f, at.X + 2.1f, at.Y + 2.1f, Pen, colour);
        drawing.Line(at.X - 2.1f, at.Y + 2.1f, at.X + 2.1f, at.Y - 2.1f, Pen, colour);
    }

    /// <summary>Whether a symbol is a mere mark of where a surface was shot: it needs no room and gets no label.</summary>
    public static bool IsSmall(string? symbol) => symbol is "dot" or "ring";

    private static void BowTie(Drawing drawing, SKPoint at, SKColor colour)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo(at.X - 1.5f, at.Y - 0.95f);
        builder.LineTo(at.X + 1.5f, at.Y + 0.95f);
        builder.LineTo(at.X + 1.5f, at.Y - 0.95f);
        builder.LineTo(at.X - 1.5f, at.Y + 0.95f);
        builder.Close();
        using var tie = builder.Detach();
        drawing.Fill(tie, Ink.White);
        drawing.Stroke(tie, Pen, colour);
    }
}
