using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The site grid on the plan: crosses, their figures at the rim, north, and the scale bar.</summary>
internal static class PlanGrid
{
    private const float Arm = 1.6f;

    public static void DrawCrosses(Drawing drawing, PlanView view)
    {
        var (shown, arm) = (view.Shown, Arm / view.PerMetre);
        foreach (var east in Lines(shown.MinEast, shown.MaxEast, view))
        {
            foreach (var north in Lines(shown.MinNorth, shown.MaxNorth, view))
            {
                if (!view.Area.Contains(view.At(new(east, north)))) continue;
                Between(view.At(new(east - arm, north)), view.At(new(east + arm, north)));
                Between(view.At(new(east, north - arm)), view.At(new(east, north + arm)));
            }
        }

        void Between(SKPoint a, SKPoint b) => drawing.Line(a.X, a.Y, b.X, b.Y, Weight.Fine, Ink.Grid);
    }

    /// <summary>Figures where grid lines meet the rim: of those that stand more upright, at the top; of the others, at the left.</summary>
    public static void DrawFigures(Drawing drawing, PlanView view, Occupancy taken)
    {
        var shown = view.Shown;
        var upright = Math.Abs(view.TurnDegrees) <= 45;
        foreach (var east in Lines(shown.MinEast, shown.MaxEast, view))
            Figure(view.At(new(east, shown.MinNorth)), view.At(new(east, shown.MaxNorth)), Naming.Figure(east) + " E", upright);
        foreach (var north in Lines(shown.MinNorth, shown.MaxNorth, view))
            Figure(view.At(new(shown.MinEast, north)), view.At(new(shown.MaxEast, north)), Naming.Figure(north) + " N", !upright);

        void Figure(SKPoint from, SKPoint to, string text, bool top)
        {
            var way = SKPoint.Normalize(to - from);
            if (top ? way.Y < 0 : way.X < 0) way = new(-way.X, -way.Y); // into the window
            var rim = top ? from + Times(way, (view.Area.Top - from.Y) / way.Y) : from + Times(way, (view.Area.Left - from.X) / way.X);
            var room = drawing.Type.Width(text, TypeSize.Small) + 2;
            if (top ? rim.X < view.Area.Left + 6 || rim.X > view.Area.Right - room : rim.Y > view.Area.Bottom - 2 || rim.Y < view.Area.Top + room + 4) return;
            var end = rim + Times(way, 3.4f);
            drawing.Line(rim.X, rim.Y, end.X, end.Y, Weight.Hair, Ink.Black);
            drawing.Canvas.Save();
            drawing.Canvas.Translate(top ? rim.X + Math.Max(0, end.X - rim.X) + 0.8f : view.Area.Left + 2.9f, top ? view.Area.Top + 2.9f : rim.Y + Math.Min(0, end.Y - rim.Y) - 0.8f);
            if (!top) drawing.Canvas.RotateDegrees(-90);
            drawing.Text(text, 0, 0, TypeSize.Small, colour: Ink.Second);
            drawing.Canvas.Restore();
            taken.Take(top ? SKRect.Create(rim.X - 0.4f, view.Area.Top, room + 2, 3.6f) : new(view.Area.Left, rim.Y - room - 2, view.Area.Left + 3.6f, rim.Y + 0.4f));
        }
    }

    private static SKPoint Times(SKPoint step, float factor) => new(step.X * factor, step.Y * factor);

    /// <summary>North and scale bar, at the rim where they hide least: the lower right corner, if that is as good as another.</summary>
    public static void DrawFurniture(Drawing drawing, PlanView view, Occupancy taken)
    {
        var places = FurniturePlaces(view);
        var (north, bar) = places.MinBy(place => Hidden(place.North) + Hidden(place.Bar));
        taken.Take(north);
        taken.Take(bar);
        var arrow = NorthBox(view.TurnDegrees);
        North(drawing, new(north.Left - arrow.Left, north.Top - arrow.Top), view.TurnDegrees);
        ScaleBar(drawing, view, new(bar.Left + BarFringe, bar.Top + BarAbove));

        int Hidden(SKRect box) => taken.Cost(box) ?? 100_000; // words or symbols there: worse than any line
    }

    private const float BarLength = 40;

    /// <summary>Half of the figures at the ends of the bar, millimetres.</summary>
    private const float BarFringe = 7;
    private const float BarAbove = 4;
    private const float BarHeight = 10;

    /// <summary>Boxes for north and scale bar along the lower and the upper rim, the best first.</summary>
    public static IReadOnlyList<(SKRect North, SKRect Bar)> FurniturePlaces(PlanView view)
    {
        const int across = 12;
        var arrow = NorthBox(view.TurnDegrees);
        var height = Math.Max(arrow.Height, BarHeight);
        var width = arrow.Width + BarLength + 2 * BarFringe;
        var (left, right) = (view.Area.Left + 6, view.Area.Right - width - 4);
        var places = new List<(SKRect, SKRect)>();
        foreach (var top in new[] { view.Area.Bottom - height - 7, view.Area.Top + 4.5f })
        {
            for (var step = across; step >= 0; step--)
            {
                var (x, middle) = (left + (right - left) * step / across, top + height / 2);
                places.Add((
                    SKRect.Create(x, middle - arrow.Height / 2, arrow.Width, arrow.Height),
                    SKRect.Create(x + arrow.Width, middle - BarHeight / 2, BarLength + 2 * BarFringe, BarHeight)));
            }
        }

        return places;
    }

    /// <summary>What the arrow and its letter take, from the arrow's middle.</summary>
    private static SKRect NorthBox(double turnDegrees)
    {
        var letter = NorthLetter(default, turnDegrees);
        var (tail, half) = (Times(letter, -Tip / LetterAt), 2.2f);
        return SKRect.Union(
            new(letter.X - half, letter.Y - half, letter.X + half, letter.Y + half), new(tail.X - half, tail.Y - half, tail.X + half, tail.Y + half));
    }

    /// <summary>From the arrow's middle to its tip, as to its tail, and to the middle of the letter: millimetres.</summary>
    private const float Tip = 5;
    private const float LetterAt = 7;

    private static void North(Drawing drawing, SKPoint middle, double turnDegrees)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo(0, -Tip);
        builder.LineTo(2, Tip);
        builder.LineTo(0, 3.4f);
        builder.LineTo(-2, Tip);
        builder.Close();
        using var arrow = builder.Detach();
        drawing.Canvas.Save();
        drawing.Canvas.Translate(middle);
        drawing.Canvas.RotateDegrees((float)turnDegrees);
        drawing.Fill(arrow, Ink.Black);
        drawing.Canvas.Restore();
        var letter = NorthLetter(middle, turnDegrees); // upright: an N on its side is a Z
        drawing.Text("N", letter.X, letter.Y + 0.335f * TypeSize.Name, TypeSize.Name, true, SKTextAlign.Center, halo: true);
    }

    /// <summary>The middle of the letter: beyond the tip of the arrow.</summary>
    public static SKPoint NorthLetter(SKPoint middle, double turnDegrees)
    {
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(turnDegrees));
        return new(middle.X + LetterAt * (float)sin, middle.Y - LetterAt * (float)cos);
    }

    private static void ScaleBar(Drawing drawing, PlanView view, SKPoint at)
    {
        var step = BarField(view);
        var part = (float)(step * view.PerMetre);
        for (var field = 0; field < 4; field++)
        {
            var box = SKRect.Create(at.X + field * part, at.Y, part, 1.3f);
            drawing.FillRect(box, field % 2 == 0 ? Ink.Black : Ink.White);
            drawing.Rect(box, Weight.Fine, Ink.Black);
        }

        foreach (var field in new[] { 0, 2, 4 })
            drawing.Text(Naming.Figure(field * step, "#,0.##") + (field == 4 ? " m" : ""), at.X + field * part, at.Y - 1f, TypeSize.Data, align: SKTextAlign.Center, halo: true);
        drawing.Text($"1 : {Naming.Figure(view.Scale)}, site grid", at.X, at.Y + 4.4f, TypeSize.Data, halo: true);
    }

    /// <summary>Metres of one of the bar's four fields: the roundest that takes 4 to 10 mm of paper, so that the bar takes 40 at most.</summary>
    public static double BarField(PlanView view)
    {
        var most = 10 / view.PerMetre * (1 + 1e-9); // 10 / (1000 / 500) is 5 but for its last bit
        var decade = Math.Pow(10, Math.Floor(Math.Log10(most)));
        return (5 * decade <= most ? 5 : 2 * decade <= most ? 2 : 1) * decade;
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
