using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The site grid on the plan: crosses, their figures at the rim, north, and the scale bar.</summary>
internal static class PlanGrid
{
    private const float Arm = 1.6f;

    public static void DrawCrosses(Drawing drawing, PlanView view)
    {
        foreach (var east in Lines(view.Shown.MinEast, view.Shown.MaxEast, view))
        {
            foreach (var north in Lines(view.Shown.MinNorth, view.Shown.MaxNorth, view))
            {
                var at = view.At(new(east, north));
                drawing.Line(at.X - Arm, at.Y, at.X + Arm, at.Y, Weight.Hair, Ink.Grid);
                drawing.Line(at.X, at.Y - Arm, at.X, at.Y + Arm, Weight.Hair, Ink.Grid);
            }
        }
    }

    public static void DrawFigures(Drawing drawing, PlanView view, Occupancy taken)
    {
        foreach (var east in Lines(view.Shown.MinEast, view.Shown.MaxEast, view))
        {
            var at = view.At(new(east, view.Centre.North));
            if (at.X > view.Area.Right - 24) continue;
            drawing.Line(at.X, view.Area.Top, at.X, view.Area.Top + 3.4f, Weight.Hair, Ink.Black);
            drawing.Text(Naming.Figure(east) + " E", at.X + 0.8f, view.Area.Top + 2.9f, Size.Small, colour: Ink.Second);
            taken.Take(SKRect.Create(at.X - 0.4f, view.Area.Top, 18, 3.6f));
        }

        foreach (var north in Lines(view.Shown.MinNorth, view.Shown.MaxNorth, view))
        {
            var at = view.At(new(view.Centre.East, north));
            if (at.Y < view.Area.Top + 26) continue;
            drawing.Line(view.Area.Left, at.Y, view.Area.Left + 3.4f, at.Y, Weight.Hair, Ink.Black);
            drawing.Canvas.Save();
            drawing.Canvas.Translate(view.Area.Left + 2.9f, at.Y - 0.8f);
            drawing.Canvas.RotateDegrees(-90);
            drawing.Text(Naming.Figure(north) + " N", 0, 0, Size.Small, colour: Ink.Second);
            drawing.Canvas.Restore();
            taken.Take(new(view.Area.Left, at.Y - 20, view.Area.Left + 3.6f, at.Y + 0.4f));
        }
    }

    /// <summary>North and scale bar, in the corner where they hide least.</summary>
    public static void DrawFurniture(Drawing drawing, PlanView view, Occupancy taken)
    {
        const float width = 62, height = 17;
        var (left, right) = (view.Area.Left + 6, view.Area.Right - width - 4);
        var (top, bottom) = (view.Area.Top + 6, view.Area.Bottom - height - 8);
        var corners = new[] { new SKPoint(right, bottom), new(left, bottom), new(right, top), new(left, top) };
        var corner = corners.MinBy(place => taken.Cost(SKRect.Create(place.X, place.Y, width, height)) ?? int.MaxValue);
        taken.Take(SKRect.Create(corner.X, corner.Y, width, height));
        North(drawing, new(corner.X + 4, corner.Y + 1));
        ScaleBar(drawing, view, new(corner.X + 12, corner.Y + 9));
    }

    private static void North(Drawing drawing, SKPoint top)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo(top.X, top.Y);
        builder.LineTo(top.X + 2, top.Y + 10);
        builder.LineTo(top.X, top.Y + 8.4f);
        builder.LineTo(top.X - 2, top.Y + 10);
        builder.Close();
        using var arrow = builder.Detach();
        drawing.Fill(arrow, Ink.Black);
        drawing.Text("N", top.X, top.Y + 14f, Size.Name, true, SKTextAlign.Center, halo: true);
    }

    private static void ScaleBar(Drawing drawing, PlanView view, SKPoint at)
    {
        var step = Round(10 / view.PerMetre);
        var part = (float)(step * view.PerMetre);
        for (var field = 0; field < 4; field++)
        {
            var box = SKRect.Create(at.X + field * part, at.Y, part, 1.3f);
            drawing.FillRect(box, field % 2 == 0 ? Ink.Black : Ink.White);
            drawing.Rect(box, Weight.Fine, Ink.Black);
        }

        foreach (var field in new[] { 0, 2, 4 })
            drawing.Text(Naming.Figure(field * step, "#,0.##") + (field == 4 ? " m" : ""), at.X + field * part, at.Y - 1f, Size.Data, align: SKTextAlign.Center, halo: true);
        drawing.Text($"1 : {Naming.Figure(view.Scale)}, site grid", at.X, at.Y + 4.4f, Size.Data, halo: true);
    }

    /// <summary>Grid lines about 40 to 100 mm apart.</summary>
    private static IEnumerable<double> Lines(double from, double to, PlanView view)
    {
        var step = Round(40 / view.PerMetre);
        var first = Math.Ceiling(from / step);
        for (var line = first; line * step <= to; line++) yield return line * step;
    }

    /// <summary>The next of 1, 2, 5, 10 … that is no less.</summary>
    private static double Round(double atLeast)
    {
        var decade = Math.Pow(10, Math.Floor(Math.Log10(atLeast)));
        foreach (var factor in new[] { 1.0, 2, 5 })
            if (factor * decade >= atLeast * (1 - 1e-9)) return factor * decade; // 40 / (1000 / 500) is 20 but for its last bit
        return 10 * decade;
    }
}
