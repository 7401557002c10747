using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A session whose check shots miss as a wrong scale or a wrong orientation makes them.</summary>
/// <param name="Checks">Places in the list of check shots.</param>
/// <param name="U">Standard uncertainty of scale and of turn.</param>
/// <param name="Points">Control points met.</param>
/// <param name="Reach">Distance from the middle of the control met to the farthest shot of the session, metres.</param>
/// <param name="Limit">What its effect there may be, metres.</param>
/// <param name="Sigmas">How many standard uncertainties count.</param>
/// <param name="IsProven">Three points or more say so, or both of two are missed: a single mark that moved would not explain that.</param>
internal readonly record struct SessionSimilarity(
    ImmutableArray<int> Checks, SimilarityFit Fit, double U, int Points, double Reach, double Limit, double Sigmas, bool IsProven)
{
    /// <summary>Whether the scale is beyond chance, and matters at the farthest shot.</summary>
    public bool IsScaled => Speaks(Fit.A);

    /// <summary>Whether the orientation is.</summary>
    public bool IsTurned => Speaks(Fit.B);

    private bool Speaks(double part) => Math.Abs(part) > Sigmas * U && Math.Abs(part) * Reach > Limit;
}

/// <summary>Fits a similarity to the misfits of each session: scale and orientation that its check shots ask for.</summary>
/// <remarks>It speaks only where what is left fits as stated, and where one moved mark explains it no better. Accuracy counts as
/// stated, or by what other sessions have taught: a wrong scale must not widen its own limit.</remarks>
internal sealed class SessionSimilarities
{
    /// <summary>Fewest standard uncertainties.</summary>
    private const double Often = 4;

    /// <summary>What is left does not fit when it is less likely than this.</summary>
    private const double Unfit = 0.01;

    /// <summary>One point left out and no similarity at all: it fits as well when it is not less likely than this.</summary>
    private const double Fits = 0.05;

    public SessionSimilarities(Site site)
    {
        if (site.CheckShots.IsEmpty) return;
        var sigmas = Math.Max(Often, AlarmBudget.Sigmas(2 * site.SessionChecks.All.Length));
        var found = new List<SessionSimilarity>();
        foreach (var checks in site.SessionChecks.All)
            if (Of(site, checks, sigmas) is { } similarity) found.Add(similarity);
        All = found.Count == 0 ? [] : Reached(site, found);
    }

    public ImmutableArray<SessionSimilarity> All { get; } = [];

    private static SessionSimilarity? Of(Site site, ImmutableArray<int> checks, double sigmas)
    {
        var points = Array.FindAll(site.SessionChecks.PointsAsStated(checks), point => !double.IsNaN(point.PlanVariance));
        if (points.Length < 2 || Fit(points) is not { } fit) return null;
        var factor = 1.0;
        if (!(Math.Max(Math.Abs(fit.A), Math.Abs(fit.B)) > sigmas * fit.U)) return null;
        foreach (var check in checks) factor = Math.Max(factor, site.SessionChecks.FactorElsewhere(site.CheckShots[check].Row, inPlan: true));
        if (fit.Freedom > 0 && (ChiSquared.Above(fit.Squares / (factor * factor), fit.Freedom) < Unfit || OneMarkExplains(points, factor))) return null;
        var left = fit.Freedom > 0 ? Math.Sqrt(fit.Squares / fit.Freedom) : 1;
        return new(checks, fit, fit.U * Math.Max(factor, left), points.Length, 0, 0, sigmas, points.Length >= ScaleOff.EnoughPoints || BothAreMissed(site, checks));
    }

    private static SimilarityFit? Fit(PointMisfit[] points) => SimilarityFit.Of(
        Array.ConvertAll(points, point => point.At), Array.ConvertAll(points, point => point.Plan), Array.ConvertAll(points, point => 1 / point.PlanVariance));

    private static bool BothAreMissed(Site site, ImmutableArray<int> checks) =>
        checks.GroupBy(check => site.CheckShots[check].Point).All(point => point.All(check => site.SessionChecks.Misfits[check].Missed));

    private static bool OneMarkExplains(PointMisfit[] points, double factor)
    {
        for (var left = 0; left < points.Length; left++)
        {
            var (weights, east, north, squares) = (0.0, 0.0, 0.0, 0.0);
            for (var i = 0; i < points.Length; i++)
            {
                if (i == left) continue;
                var weight = 1 / points[i].PlanVariance;
                (weights, east, north) = (weights + weight, east + weight * points[i].Plan.East, north + weight * points[i].Plan.North);
                squares += weight * points[i].Plan.SizeSquared;
            }

            squares -= (east * east + north * north) / weights;
            if (ChiSquared.Above(squares / (factor * factor), 2 * points.Length - 4) >= Fits) return true;
        }

        return false;
    }

    private static ImmutableArray<SessionSimilarity> Reached(Site site, List<SessionSimilarity> found)
    {
        var (shots, place) = (site.Shots, new Dictionary<int, int>());
        var reach = new double[found.Count];
        for (var i = 0; i < found.Count; i++) place.Add(shots.SessionColumn[site.CheckShots[found[i].Checks[0]].Row], i);
        foreach (var row in site.ShotRows)
            if (place.TryGetValue(shots.SessionColumn[row], out var at)) reach[at] = Math.Max(reach[at], shots.At(row).DistanceTo(found[at].Fit.Middle));
        return [.. found.Select((similarity, at) => similarity with
        {
            Reach = reach[at], Limit = site.SessionChecks.PlanCeiling(shots.SessionColumn[site.CheckShots[similarity.Checks[0]].Row]),
        })];
    }
}
