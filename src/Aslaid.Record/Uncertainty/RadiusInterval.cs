namespace Aslaid.Record;

/// <summary>
/// 95 % interval of an arc's radius, metres. A radius answers to a small ordinate as its reciprocal: what is normal is the curvature.
/// So the interval is that of the curvature, 1/R ± 1.96 u(R)/R², turned over: unequal, and open above where the shots do not exclude a straight.
/// </summary>
/// <param name="Low">Smallest radius.</param>
/// <param name="High">Largest radius; infinite where a straight is not excluded.</param>
/// <remarks>Against 100 000 draws its ends lie within 0.5 % of the 2.5 % and 97.5 % quantiles down to an ordinate of 4.5 u (decision 0012).</remarks>
public readonly record struct RadiusInterval(double Low, double High)
{
    /// <summary>
    /// Up to this share of the radius, u(R) serves as it is: R ± 1.96 u(R) misses the true ends by no more than a twentieth of its
    /// half-width, since the share that it misses is 1.96 u(R)/R. For a flat arc shot in the middle this is an ordinate of 40 u.
    /// </summary>
    public const double LinearShare = 0.0255;

    /// <summary>Whether R ± 1.96 u(R) is the interval.</summary>
    public static bool IsLinear(double radius, double u) => u <= LinearShare * radius;

    /// <summary>The interval of an arc's radius; null for a straight and where a shot states no accuracy.</summary>
    public static RadiusInterval? Of(Piece piece) => piece.URadius is { } u ? Of(piece.Arc.Radius, u) : null;

    /// <summary>The interval of a radius of this standard uncertainty, whether that is small or not.</summary>
    public static RadiusInterval Of(double radius, double u)
    {
        var doubt = Normal.Within95 * u / radius;
        return new(radius / (1 + doubt), doubt < 1 ? radius / (1 - doubt) : double.PositiveInfinity);
    }
}
