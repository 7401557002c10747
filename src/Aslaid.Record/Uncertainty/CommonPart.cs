namespace Aslaid.Record;

/// <summary>
/// What a session has in common on one axis, from its check shots: before them a shift of mean 0 and variance c² (the setting);
/// after them, misfits of mean d and variance v about it, a shift of mean c²d/(c² + v) and variance c²v/(c² + v). Nothing is
/// shifted by it, so the mean stays in as a known error: u² = mean² + variance (JCGM 100:2008, F.2.4.5).
/// </summary>
/// <remarks>Shots on one control point share that point's error: they are averaged first. A point without stated accuracy
/// tells nothing here.</remarks>
internal static class CommonPart
{
    /// <param name="residuals">Of one session and one axis.</param>
    /// <param name="prior">Standard uncertainty before any check shot, metres.</param>
    /// <param name="factors">Factor on stated accuracy by instrument.</param>
    /// <returns>Square of the standard uncertainty, m², and the mean misfit d, metres.</returns>
    public static (double Variance, double Mean) Of(IEnumerable<CheckResidual> residuals, double prior, double[] factors)
    {
        var (weights, weighted) = (0.0, 0.0);
        foreach (var point in residuals.Where(residual => !double.IsNaN(residual.Known)).GroupBy(residual => residual.Point))
        {
            var (own, sum, known) = (0.0, 0.0, 0.0);
            foreach (var residual in point)
            {
                var weight = 1 / (residual.Variance(factors[residual.Receiver]) - residual.Known + Least);
                (own, sum, known) = (own + weight, sum + weight * residual.Misfit, residual.Known);
            }

            var together = 1 / (1 / own + known);
            (weights, weighted) = (weights + together, weighted + together * sum / own);
        }

        if (weights == 0) return (prior * prior, 0);
        var (mean, c, v) = (weighted / weights, prior * prior, 1 / weights);
        if (c == 0) return (Math.Max(0, mean * mean - v), mean); // the setting says that there is none, and the check shots know better
        return (Math.Pow(c * mean / (c + v), 2) + c * v / (c + v), mean);
    }

    /// <summary>m²: keeps a shot that claims to be exact from dividing by nothing.</summary>
    private const double Least = 1e-12;
}
