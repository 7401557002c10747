using System.Globalization;

namespace Aslaid.Geometry;

public readonly partial record struct Arc
{
    /// <summary>The arc from <paramref name="a"/> through <paramref name="b"/> to <paramref name="c"/>.</summary>
    /// <param name="flatness">Metres. Where moving one place by this much would lay the three in line, the fault is
    /// <see cref="ArcFault.Straight"/>; callers pass three times the standard uncertainty of the mid-ordinate.</param>
    /// <remarks>Meeting of perpendicular bisectors, reduced to a first. The sweep is twice the deflection at b (angle at the
    /// circumference), so it does not suffer from a far centre. The measure held against the flatness is the least height of
    /// the triangle, which is the distance of b from the line a–c unless the arc nearly closes.
    /// Identical places are <see cref="ArcFault.Coincident"/>, also a = c: a circle needs <see cref="TryFullCircle"/>.</remarks>
    public static bool TryThrough(Point2 a, Point2 b, Point2 c, double flatness, out Arc arc, out ArcFault fault)
    {
        arc = default;
        if (!Bisect(a, b, c, flatness, out var centre, out var radius, out var cross, out fault)) return false;
        var sweep = 2 * Math.Atan2(Math.Abs(cross), (b - a).Dot(c - b));
        arc = new(a, c, centre, radius, sweep, cross > 0 ? Turn.Left : Turn.Right);
        return true;
    }

    /// <inheritdoc cref="TryThrough"/>
    /// <exception cref="ArgumentException">The places carry no arc; the message says why.</exception>
    public static Arc Through(Point2 a, Point2 b, Point2 c, double flatness) =>
        TryThrough(a, b, c, flatness, out var arc, out var fault)
            ? arc
            : throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                $"No arc through {a}, {b}, {c}: {fault} at flatness {flatness} m."));

    /// <summary>The full circle that starts and ends at <paramref name="start"/> and passes b, then c.</summary>
    /// <param name="flatness">Metres, as in <see cref="TryThrough"/>.</param>
    /// <remarks>The order of the three gives the turn.</remarks>
    public static bool TryFullCircle(Point2 start, Point2 b, Point2 c, double flatness, out Arc arc, out ArcFault fault)
    {
        arc = default;
        if (!Bisect(start, b, c, flatness, out var centre, out var radius, out var cross, out fault)) return false;
        arc = new(start, start, centre, radius, double.Tau, cross > 0 ? Turn.Left : Turn.Right);
        return true;
    }

    /// <summary>The full circle from a start and the place opposite it, as SQL/MM writes a circle of three places whose first and last agree.</summary>
    public static Arc FullCircle(Point2 start, Point2 opposite, Turn turn)
    {
        var radius = 0.5 * (opposite - start);
        return new(start, start, start + radius, radius.Size, double.Tau, turn);
    }


    /// <summary>The arc from one place to another about a centre. Ends are kept; the centre is moved, square to the chord, to be as far from both, its radius the mean of both distances where that is possible.</summary>
    /// <param name="tolerance">Metres by which the two distances from the centre may differ.</param>
    /// <returns>False where they differ by more, where an end is the centre, and where both ends are one place: a circle needs <see cref="FullCircle"/>.</returns>
    public static bool TryAbout(Point2 from, Point2 to, Point2 centre, Turn turn, double tolerance, out Arc arc)
    {
        arc = default;
        Step start = from - centre, end = to - centre;
        double first = start.Size, last = end.Size;
        if (from == to || first == 0 || last == 0 || !(Math.Abs(first - last) <= tolerance)) return false;
        var sense = turn == Turn.Left ? 1 : -1;
        var sweep = Math.Atan2(sense * start.Cross(end), start.Dot(end));
        if (sweep <= 0) sweep += double.Tau;
        arc = OfSweep(from, to, sweep, turn);
        return true;
    }

    /// <summary>The arc from one place to another that turns by a sweep.</summary>
    /// <param name="sweep">Radians, in (0, 2π), never signed.</param>
    /// <remarks>Radius by half the chord over sin(sweep/2), centre by cot(sweep/2) half chords beside its middle: exact for any sweep.</remarks>
    public static Arc OfSweep(Point2 from, Point2 to, double sweep, Turn turn)
    {
        if (!(sweep is > 0 and < double.Tau)) throw new ArgumentOutOfRangeException(nameof(sweep), sweep, "A sweep in radians lies between 0 and 2π.");
        var half = 0.5 * (to - from);
        var (sin, cos) = Math.SinCos(sweep / 2);
        var sense = turn == Turn.Left ? 1 : -1;
        return new(from, to, from + half + sense * cos / sin * half.Left, half.Size / sin, sweep, turn);
    }
    /// <summary>An arc from parts that were an arc before, as stored in columns. Nothing is derived: what goes in comes out, bit for bit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or not finite, or the sweep is outside [0, 2π].</exception>
    public static Arc FromParts(Point2 from, Point2 to, Point2 centre, double radius, double sweep, Turn turn)
    {
        if (!(radius >= 0 && double.IsFinite(radius)))
            throw new ArgumentOutOfRangeException(nameof(radius), radius, "An arc's radius in metres is 0 or more, and finite.");
        if (!(sweep >= 0 && sweep <= double.Tau))
            throw new ArgumentOutOfRangeException(nameof(sweep), sweep, "An arc's sweep in radians lies in (0, 2π].");
        return new(from, to, centre, radius, sweep, turn);
    }

    private static bool Bisect(Point2 a, Point2 b, Point2 c, double flatness,
        out Point2 centre, out double radius, out double cross, out ArcFault fault)
    {
        Step ab = b - a, ac = c - a, bc = c - b;
        double abab = ab.SizeSquared, acac = ac.SizeSquared, bcbc = bc.SizeSquared;
        centre = default;
        radius = 0;
        cross = abab <= bcbc ? ab.Cross(ac) : ac.Cross(bc); // the same area; the shorter side loses fewer digits
        fault = ArcFault.Coincident;
        if (a == b || b == c || c == a) return false;
        fault = ArcFault.Straight;
        if (cross * cross <= flatness * flatness * Math.Max(acac, Math.Max(abab, bcbc))) return false;
        var toCentre = 1 / (2 * cross) * new Step(ac.North * abab - ab.North * acac, ab.East * acac - ac.East * abab);
        radius = toCentre.Size;
        if (!double.IsFinite(radius)) return false;
        centre = a + toCentre;
        fault = ArcFault.None;
        return true;
    }
}
