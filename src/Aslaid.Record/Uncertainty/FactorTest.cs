namespace Aslaid.Record;

/// <summary>
/// Learns the factor on the accuracy that an instrument states, from how its check shots scatter. In each session the misfits
/// are taken about their weighted mean, so that a shifted session makes no instrument a liar:
/// T(k) = Σ d²/v − (Σ d/v)²/Σ(1/v), v = k²·stated² + tip² + control², follows χ² with one degree of freedom less than shots.
/// </summary>
/// <remarks>T(1) beyond the χ² limit is optimism, unless leaving out one control point, one shot or one session explains it. Then the factor
/// solves T(k) = degrees of freedom (the ratio of Birge, Phys. Rev. 40 (1932) 207, with what is known kept apart).</remarks>
internal static class FactorTest
{
    /// <summary>Probability of calling a true statement optimistic.</summary>
    public const double Risk = 0.001;

    /// <summary>What is left fits well when it is not less likely than this: then the one left out is at fault, not the instrument.</summary>
    private const double Fits = 0.05;

    private const double Most = 100;

    /// <param name="axes">Misfits by axis (east and north, or height alone); all of one instrument.</param>
    public static LearntFactor Of(IReadOnlyList<CheckResidual[]> axes, double unproven)
    {
        var freedom = axes.Sum(axis => Freedom(axis));
        if (freedom == 0) return new(StatedAccuracy.Unproven, unproven, null, 0);
        var scatter = axes.Sum(axis => Scatter(axis, 1));
        var ratio = Math.Sqrt(scatter / freedom);
        if (ChiSquared.Above(scatter, freedom) >= Risk || OneIsAtFault(axes)) return new(StatedAccuracy.Proven, 1, ratio, freedom);
        if (freedom <= axes.Count) return new(StatedAccuracy.Unproven, unproven, ratio, freedom); // two shots: one alone may be at fault, and nothing is left to tell by
        var (low, high) = (1.0, Most);
        while (high - low > 1e-9 * high)
        {
            var middle = Math.Sqrt(low * high);
            if (axes.Sum(axis => Scatter(axis, middle)) > freedom) low = middle;
            else high = middle;
        }

        return new(StatedAccuracy.Optimistic, high, ratio, freedom);
    }

    /// <summary>A struck point, a bad shot, or a session that drifted or was set up wrongly.</summary>
    private static bool OneIsAtFault(IReadOnlyList<CheckResidual[]> axes) =>
        axes[0].Select(residual => residual.Session).Distinct().Any(session => FitsWithout(axes, residual => residual.Session == session)) ||
        axes[0].Select(residual => residual.Point).Distinct().Any(point => FitsWithout(axes, residual => residual.Point == point))
        || axes[0].Select(residual => residual.Row).Any(row => FitsWithout(axes, residual => residual.Row == row));

    private static bool FitsWithout(IReadOnlyList<CheckResidual[]> axes, Predicate<CheckResidual> left)
    {
        var rest = axes.Select(axis => Array.FindAll(axis, residual => !left(residual))).ToArray();
        var freedom = rest.Sum(axis => Freedom(axis));
        return freedom > 0 && ChiSquared.Above(rest.Sum(axis => Scatter(axis, 1)), freedom) >= Fits;
    }

    private static int Freedom(CheckResidual[] axis) => axis.Length - axis.Select(residual => residual.Session).Distinct().Count();

    private static double Scatter(CheckResidual[] axis, double factor)
    {
        var sum = 0.0;
        foreach (var session in axis.GroupBy(residual => residual.Session))
        {
            var (squares, weighted, weights) = (0.0, 0.0, 0.0);
            foreach (var residual in session)
            {
                var weight = 1 / residual.Variance(factor);
                (squares, weighted, weights) = (squares + weight * residual.Misfit * residual.Misfit, weighted + weight * residual.Misfit, weights + weight);
            }

            sum += Math.Max(0, squares - weighted * weighted / weights);
        }

        return sum;
    }
}
