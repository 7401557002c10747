namespace Aslaid.Geometry;

/// <summary>Circles by linear least squares: quick seeds for the true fit, and biased small on short flat arcs.</summary>
/// <param name="Centre">Metres.</param>
/// <param name="Radius">Metres.</param>
public readonly record struct AlgebraicCircle(Point2 Centre, double Radius)
{
    /// <summary>Minimises Σ(ρ² − R²)², ρ the distance from the centre; false for fewer than three places or places in line.</summary>
    /// <remarks>Does not depend on the frame. Source: I. Kåsa, A circle fitting procedure and its error analysis, IEEE Trans. Instrum. Meas. 25 (1976) 8–14.</remarks>
    public static bool TryKasa(ReadOnlySpan<Point2> places, out AlgebraicCircle circle)
    {
        circle = default;
        if (places.Length < 3) return false;
        var mean = Mean(places);
        double ee = 0, en = 0, nn = 0, ze = 0, zn = 0, zz = 0;
        foreach (var p in places)
        {
            var d = p - mean;
            var z = d.SizeSquared;
            ee += d.East * d.East;
            en += d.East * d.North;
            nn += d.North * d.North;
            ze += z * d.East;
            zn += z * d.North;
            zz += z;
        }
        var det = ee * nn - en * en;
        if (!(det > 1e-28 * (ee + nn) * (ee + nn))) return false; // in line to within rounding
        var centre = new Step((ze * nn - zn * en) / (2 * det), (zn * ee - ze * en) / (2 * det));
        var radius = Math.Sqrt(centre.SizeSquared + zz / places.Length);
        if (!double.IsFinite(radius)) return false;
        circle = new(mean + centre, radius);
        return true;
    }

    /// <summary>Minimises Σ(aρ² + b₁E + b₂N + c)² with (a, b₁, b₂, c) of norm 1, E, N and ρ reckoned from <paramref name="origin"/>; false where that is no circle.</summary>
    /// <param name="origin">The answer depends on it, and on the unit.</param>
    /// <remarks>Smallest right singular vector, by one-sided Jacobi rotations: no squares of the matrix are formed.
    /// Source: W. Gander, G. H. Golub, R. Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994) 558–578, section 2.</remarks>
    public static bool TryUnitNorm(ReadOnlySpan<Point2> places, Point2 origin, out AlgebraicCircle circle) =>
        TryUnitNorm(places, origin, 1, out circle);

    internal static bool TryUnitNorm(ReadOnlySpan<Point2> places, Point2 origin, double unit, out AlgebraicCircle circle)
    {
        circle = default;
        var n = places.Length;
        if (n < 3) return false;
        var matrix = new double[4 * n];
        for (var i = 0; i < n; i++)
        {
            var d = 1 / unit * (places[i] - origin);
            matrix[i] = d.SizeSquared;
            matrix[n + i] = d.East;
            matrix[2 * n + i] = d.North;
            matrix[3 * n + i] = 1;
        }
        Span<double> vectors = stackalloc double[16];
        SingularVectors(matrix, n, vectors);
        int least = 0;
        for (var column = 1; column < 4; column++)
            if (NormSquared(matrix, n, column) < NormSquared(matrix, n, least)) least = column;

        double a = vectors[least], b1 = vectors[4 + least], b2 = vectors[8 + least], c = vectors[12 + least];
        var squared = (b1 * b1 + b2 * b2) / (4 * a * a) - c / a;
        if (a == 0 || !(squared > 0) || !double.IsFinite(squared)) return false;
        circle = new(origin + unit * new Step(-b1 / (2 * a), -b2 / (2 * a)), unit * Math.Sqrt(squared));
        return true;
    }

    /// <summary>Centre and radius, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"centre {Centre}, radius {Radius:0.0000} m");

    /// <summary>The mean place, reckoned from the first.</summary>
    internal static Point2 Mean(ReadOnlySpan<Point2> places)
    {
        var sum = default(Step);
        foreach (var p in places) sum += p - places[0];
        return places[0] + 1.0 / places.Length * sum;
    }

    /// <summary>Rotates the four columns until they are square to each other; <paramref name="v"/>, row by row, gathers the rotations (M. R. Hestenes 1958).</summary>
    private static void SingularVectors(Span<double> m, int n, Span<double> v)
    {
        v.Clear();
        for (var i = 0; i < 4; i++) v[5 * i] = 1;
        for (var sweep = 0; sweep < 60; sweep++) // settles in under ten; the cap only guards
        {
            var turned = false;
            for (var p = 0; p < 3; p++)
                for (var q = p + 1; q < 4; q++)
                {
                    double pp = 0, qq = 0, pq = 0;
                    for (var i = 0; i < n; i++)
                    {
                        double x = m[p * n + i], y = m[q * n + i];
                        pp += x * x;
                        qq += y * y;
                        pq += x * y;
                    }
                    if (Math.Abs(pq) <= 1e-15 * Math.Sqrt(pp * qq)) continue;
                    turned = true;
                    var zeta = (qq - pp) / (2 * pq);
                    var t = (zeta < 0 ? -1 : 1) / (Math.Abs(zeta) + Math.Sqrt(1 + zeta * zeta));
                    var cos = 1 / Math.Sqrt(1 + t * t);
                    var sin = cos * t;
                    for (var i = 0; i < n; i++) (m[p * n + i], m[q * n + i]) = (cos * m[p * n + i] - sin * m[q * n + i], sin * m[p * n + i] + cos * m[q * n + i]);
                    for (var i = 0; i < 4; i++) (v[4 * i + p], v[4 * i + q]) = (cos * v[4 * i + p] - sin * v[4 * i + q], sin * v[4 * i + p] + cos * v[4 * i + q]);
                }
            if (!turned) return;
        }
    }

    private static double NormSquared(ReadOnlySpan<double> m, int n, int column)
    {
        var sum = 0.0;
        for (var i = 0; i < n; i++) sum += m[column * n + i] * m[column * n + i];
        return sum;
    }
}
