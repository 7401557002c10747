using System.Globalization;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>An A3 sheet's frame after ISO 5457: filing margin 20 mm, others 10 mm, fields of 50 mm from the middle, centring and trimming marks.</summary>
internal static class SheetFrame
{
    public const float Width = 420;
    public const float Height = 297;

    /// <summary>The drawing space inside the frame.</summary>
    public static readonly SKRect Space = new(20, 10, 410, 287);

    private const float Field = 50;
    private const float Border = 5;

    public static void Draw(Drawing drawing)
    {
        var outer = SKRect.Inflate(Space, Border, Border);
        drawing.Rect(outer, Weight.Medium, Ink.Black);
        drawing.Rect(Space, Weight.Frame, Ink.Black);
        var (across, down) = (Divisions(Space.Left, Space.Right, Width / 2), Divisions(Space.Top, Space.Bottom, Height / 2));
        for (var field = 0; field + 1 < across.Count; field++)
        {
            var name = (field + 1).ToString(CultureInfo.InvariantCulture);
            var middle = (across[field] + across[field + 1]) / 2;
            drawing.Text(name, middle, Space.Top - 1.3f, 3.5f, align: SKTextAlign.Center);
            drawing.Text(name, middle, Space.Bottom + 3.7f, 3.5f, align: SKTextAlign.Center);
            if (field > 0) TickAcross(across[field]);
        }

        for (var field = 0; field + 1 < down.Count; field++)
        {
            var name = ((char)('A' + field)).ToString();
            var middle = (down[field] + down[field + 1]) / 2 + 1.2f;
            drawing.Text(name, Space.Left - 2.5f, middle, 3.5f, align: SKTextAlign.Center);
            drawing.Text(name, Space.Right + 2.5f, middle, 3.5f, align: SKTextAlign.Center);
            if (field > 0) TickDown(down[field]);
        }

        Centring(drawing, outer);
        Trimming(drawing);
        drawing.Text("A3", Space.Right, Height - 1.4f, 3.2f, align: SKTextAlign.Right);

        void TickAcross(float x)
        {
            drawing.Line(x, outer.Top, x, Space.Top, Weight.Medium, Ink.Black);
            drawing.Line(x, Space.Bottom, x, outer.Bottom, Weight.Medium, Ink.Black);
        }

        void TickDown(float y)
        {
            drawing.Line(outer.Left, y, Space.Left, y, Weight.Medium, Ink.Black);
            drawing.Line(Space.Right, y, outer.Right, y, Weight.Medium, Ink.Black);
        }
    }

    private static void Centring(Drawing drawing, SKRect outer)
    {
        const float into = 5;
        drawing.Line(Width / 2, 0, Width / 2, Space.Top, Weight.Frame, Ink.Black);
        drawing.Line(Width / 2, Space.Bottom, Width / 2, Height, Weight.Frame, Ink.Black);
        drawing.Line(0, Height / 2, Space.Left, Height / 2, Weight.Frame, Ink.Black);
        drawing.Line(Space.Right, Height / 2, outer.Right + into, Height / 2, Weight.Frame, Ink.Black);
    }

    private static void Trimming(Drawing drawing)
    {
        foreach (var (x, y, dx, dy) in new[] { (0f, 0f, 1f, 1f), (Width, 0f, -1f, 1f), (0f, Height, 1f, -1f), (Width, Height, -1f, -1f) })
        {
            drawing.FillRect(new SKRect(x, y, x + dx * 10, y + dy * 5).Standardized, Ink.Black);
            drawing.FillRect(new SKRect(x, y, x + dx * 5, y + dy * 10).Standardized, Ink.Black);
        }
    }

    /// <summary>Whole fields outwards from the middle; what is left joins the corner field.</summary>
    private static List<float> Divisions(float from, float to, float middle)
    {
        var divisions = new List<float> { from };
        for (var at = middle - Field * MathF.Floor((middle - from - Field / 2) / Field); at < to - Field / 2; at += Field) divisions.Add(at);
        divisions.Add(to);
        return divisions;
    }
}
