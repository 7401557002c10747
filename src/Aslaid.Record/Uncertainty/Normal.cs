namespace Aslaid.Record;

/// <summary>The normal distribution of mean 0 and standard deviation 1.</summary>
public static class Normal
{
    /// <summary>95 % lies within this many standard deviations of the mean: Φ⁻¹(0.975).</summary>
    public const double Within95 = 1.959963984540054;

    /// <summary>95 % of a circular normal distribution lies within this many per-axis standard deviations: √(−2 ln 0.05).</summary>
    public const double Circle95 = 2.447746830680816;

    private const double Tiny = 1e-17;

    /// <summary>Probability of a value below <paramref name="z"/>, to about 1e-15.</summary>
    public static double Below(double z) => z > 0 ? 1 - Upper(z) : Upper(-z);

    /// <summary>Probability of a value above <paramref name="z"/>, to about 1e-14 of itself, however small.</summary>
    public static double Above(double z) => z > 0 ? Upper(z) : 1 - Upper(-z);

    /// <summary>The value below which lies <paramref name="p"/>, 0 and 1 apart; infinite at 0 and 1.</summary>
    public static double Quantile(double p)
    {
        if (double.IsNaN(p) || p is < 0 or > 1) throw new ArgumentOutOfRangeException(nameof(p), p, "A probability is from 0 to 1.");
        if (p is 0 or 1) return p == 0 ? double.NegativeInfinity : double.PositiveInfinity;
        if (p > 0.5) return -Quantile(1 - p);
        var (low, high) = (-39.0, 0.0);
        var z = -Math.Sqrt(-2 * Math.Log(p)); // the tail's leading term, good enough to begin with
        for (var step = 0; step < 100; step++)
        {
            z = z > low && z < high ? z : (low + high) / 2;
            var excess = Below(z) - p;
            if (excess > 0) high = z;
            else low = z;
            var next = z - excess / Density(z);
            if (Math.Abs(next - z) <= 1e-15 * Math.Abs(z)) return next;
            z = next;
        }

        return z;
    }

    private static double Density(double z) => Math.Exp(-z * z / 2) / Math.Sqrt(double.Tau);

    /// <summary>Φ(−z) for z at or above 0: the series of Abramowitz and Stegun 26.2.11 near 0, the continued fraction 26.2.14 beyond.</summary>
    private static double Upper(double z)
    {
        if (z > 39) return 0;
        if (z < 2.5)
        {
            var (term, sum) = (z, z);
            for (var n = 3; Math.Abs(term) > Tiny * Math.Abs(sum) && n < 400; n += 2)
            {
                term *= z * z / n;
                sum += term;
            }

            return 0.5 - Density(z) * sum;
        }

        var fraction = z;
        for (var n = 200; n > 0; n--) fraction = z + n / fraction;
        return Density(z) / fraction;
    }
}
