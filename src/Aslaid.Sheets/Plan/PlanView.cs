using Aslaid.Geometry;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>Where site places come to lie on the sheet: grid north up, at one scale.</summary>
/// <param name="Area">The window of the sheet that shows the site, millimetres.</param>
/// <param name="Centre">The place in the middle of it.</param>
/// <param name="Scale">The scale's second figure: 500 for 1:500.</param>
internal sealed record PlanView(SKRect Area, Point2 Centre, double Scale)
{
    /// <summary>Paper left free inside the window, millimetres, for labels at the rim.</summary>
    private const float Rim = 11;

    /// <summary>Millimetres of paper a metre of ground.</summary>
    public double PerMetre => 1000 / Scale;

    public SKPoint At(Point2 place) => new(
        (float)(Area.MidX + (place.East - Centre.East) * PerMetre),
        (float)(Area.MidY - (place.North - Centre.North) * PerMetre));

    /// <summary>The part of the site that the window shows.</summary>
    public Box2 Shown => new(
        Centre.East - Area.Width / 2 / PerMetre, Centre.North - Area.Height / 2 / PerMetre,
        Centre.East + Area.Width / 2 / PerMetre, Centre.North + Area.Height / 2 / PerMetre);

    /// <summary>The largest standard scale at which a box fits into the window.</summary>
    public static PlanView Fitting(Box2 box, SKRect area)
    {
        if (box.IsEmpty) return new(area, default, Scales().First());
        var centre = new Point2((box.MinEast + box.MaxEast) / 2, (box.MinNorth + box.MaxNorth) / 2);
        var needed = 1000 * Math.Max((box.MaxEast - box.MinEast) / (area.Width - 2 * Rim), (box.MaxNorth - box.MinNorth) / (area.Height - 2 * Rim));
        return new(area, centre, Scales().First(scale => scale >= needed));
    }

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
