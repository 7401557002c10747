namespace Aslaid.Testing;

/// <summary>What shares of tries say.</summary>
public static class Shares
{
    /// <summary>
    /// The largest probability under which so few hits in so many tries still have 5 %: one-sided 95 % upper bound (Clopper and
    /// Pearson, Biometrika 26 (1934) 404).
    /// </summary>
    public static double UpperBound(int hits, int tries)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(tries, 1);
        if (hits >= tries) return 1;
        var (low, high) = ((double)hits / tries, 1.0);
        while (high - low > 1e-9)
        {
            var middle = (low + high) / 2;
            if (AtMost(hits, tries, middle) > 0.05) low = middle;
            else high = middle;
        }

        return high;
    }

    /// <summary>
    /// The smallest size found in 95 % of tries, from there on at every size: linear between the sizes tried; null where none is, and
    /// where the least size tried is found already.
    /// </summary>
    /// <param name="found">Share found by size, sizes rising.</param>
    public static double? SizeFound(IReadOnlyList<(double Size, double Share)> found)
    {
        ArgumentNullException.ThrowIfNull(found);
        const double enough = 0.95;
        var from = found.Count;
        while (from > 0 && found[from - 1].Share >= enough) from--;
        if (from == 0 || from == found.Count) return null;
        var (below, above) = (found[from - 1], found[from]);
        return below.Size + ((above.Size - below.Size) * (enough - below.Share) / (above.Share - below.Share));
    }

    private static double AtMost(int hits, int tries, double p)
    {
        var sum = 0.0;
        var term = tries * Math.Log(1 - p); // logarithm of the binomial probability of k hits
        for (var k = 0; k <= hits; k++)
        {
            sum += Math.Exp(term);
            term += Math.Log((double)(tries - k) / (k + 1)) + Math.Log(p) - Math.Log(1 - p);
        }

        return sum;
    }
}
