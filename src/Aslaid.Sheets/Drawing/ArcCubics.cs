using Aslaid.Geometry;

namespace Aslaid.Sheets;

/// <summary>One cubic of a drawn arc: its ends and the two points that pull it, metres.</summary>
internal readonly record struct Cubic(Point2 A, Point2 B, Point2 C, Point2 D);

/// <summary>
/// An arc as cubics. Each spans 45° at most, where a cubic with handles of 4/3·tan(δ/4)·R departs from its circle by less
/// than 5 millionths of the radius: 0.02 mm on paper for an arc as large as an A0 sheet and more.
/// </summary>
internal static class ArcCubics
{
    private const double Widest = Math.PI / 4;

    /// <summary>The part of an arc between two distances along it, metres.</summary>
    public static IEnumerable<Cubic> Of(Arc arc, double from, double to)
    {
        if (arc.Radius == 0 || to <= from) yield break;
        var parts = Math.Max(1, (int)Math.Ceiling((to - from) / arc.Radius / Widest - 1e-9)); // an exact multiple needs no part more
        var step = (to - from) / parts;
        var handle = 4.0 / 3 * Math.Tan(step / arc.Radius / 4) * arc.Radius;
        for (var part = 0; part < parts; part++)
        {
            var (begin, end) = (from + part * step, part + 1 == parts ? to : from + (part + 1) * step);
            var (a, d) = (arc.PointAt(begin), arc.PointAt(end));
            yield return new(a, a + handle * arc.BearingAt(begin).Unit, d + -handle * arc.BearingAt(end).Unit, d);
        }
    }
}
