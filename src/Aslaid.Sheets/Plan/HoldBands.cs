using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>
/// The band under a run that says how a length stands: hatched held, pale complete, dark covered, dark with a thin hatch
/// covered but not proven, none open.
/// </summary>
internal static class HoldBands
{
    private const float HeldWidth = 3.4f;
    private const float Width = 2.4f;

    private static readonly SKColor Dark = Ink.Covered.WithAlpha(0x70);
    private static readonly SKColor Pale = new(0xFA, 0xDD, 0xE6);

    /// <param name="lengths">All lengths of one mark: drawn as one, so that bands that meet do not darken.</param>
    public static void Draw(Drawing drawing, SKPath lengths, HoldMark mark)
    {
        if (mark == HoldMark.Open) return;
        using var outline = drawing.Outline(lengths, mark == HoldMark.Held ? HeldWidth : Width);
        Fill(drawing, outline, mark);
    }

    public static void Fill(Drawing drawing, SKRect part, HoldMark mark)
    {
        using var builder = new SKPathBuilder();
        builder.AddRect(part, SKPathDirection.Clockwise);
        using var path = builder.Detach();
        Fill(drawing, path, mark);
    }

    private static void Fill(Drawing drawing, SKPath outline, HoldMark mark)
    {
        switch (mark)
        {
            case HoldMark.Held:
                Hatched(drawing, outline, Pale, 0.4f);
                break;
            case HoldMark.CoveredNotProven:
                Hatched(drawing, outline, Dark, 0.25f);
                break;
            case HoldMark.Complete:
                drawing.Fill(outline, Ink.GoodSoft);
                break;
            case HoldMark.Covered:
                drawing.Fill(outline, Dark);
                break;
        }
    }

    private static void Hatched(Drawing drawing, SKPath outline, SKColor ground, float width)
    {
        drawing.Fill(outline, ground);
        drawing.Canvas.Save();
        drawing.Canvas.ClipPath(outline, SKClipOperation.Intersect, true);
        drawing.Hatch(outline.Bounds, 1.5f, width, Ink.Bad);
        drawing.Canvas.Restore();
    }
}
