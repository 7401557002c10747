using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Aslaid.Geometry;

/// <summary>What rounds a point of vertical intersection.</summary>
public enum VerticalCurveKind : byte
{
    /// <summary>Nothing: a break of grade.</summary>
    None,

    /// <summary>A parabola, of one length or of two.</summary>
    Parabola,

    /// <summary>A circle tangent to both grades.</summary>
    Circle,
}

/// <summary>A point of vertical intersection.</summary>
/// <param name="Chainage">Metres along the path.</param>
/// <param name="Height">Metres.</param>
/// <param name="Curve">What rounds it.</param>
/// <param name="LengthIn">Metres in plan from the curve's start to this point, of a parabola.</param>
/// <param name="LengthOut">Metres in plan from this point to the curve's end, of a parabola.</param>
/// <param name="Radius">Metres, of a circle.</param>
public readonly record struct ProfilePoint(double Chainage, double Height, VerticalCurveKind Curve = VerticalCurveKind.None, double LengthIn = 0, double LengthOut = 0, double Radius = 0)
{
    /// <summary>Chainage, height and curve, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Chainage:0.0000} m: {Height:0.0000} {Curve}");
}

/// <summary>Heights along a path: tangents, parabolic and circular vertical curves. Never changed.</summary>
/// <remarks>
/// Parabola (symmetric or not): off the tangents by e(x/L₁)² before and e(x/L₂)² behind, e = (g₂ − g₁)L₁L₂/(2(L₁ + L₂)), grades in m/m. Circle: its
/// tangent length is R tan(|atan g₂ − atan g₁|/2) along each grade.
/// </remarks>
public sealed class Profile
{
    private readonly ProfilePoint[] points;
    private readonly Bend[] bends;

    private Profile(ProfilePoint[] points, Bend[] bends) => (this.points, this.bends) = (points, bends);

    /// <summary>The points of vertical intersection, by rising chainage.</summary>
    public ImmutableArray<ProfilePoint> Points => [.. points];

    /// <summary>First chainage, metres.</summary>
    public double Start => points[0].Chainage;

    /// <summary>Last chainage, metres.</summary>
    public double End => points[^1].Chainage;

    /// <summary>A profile of points by rising chainage, at least two.</summary>
    /// <param name="fault">What is wrong, a sentence without its stop; null where nothing is.</param>
    public static bool TryOf(ReadOnlySpan<ProfilePoint> points, [NotNullWhen(true)] out Profile? profile, [NotNullWhen(false)] out string? fault)
    {
        (profile, fault) = (null, null);
        if (points.Length < 2) fault = "a profile needs two points";
        for (var i = 1; i < points.Length && fault is null; i++)
            if (!(points[i].Chainage > points[i - 1].Chainage)) fault = FormattableString.Invariant($"the point at {points[i].Chainage:0.000} m does not lie behind the one at {points[i - 1].Chainage:0.000} m");
        if (fault is not null) return false;
        var bends = new Bend[points.Length];
        for (var i = 0; i < points.Length; i++)
        {
            bends[i] = new(points[i].Chainage, points[i].Chainage, 0, 0, 0, 0, false);
            if (points[i].Curve == VerticalCurveKind.None || i == 0 || i == points.Length - 1) continue;
            bends[i] = BendOf(points, i);
        }

        for (var i = 1; i < points.Length; i++)
        {
            if (bends[i].From >= bends[i - 1].To - Same) continue;
            fault = FormattableString.Invariant($"the vertical curves at {points[i - 1].Chainage:0.000} m and {points[i].Chainage:0.000} m overlap");
            return false;
        }

        profile = new(points.ToArray(), bends);
        return true;
    }

    /// <summary>The height at a chainage, metres; null before the first point and behind the last.</summary>
    public double? HeightAt(double chainage)
    {
        if (Locate(chainage) is not { } at) return null;
        if (at.Bend is not { } bend) return Tangent(at.Before, chainage);
        var point = points[at.Point];
        if (bend.IsCircle) return bend.CentreHeight + bend.Sense * Math.Sqrt(Math.Max(0, point.Radius * point.Radius - (chainage - bend.Centre) * (chainage - bend.Centre)));
        return chainage <= point.Chainage
            ? Tangent(at.Point - 1, chainage) + bend.Middle * Square((chainage - bend.From) / point.LengthIn)
            : Tangent(at.Point, chainage) + bend.Middle * Square((bend.To - chainage) / point.LengthOut);
    }

    /// <summary>The grade at a chainage, m/m, rising positive; at a break that behind it; null outside.</summary>
    public double? GradeAt(double chainage)
    {
        if (Locate(chainage) is not { } at) return null;
        if (at.Bend is not { } bend) return Grade(at.Before);
        var point = points[at.Point];
        if (bend.IsCircle)
        {
            var x = chainage - bend.Centre;
            return -bend.Sense * x / Math.Sqrt(point.Radius * point.Radius - x * x);
        }

        return chainage <= point.Chainage
            ? Grade(at.Point - 1) + 2 * bend.Middle * (chainage - bend.From) / (point.LengthIn * point.LengthIn)
            : Grade(at.Point) - 2 * bend.Middle * (bend.To - chainage) / (point.LengthOut * point.LengthOut);
    }

    /// <summary>Chainages at which something changes: ends, breaks of grade, starts and ends of curves, summits and sags; rising.</summary>
    public ImmutableArray<double> Stations()
    {
        var stations = new SortedSet<double> { Start, End };
        for (var i = 0; i < points.Length; i++)
        {
            stations.Add(bends[i].From);
            stations.Add(bends[i].To);
            if (bends[i].To > bends[i].From && Turning(i) is { } turning) stations.Add(turning);
        }

        return [.. stations];
    }

    private double? Turning(int i)
    {
        var (bend, point) = (bends[i], points[i]);
        double x;
        if (bend.IsCircle) x = bend.Centre;
        else
        {
            var before = bend.From - Grade(i - 1) * point.LengthIn * point.LengthIn / (2 * bend.Middle);
            x = before <= point.Chainage ? before : bend.To - Grade(i) * point.LengthOut * point.LengthOut / (2 * bend.Middle);
        }

        return x > bend.From && x < bend.To ? x : null;
    }

    private (int Point, int Before, Bend? Bend)? Locate(double chainage)
    {
        if (!(chainage >= Start - Same && chainage <= End + Same)) return null;
        var (low, high) = (0, points.Length - 1);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (points[middle].Chainage <= chainage) low = middle;
            else high = middle - 1;
        }

        low = Math.Min(low, points.Length - 2);
        if (chainage < bends[low].To) return (low, low, bends[low]);
        return chainage > bends[low + 1].From ? (low + 1, low, bends[low + 1].To > bends[low + 1].From ? bends[low + 1] : null) : (low, low, null);
    }

    private double Grade(int before) => (points[before + 1].Height - points[before].Height) / (points[before + 1].Chainage - points[before].Chainage);

    private double Tangent(int before, double chainage) => points[before].Height + Grade(before) * (chainage - points[before].Chainage);

    private static Bend BendOf(ReadOnlySpan<ProfilePoint> points, int i)
    {
        var p = points[i];
        double g1 = (p.Height - points[i - 1].Height) / (p.Chainage - points[i - 1].Chainage), g2 = (points[i + 1].Height - p.Height) / (points[i + 1].Chainage - p.Chainage);
        if (p.Curve == VerticalCurveKind.Parabola)
            return p.LengthIn > 0 && p.LengthOut > 0
                ? new(p.Chainage - p.LengthIn, p.Chainage + p.LengthOut, (g2 - g1) * p.LengthIn * p.LengthOut / (2 * (p.LengthIn + p.LengthOut)), 0, 0, 0, false)
                : new(p.Chainage, p.Chainage, 0, 0, 0, 0, false);
        var (a1, a2) = (Math.Atan(g1), Math.Atan(g2));
        var tangent = p.Radius * Math.Tan(Math.Abs(a2 - a1) / 2);
        if (!(tangent > 0)) return new(p.Chainage, p.Chainage, 0, 0, 0, 0, false);
        var sense = g2 > g1 ? -1 : 1; // where the curve lies of its centre: below in a sag
        var (from, to) = (p.Chainage - tangent * Math.Cos(a1), p.Chainage + tangent * Math.Cos(a2));
        var centre = from + sense * p.Radius * Math.Sin(a1);
        return new(from, to, 0, centre, p.Height - tangent * Math.Sin(a1) - sense * p.Radius * Math.Cos(a1), sense, true);
    }

    private static double Square(double x) => x * x;

    private const double Same = 1e-9; // m

    /// <param name="Middle">Metres off both tangents at their meeting, up positive, of a parabola.</param>
    private readonly record struct Bend(double From, double To, double Middle, double Centre, double CentreHeight, double Sense, bool IsCircle);
}
