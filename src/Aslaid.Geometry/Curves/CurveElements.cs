namespace Aslaid.Geometry;

/// <summary>The elements of a circular curve, metres, from its radius and sweep. <c>default</c> is all zero.</summary>
/// <param name="Radius">Metres.</param>
/// <param name="Sweep">Radians, in [0, 2π].</param>
/// <remarks>All lengths share the radius's unit, so the class serves any one unit.</remarks>
public readonly record struct CurveElements(double Radius, double Sweep)
{
    /// <summary>From either end to the meeting of the tangents, R tan(Δ/2); null from half a turn on.</summary>
    public double? Tangent => Sweep < Math.PI ? Radius * Math.Tan(Sweep / 2) : null;

    /// <summary>Along the arc, RΔ.</summary>
    public double Length => Radius * Sweep;

    /// <summary>From end to end, 2R sin(Δ/2).</summary>
    public double LongChord => 2 * Radius * Math.Sin(Sweep / 2);

    /// <summary>From the meeting of the tangents to the middle of the arc, R(1/cos(Δ/2) − 1); null from half a turn on.</summary>
    public double? External => Sweep < Math.PI ? MidOrdinate / Math.Cos(Sweep / 2) : null;

    /// <summary>From the middle of the chord to the middle of the arc, R(1 − cos(Δ/2)).</summary>
    public double MidOrdinate
    {
        get
        {
            var s = Math.Sin(Sweep / 4);
            return 2 * Radius * s * s;
        }
    }

    /// <summary>The length laid out in chords of a stated length under the chord definition: chord × Δ / D.</summary>
    /// <param name="chord">The definition's chord, in the radius's unit.</param>
    public double LengthByChords(double chord) => chord * Sweep / DegreeOfCurve.OfChord(Radius, chord);

    /// <summary>Radius and sweep, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"radius {Radius:0.0000}, sweep {double.RadiansToDegrees(Sweep):0.000000}°");
}

/// <summary>The sharpness of a curve as the angle over a stated length (100 ft in the trade that uses it).</summary>
public static class DegreeOfCurve
{
    /// <summary>Radius under the arc definition: R = length / D.</summary>
    /// <param name="degree">Radians, above 0.</param>
    /// <param name="length">Along the arc; the radius comes in its unit.</param>
    public static double RadiusByArc(double degree, double length) => length / Positive(degree);

    /// <summary>Radius under the chord definition: R = (chord / 2) / sin(D / 2).</summary>
    /// <param name="degree">Radians, above 0.</param>
    /// <param name="chord">Across the arc; the radius comes in its unit.</param>
    public static double RadiusByChord(double degree, double chord) => chord / 2 / Math.Sin(Positive(degree) / 2);

    /// <summary>Radians over a length along the arc, in the radius's unit.</summary>
    public static double OfArc(double radius, double length) => length / Positive(radius);

    /// <summary>Radians over a chord, in the radius's unit.</summary>
    public static double OfChord(double radius, double chord) => 2 * Math.Asin(chord / 2 / Positive(radius));

    private static double Positive(double value)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(value);
        return value;
    }
}
