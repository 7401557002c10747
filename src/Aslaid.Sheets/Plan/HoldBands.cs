using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The band under a run that says how a length stands: hatched held, pale complete, dark covered, none open.</summary>
internal static class HoldBands
{
    private const float Width = 3.4f;

    public static string Word(HoldState state) => state switch
    {
        HoldState.Held => "held",
        HoldState.Complete => "complete",
        HoldState.Covered => "covered",
        _ => "open",
    };

    /// <param name="lengths">All lengths in one state: drawn as one, so that bands that meet do not darken.</param>
    public static void Draw(Drawing drawing, SKPath lengths, HoldState state)
    {
        switch (state)
        {
            case HoldState.Held:
                using (var outline = drawing.Outline(lengths, Width)) Hatched(drawing, outline);
                break;
            case HoldState.Complete:
                drawing.Stroke(lengths, 2.4f, Ink.GoodSoft);
                break;
            case HoldState.Covered:
                drawing.Stroke(lengths, 2.4f, Ink.Covered.WithAlpha(0x70));
                break;
        }
    }

    public static void Fill(Drawing drawing, SKRect part, HoldState state)
    {
        switch (state)
        {
            case HoldState.Held:
                using (var builder = new SKPathBuilder())
                {
                    builder.AddRect(part, SKPathDirection.Clockwise);
                    using var path = builder.Detach();
                    Hatched(drawing, path);
                }

                break;
            case HoldState.Complete:
                drawing.FillRect(part, Ink.GoodSoft);
                break;
            case HoldState.Covered:
                drawing.FillRect(part, Ink.Covered.WithAlpha(0x70));
                break;
        }
    }

    private static void Hatched(Drawing drawing, SKPath outline)
    {
        drawing.Canvas.Save();
        drawing.Canvas.ClipPath(outline, SKClipOperation.Intersect, true);
        drawing.Fill(outline, new SKColor(0xFA, 0xDD, 0xE6));
        drawing.Hatch(outline.Bounds, 1.5f, 0.4f, Ink.Bad);
        drawing.Canvas.Restore();
    }
}
