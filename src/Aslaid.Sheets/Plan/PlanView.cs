using Aslaid.Geometry;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>Where site places come to lie on the sheet, at one scale.</summary>
/// <param name="Area">The window of the sheet that shows the site, millimetres.</param>
/// <param name="Centre">The place in the middle of it.</param>
/// <param name="Scale">The scale's second figure: 500 for 1:500.</param>
/// <param name="TurnDegrees">How far north is turned clockwise on paper from up, in (−90, 90].</param>
internal sealed record PlanView(SKRect Area, Point2 Centre, double Scale, double TurnDegrees)
{
    /// <summary>Paper left free inside the window, millimetres, for labels at the rim.</summary>
    private const float Rim = 8;

    private readonly double sin = Math.Sin(double.DegreesToRadians(TurnDegrees));
    private readonly double cos = Math.Cos(double.DegreesToRadians(TurnDegrees));

    /// <summary>Millimetres of paper a metre of ground.</summary>
    public double PerMetre => 1000 / Scale;

    public SKPoint At(Point2 place)
    {
        var (right, up) = Turned(place - Centre, sin, cos);
        return new((float)(Area.MidX + right * PerMetre), (float)(Area.MidY - up * PerMetre));
    }

    /// <summary>The place that a point of the paper shows.</summary>
    public Point2 PlaceAt(SKPoint paper)
    {
        var (east, north) = Turned(new((paper.X - Area.MidX) / PerMetre, (Area.MidY - paper.Y) / PerMetre), -sin, cos);
        return Centre + new Step(east, north);
    }

    /// <summary>A box about all that the window shows.</summary>
    public Box2 Shown => Box2.Of(
        [PlaceAt(new(Area.Left, Area.Top)), PlaceAt(new(Area.Right, Area.Top)), PlaceAt(new(Area.Left, Area.Bottom)), PlaceAt(new(Area.Right, Area.Bottom))]);

    /// <summary>
    /// The largest standard scale at which places fit into the window. North is up, unless a turned sheet shows them at a
    /// larger scale: turned along the work if that serves, else as the outline of the places demands.
    /// </summary>
    /// <param name="work">The direction of most of the work, or square to it.</param>
    public static PlanView Fitting(ReadOnlySpan<Point2> places, Bearing work, SKRect area)
    {
        if (places.IsEmpty) return new(area, default, Scales().First(), 0);
        var hull = Hull.Of(places);
        var best = Turned(hull, area, 0);
        Try(work.Degrees);
        Try(work.Degrees + 90);
        for (var corner = 0; corner < hull.Length; corner++)
        {
            var side = Bearing.Of(hull[corner], hull[(corner + 1) % hull.Length]).Degrees;
            Try(side);
            Try(side + 90);
        }

        return best;

        void Try(double across)
        {
            var turn = Math.Round(Math.IEEERemainder(90 - across, 180) * 2) / 2; // half degrees: a figure that people can set out
            var view = Turned(hull, area, turn);
            if (view.Scale < best.Scale) best = view;
        }
    }

    private static PlanView Turned(ReadOnlySpan<Point2> places, SKRect area, double turn)
    {
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(turn));
        var box = Box2.Empty;
        foreach (var place in places)
        {
            var (right, up) = Turned(place - places[0], sin, cos);
            box = box.Union(new Point2(right, up));
        }

        var (east, north) = Turned(new((box.MinEast + box.MaxEast) / 2, (box.MinNorth + box.MaxNorth) / 2), -sin, cos);
        var needed = 1000 * Math.Max((box.MaxEast - box.MinEast) / (area.Width - 2 * Rim), (box.MaxNorth - box.MinNorth) / (area.Height - 2 * Rim));
        return new(area, places[0] + new Step(east, north), Scales().First(scale => scale >= needed), turn);
    }

    private static (double Right, double Up) Turned(Step step, double sin, double cos) =>
        (step.East * cos + step.North * sin, step.North * cos - step.East * sin);

    /// <summary>1:100, 1:200, 1:250, 1:500, 1:1000, 1:2000, 1:2500 and so on without end.</summary>
    private static IEnumerable<double> Scales()
    {
        for (var decade = 100.0; ; decade *= 10)
        {
            yield return decade;
            yield return 2 * decade;
            yield return 2.5 * decade;
            yield return 5 * decade;
        }
    }
}
