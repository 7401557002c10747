namespace Aslaid.Geometry;

/// <summary>Cofactors of a fitted circle's centre east, centre north and radius: the inverse of the normal matrix. Times σ₀² (or 1,
/// where weights are 1/u²) they are variances and covariances in m².</summary>
/// <param name="EastEast">Centre east with itself.</param>
/// <param name="EastNorth">Centre east with centre north.</param>
/// <param name="EastRadius">Centre east with radius.</param>
/// <param name="NorthNorth">Centre north with itself.</param>
/// <param name="NorthRadius">Centre north with radius.</param>
/// <param name="RadiusRadius">Radius with itself.</param>
public readonly record struct CircleCofactor(
    double EastEast, double EastNorth, double EastRadius, double NorthNorth, double NorthRadius, double RadiusRadius)
{
    /// <summary>The upper triangle, row by row, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"[{EastEast:G6} {EastNorth:G6} {EastRadius:G6}; {NorthNorth:G6} {NorthRadius:G6}; {RadiusRadius:G6}]");
}

/// <summary>An arc fitted to places by least squares of their distances from it.</summary>
/// <param name="Arc">The arc, started and ended at the feet of the first and last place, or at the places where held.</param>
/// <param name="SumOfSquares">Σwr². With weights 1/u² it is the global test's statistic, chi-squared with <paramref name="DegreesOfFreedom"/>; unweighted, m².</param>
/// <param name="RmsResidual">Metres, √(Σr²/n), unweighted, over all places (a held end has residual 0).</param>
/// <param name="DegreesOfFreedom">Places less three; held, the places between less one.</param>
/// <param name="SigmaZero">√(Σwr²/freedom): unweighted, the standard deviation of a place across the arc, metres; with weights 1/u², about 1. Null without freedom.</param>
/// <param name="Cofactor">Of centre and radius. Held, for the ends taken as free of error.</param>
/// <param name="Outlier">The place with the largest normalised residual; -1 without freedom.</param>
/// <param name="LargestNormalised">Its |r|/√(cofactor of r); with weights 1/u² standard normal if all is well (W. Baarda 1968). Unweighted, divide by the u of a place, or by σ₀. Null without freedom.</param>
public readonly record struct ArcFit(Arc Arc, double SumOfSquares, double RmsResidual, int DegreesOfFreedom, double? SigmaZero,
    CircleCofactor Cofactor, int Outlier, double? LargestNormalised)
{
    /// <summary>Arc, residual and freedom, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Arc}, rms {RmsResidual:0.0000} m, {DegreesOfFreedom} freedoms");
}
