namespace Aslaid.Record;

/// <summary>
/// Learns the factor on the accuracy that an instrument states, from how its check shots scatter (<see cref="CheckScatter"/>). Without
/// check shots it is the setting k₀. With a sum T of f degrees of freedom it is √((T + k₀²)/(f + 1)), never below 1, as if one more
/// degree of freedom had said k₀; and 1 once it is proven: once k₀ itself would scatter more than was seen. It is optimistic where T is
/// beyond chance, and then k solves T(k) = f (the ratio of Birge, Phys. Rev. 40 (1932) 207, with what is known kept apart).
/// </summary>
/// <remarks>Before an instrument is called optimistic, one session, point or shot that explains it is left out: it must fit badly by
/// itself, as many as were tried taken into account, and the rest must fit well. The rest then teaches.</remarks>
internal static class FactorTest
{
    /// <summary>Probability of calling a true statement optimistic.</summary>
    public const double Risk = 0.001;

    /// <summary>Probability of calling an instrument proven that is as bad as the setting fears.</summary>
    private const double ProofRisk = 0.05;

    /// <summary>The rest fits well when it is not less likely than this.</summary>
    private const double Fits = 0.01;

    /// <summary>So many degrees of freedom the setting is worth (DEFAULT).</summary>
    private const int Prior = 1;

    private const double Most = 100;

    /// <param name="axes">By axis (east and north, or height alone); all of one instrument.</param>
    /// <param name="unproven">The setting, at least 1.</param>
    public static LearntFactor Of(IReadOnlyList<CheckScatter> axes, double unproven)
    {
        var total = axes.Aggregate(default(Scatter), (sum, axis) => sum + axis.Total);
        if (total.Freedom == 0) return new(StatedAccuracy.Unproven, unproven, null, 0);
        if (!total.IsTooMuch) return Learnt(total, unproven);
        if (total.Freedom <= axes.Count) return Learnt(total, unproven) with { State = StatedAccuracy.Unproven }; // two shots: nothing is left to tell by
        if (RestWithoutOne(axes, total) is { } rest) return Learnt(rest, unproven);
        var (low, high) = (1.0, Most);
        while (high - low > 1e-9 * high)
        {
            var middle = Math.Sqrt(low * high);
            if (axes.Sum(axis => axis.At(middle)) > total.Freedom) low = middle;
            else high = middle;
        }

        return new(StatedAccuracy.Optimistic, high, Ratio(total), total.Freedom);
    }

    private static LearntFactor Learnt(Scatter seen, double unproven)
    {
        var factor = Math.Sqrt(Math.Max(1, (seen.Sum + Prior * unproven * unproven) / (seen.Freedom + Prior)));
        var isProven = unproven == 1 || 1 - ChiSquared.Above(seen.Sum / (unproven * unproven), seen.Freedom) < ProofRisk;
        return isProven ? new(StatedAccuracy.Proven, 1, Ratio(seen), seen.Freedom) : new(StatedAccuracy.Unproven, Math.Min(factor, unproven), Ratio(seen), seen.Freedom);
    }

    private static double Ratio(Scatter seen) => Math.Sqrt(seen.Sum / seen.Freedom);

    /// <summary>What is left once a session that drifted, a struck point or a bad shot is left out; null where none explains it.</summary>
    private static Scatter? RestWithoutOne(IReadOnlyList<CheckScatter> axes, Scatter total)
    {
        var residuals = axes[0].Residuals;
        var points = residuals.GroupBy(residual => residual.Point).ToArray();
        var sessions = residuals.Select(residual => residual.Session).Distinct().ToArray();
        var tried = residuals.Count + points.Length + sessions.Length;
        Scatter? best = null;
        foreach (var session in sessions) Try(axes.Aggregate(total, (rest, axis) => rest - axis.BySession.GetValueOrDefault(session)));
        foreach (var point in points)
        {
            var met = point.Select(residual => residual.Session).Distinct().ToArray();
            Try(axes.Aggregate(default(Scatter), (rest, axis) => rest + axis.WithoutPoint(point.Key, met)));
        }

        for (var i = 0; i < residuals.Count; i++)
        {
            var row = residuals[i];
            Try(axes.Aggregate(default(Scatter), (rest, axis) => rest + axis.WithoutRow(row)));
        }

        return best;

        void Try(Scatter rest)
        {
            var left = total - rest;
            if (rest.Freedom < 1 || left.Freedom < 1 || ChiSquared.Above(left.Sum, left.Freedom) >= Risk / tried || ChiSquared.Above(rest.Sum, rest.Freedom) < Fits) return;
            if (best is null || rest.Freedom > best.Value.Freedom) best = rest;
        }
    }
}
