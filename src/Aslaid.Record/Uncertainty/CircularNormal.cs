namespace Aslaid.Record;

/// <summary>The normal distribution in the plane with the same standard deviation on both axes: how a place in plan is uncertain.</summary>
public static class CircularNormal
{
    /// <summary>Beyond so many standard deviations nothing is left (1e-18).</summary>
    private const double Far = 9;

    /// <summary>From a circle of so many standard deviations on, its edge is straight as far as a place reaches (the error stays under 0.00011).</summary>
    private const double NearlyStraight = 25;

    /// <summary>Radius in per-axis standard deviations within which lies <paramref name="p"/>: √(−2 ln(1 − p)).</summary>
    /// <param name="p">From 0 up to, not with, 1.</param>
    public static double Radius(double p) =>
        p is >= 0 and < 1 ? Math.Sqrt(-2 * Math.Log(1 - p)) : throw new ArgumentOutOfRangeException(nameof(p), p, "A probability from 0 up to 1 was expected.");

    /// <summary>
    /// Probability that a place lies within a circle. All lengths in one unit; <paramref name="sigma"/> per axis, above 0.
    /// </summary>
    /// <param name="radius">Of the circle; nothing lies within a negative one.</param>
    /// <param name="distance">From the circle's centre to the mean of the place, not negative.</param>
    /// <remarks>
    /// The chance that a Poisson number of mean radius²/2σ² exceeds one of mean distance²/2σ² (the noncentral chi-squared
    /// distribution with 2 degrees of freedom as a mixture, Abramowitz and Stegun 26.4.25); for large circles the distance as
    /// normal with mean distance + σ²/(2 distance).
    /// </remarks>
    public static double Within(double radius, double distance, double sigma)
    {
        var (edge, away) = (radius / sigma, distance / sigma);
        if (edge - away > Far) return 1;
        if (edge <= 0 || away - edge > Far) return 0;
        return edge > NearlyStraight ? Normal.Below(edge - away - 1 / (2 * away)) : Exceeds(edge * edge / 2, away * away / 2);
    }

    /// <summary>P(J &gt; K), J and K Poisson numbers of these means, neither above 600.</summary>
    private static double Exceeds(double meanJ, double meanK)
    {
        var (ofJ, ofK) = (Math.Exp(-meanJ), Math.Exp(-meanK));
        var (above, sum, left) = (1 - ofJ, 0.0, 1.0);
        for (var k = 1; ; k++)
        {
            sum += ofK * above;
            left -= ofK;
            if (k > meanK && left < 1e-12 || above <= 0) return Math.Clamp(sum, 0, 1);
            ofK *= meanK / k;
            ofJ *= meanJ / k;
            above -= ofJ;
        }
    }
}
