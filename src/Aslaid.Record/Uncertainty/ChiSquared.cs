namespace Aslaid.Record;

/// <summary>The sum of the squares of so many independent normal deviates: what residuals over their standard uncertainties follow.</summary>
public static class ChiSquared
{
    private const int Terms = 500;
    private const int Many = 5000;
    private const double Enough = 1e-16;

    /// <summary>Probability of a sum above <paramref name="sum"/>; 1 at or below 0.</summary>
    /// <param name="freedom">Degrees of freedom, at least 1.</param>
    public static double Above(double sum, int freedom)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(freedom, 1);
        if (sum <= 0) return 1;
        if (freedom > Many) // Wilson and Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684: good to 1e-5 here
        {
            var spread = 2.0 / (9 * freedom);
            return Normal.Above((Math.Cbrt(sum / freedom) - (1 - spread)) / Math.Sqrt(spread));
        }

        var (a, half) = (freedom / 2.0, sum / 2);
        var weight = Math.Exp(a * Math.Log(half) - half - LogGamma(freedom));
        return half < a + 1 ? 1 - weight * Series(a, half) : weight * Fraction(a, half);
    }

    /// <summary>The sum that is exceeded with a probability of <paramref name="p"/>, 0 and 1 apart.</summary>
    public static double Limit(double p, int freedom)
    {
        if (!(p > 0 && p < 1)) throw new ArgumentOutOfRangeException(nameof(p), p, "A probability between 0 and 1 was expected.");
        var (low, high) = (0.0, (double)freedom + 10);
        while (Above(high, freedom) > p) high *= 2;
        while (high - low > 1e-13 * high)
        {
            var middle = (low + high) / 2;
            if (Above(middle, freedom) > p) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    /// <summary>γ(a, x)/(xᵃ e⁻ˣ), DLMF 8.7.1.</summary>
    private static double Series(double a, double half)
    {
        var (term, sum) = (1 / a, 1 / a);
        for (var n = 1; n < Terms && term > Enough * sum; n++)
        {
            term *= half / (a + n);
            sum += term;
        }

        return sum;
    }

    /// <summary>Γ(a, x)/(xᵃ e⁻ˣ), the continued fraction DLMF 8.9.2 from its far end.</summary>
    private static double Fraction(double a, double half)
    {
        var fraction = half + 2 * Terms + 1 - a;
        for (var n = Terms; n > 0; n--) fraction = half + 2 * n - 1 - a - n * (n - a) / fraction;
        return 1 / fraction;
    }

    /// <summary>ln Γ(freedom/2), by steps of 1 from Γ(1) = 1 or Γ(½) = √π.</summary>
    private static double LogGamma(int freedom)
    {
        var sum = freedom % 2 == 0 ? 0 : Math.Log(Math.PI) / 2;
        for (var a = freedom % 2 == 0 ? 1.0 : 0.5; a < freedom / 2.0; a++) sum += Math.Log(a);
        return sum;
    }
}
