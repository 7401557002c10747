using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>A canvas in millimetres, from the sheet's top left corner, with our pens and lettering.</summary>
internal sealed class Drawing(SKCanvas canvas) : IDisposable
{
    private readonly SKPaint stroke = new() { IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeJoin = SKStrokeJoin.Round };
    private readonly SKPaint fill = new() { IsAntialias = true, Style = SKPaintStyle.Fill };
    private readonly Dictionary<string, SKPathEffect> dashes = [];

    public SKCanvas Canvas => canvas;

    public Lettering Type { get; } = new();

    public void Line(float x1, float y1, float x2, float y2, float width, SKColor colour, params float[] dash) =>
        canvas.DrawLine(x1, y1, x2, y2, Pen(width, colour, dash));

    public void Stroke(SKPath path, float width, SKColor colour, params float[] dash) => canvas.DrawPath(path, Pen(width, colour, dash));

    public void Fill(SKPath path, SKColor colour) => canvas.DrawPath(path, Brush(colour));

    public void Rect(SKRect rect, float width, SKColor colour, params float[] dash) => canvas.DrawRect(rect, Pen(width, colour, dash));

    public void FillRect(SKRect rect, SKColor colour) => canvas.DrawRect(rect, Brush(colour));

    public void Circle(SKPoint at, float radius, float width, SKColor colour, params float[] dash)
    {
        const float handle = 0.5522848f; // 4/3·tan(π/8)
        var (r, h) = (radius, radius * handle);
        using var builder = new SKPathBuilder();
        builder.MoveTo(at.X + r, at.Y);
        builder.CubicTo(at.X + r, at.Y + h, at.X + h, at.Y + r, at.X, at.Y + r);
        builder.CubicTo(at.X - h, at.Y + r, at.X - r, at.Y + h, at.X - r, at.Y);
        builder.CubicTo(at.X - r, at.Y - h, at.X - h, at.Y - r, at.X, at.Y - r);
        builder.CubicTo(at.X + h, at.Y - r, at.X + r, at.Y - h, at.X + r, at.Y);
        builder.Close();
        using var path = builder.Detach();
        Stroke(path, width, colour, dash);
    }

    /// <summary>A filled circle, as one dab of a round pen: a PDF spends a tenth of the bytes on it.</summary>
    public void Disc(SKPoint at, float radius, SKColor colour)
    {
        var pen = Pen(2 * radius, colour);
        pen.StrokeCap = SKStrokeCap.Round;
        canvas.DrawPoint(at, pen);
        pen.StrokeCap = SKStrokeCap.Butt;
    }

    /// <summary>The outline of a path drawn with a round pen of this width, to be clipped to or hatched.</summary>
    public SKPath Outline(SKPath path, float width)
    {
        var pen = Pen(width, Ink.Black);
        using var outline = new SKPathBuilder();
        pen.GetFillPath(path, outline, 20f); // 20: steps finer than 0.05 mm
        return outline.Detach();
    }

    /// <summary>Text on a base line. A halo of paper keeps it legible over lines.</summary>
    public void Text(
        string text, float x, float y, float size, bool bold = false, SKTextAlign align = SKTextAlign.Left, SKColor? colour = null, bool halo = false)
    {
        text = Type.Legible(text);
        var font = Type.At(size, bold);
        if (halo) Halo(text, x, y, align, font);
        canvas.DrawText(text, x, y, align, font, Brush(colour ?? Ink.Black));
    }

    /// <summary>The outline of letters in paper. Stroked as a path: stroked as text it would be in the PDF's words twice.</summary>
    private void Halo(string text, float x, float y, SKTextAlign align, SKFont font)
    {
        var back = align switch { SKTextAlign.Center => font.MeasureText(text) / 2, SKTextAlign.Right => font.MeasureText(text), _ => 0 };
        using var outline = font.GetTextPath(text, new SKPoint(x - back, y));
        if (outline is not null) Stroke(outline, 0.9f, Ink.White);
    }

    /// <summary>Wrapped text; returns the base line after the last line.</summary>
    public float Paragraph(string text, float x, float y, float width, float size, bool bold = false, SKColor? colour = null, float leading = 1.25f)
    {
        foreach (var line in Type.Wrap(text, width, size, bold))
        {
            Text(line, x, y, size, bold, colour: colour);
            y += size * leading;
        }

        return y;
    }

    /// <summary>Slanting lines over the bounds of the current clip.</summary>
    public void Hatch(SKRect bounds, float step, float width, SKColor colour)
    {
        var rise = bounds.Height;
        for (var x = MathF.Floor((bounds.Left - rise) / step) * step; x < bounds.Right; x += step)
            Line(x, bounds.Bottom, x + rise, bounds.Top, width, colour);
    }

    public void Dispose()
    {
        stroke.Dispose();
        fill.Dispose();
        Type.Dispose();
        foreach (var dash in dashes.Values) dash.Dispose();
    }

    private SKPaint Pen(float width, SKColor colour, params float[] dash)
    {
        (stroke.StrokeWidth, stroke.Color) = (width, colour);
        stroke.PathEffect = dash.Length == 0 ? null : Dash(dash);
        return stroke;
    }

    private SKPathEffect Dash(float[] dash)
    {
        var key = string.Join(' ', dash);
        if (!dashes.TryGetValue(key, out var effect)) dashes[key] = effect = SKPathEffect.CreateDash(dash, 0);
        return effect;
    }

    private SKPaint Brush(SKColor colour)
    {
        fill.Color = colour;
        return fill;
    }
}
