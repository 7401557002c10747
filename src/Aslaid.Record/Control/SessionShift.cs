using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>The one vector by which all check shots of a session miss, in plan and in height apart.</summary>
/// <param name="Plan">Weighted mean misfit, metres, shot minus known.</param>
/// <param name="UPlan">Its standard uncertainty per axis, metres, from shots and control.</param>
/// <param name="PlanLimit">Mean limit of the check shots, metres.</param>
/// <param name="InPlan">Whether the session is shifted in plan: some shot is missed, the mean is over the limit, each point has at
/// least half of it and each check shot a third, and points differ no more than they may by chance.</param>
/// <param name="Height">Weighted mean misfit in height, metres; NaN where none is known.</param>
/// <param name="InHeight">The same in height.</param>
/// <param name="IsBeyondDoubt">Whether a check shot is missed beyond doubt, or the vector is more than sessions have in common by the settings.</param>
/// <param name="Points">Control points met.</param>
internal readonly record struct SessionShift(
    Step Plan, double UPlan, double PlanLimit, bool InPlan, double Height, double UHeight, double HeightLimit, bool InHeight, bool IsBeyondDoubt, int Points)
{
    /// <summary>Less likely than this, and points differ by more than chance.</summary>
    private const double Unlike = 0.001;

    /// <summary>Share of the common vector that each point shows at least.</summary>
    private const double Share = 0.5;

    /// <summary>Share of it that each check shot shows at least: else the session changed on the way.</summary>
    private const double ShareOfShot = 1.0 / 3;

    /// <summary>Limits are three standard uncertainties where no accuracy is known.</summary>
    private const double Often = 3;

    /// <summary>Whether plan is as it should be: the mean is within the limit.</summary>
    public bool PlanFits => Plan.Size <= PlanLimit;

    public static SessionShift Of(Site site, ImmutableArray<int> checks)
    {
        var (all, points) = (site.SessionChecks.Misfits, site.SessionChecks.Points(checks));
        var (planLimit, heightLimit) = (checks.Average(check => all[check].PlanLimit), checks.Average(check => all[check].HeightLimit));
        var usualPlan = planLimit * planLimit / (2 * Often * Often);
        var (weights, sum, squares) = (0.0, default(Step), 0.0);
        foreach (var point in points)
        {
            var weight = 1 / (double.IsNaN(point.PlanVariance) ? usualPlan : point.PlanVariance);
            (weights, sum, squares) = (weights + weight, sum + weight * point.Plan, squares + weight * point.Plan.SizeSquared);
        }

        var plan = (1 / weights) * sum;
        var together = points.Length > 1 && ChiSquared.Above(squares - weights * plan.SizeSquared, 2 * points.Length - 2) >= Unlike
            && Array.TrueForAll(points, point => point.Plan.Dot(plan) >= Share * plan.SizeSquared)
            && checks.All(check => new Step(site.CheckShots[check].East, site.CheckShots[check].North).Dot(plan) >= ShareOfShot * plan.SizeSquared);
        var inPlan = together && plan.Size > planLimit && checks.Any(check => all[check].MissedInPlan);

        var (ups, up, upSquares, heights) = (0.0, 0.0, 0.0, 0);
        foreach (var point in points)
        {
            if (double.IsNaN(point.Height)) continue;
            var weight = 1 / (double.IsNaN(point.HeightVariance) ? heightLimit * heightLimit / (Often * Often) : point.HeightVariance);
            (ups, up, upSquares, heights) = (ups + weight, up + weight * point.Height, upSquares + weight * point.Height * point.Height, heights + 1);
        }

        var height = up / ups;
        together = heights > 1 && ChiSquared.Above(upSquares - ups * height * height, heights - 1) >= Unlike
            && Array.TrueForAll(points, point => double.IsNaN(point.Height) || point.Height * height >= Share * height * height)
            && checks.All(check => site.CheckShots[check].Height is not { } misfit || misfit * height >= ShareOfShot * height * height);
        var inHeight = together && Math.Abs(height) > heightLimit && checks.Any(check => all[check].MissedInHeight);
        var (common, commonHeight) = (site.Settings.SessionUPlan * site.Settings.SessionUPlan, site.Settings.SessionUHeight * site.Settings.SessionUHeight);
        var beyond = checks.Any(check => all[check].IsBeyondDoubt) || plan.Size > Often * Math.Sqrt(common + 2 / weights) || Math.Abs(height) > Often * Math.Sqrt(commonHeight + 1 / ups);
        return new(plan, 1 / Math.Sqrt(weights), planLimit, inPlan, height, 1 / Math.Sqrt(ups), heightLimit, inHeight, beyond, points.Length);
    }
}
