using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>
/// Positional accuracy as check measurements show it, by the factors of the National Standard for Spatial Data Accuracy
/// (FGDC-STD-007.3-1998, 3.2), which assume normal differences without blunders. Metres.
/// </summary>
/// <param name="East">Differences in east, measured minus known.</param>
/// <param name="North">Differences in north.</param>
/// <param name="Height">Differences in height; null where there are none.</param>
/// <param name="Products">Mean product of the differences in east and north, square metres.</param>
public sealed record PositionalAccuracy(Misfits East, Misfits North, Misfits? Height, double Products)
{
    /// <summary>Points that the standard asks for at least; with fewer, its figures are an indication.</summary>
    public const int PointsAsked = 20;

    /// <summary>Below this ratio of the smaller to the larger RMSE the standard gives no figure in plan.</summary>
    private const double LeastRatio = 0.6;

    /// <summary>Radial root mean square error in plan.</summary>
    public double RmsePlan => double.Hypot(East.Rmse, North.Rmse);

    /// <summary>Root mean square error in height.</summary>
    public double? RmseHeight => Height?.Rmse;

    /// <summary>95 % in plan: 1.7308 RMSE radial where both axes agree, 2.4477 times their mean down to a ratio of 0.6, else null.</summary>
    public double? Plan95 => PlanOf(East.Rmse, North.Rmse);

    /// <summary>95 % of height: 1.9600 RMSE.</summary>
    public double? Height95 => HeightOf(RmseHeight);

    /// <summary>95 % in plan by the error ellipse of the differences: also where the axes differ much or are correlated.</summary>
    public double Circle95
    {
        get
        {
            var product = East.Rmse * North.Rmse;
            return new ErrorEllipse(East.Rmse, North.Rmse, product > 0 ? Math.Clamp(Products / product, -1, 1) : 0).Circle95;
        }
    }

    /// <summary>95 % in plan from the root mean square errors of both axes, metres.</summary>
    public static double? PlanOf(double rmseEast, double rmseNorth) =>
        Math.Min(rmseEast, rmseNorth) >= LeastRatio * Math.Max(rmseEast, rmseNorth) ? Normal.Circle95 * (rmseEast + rmseNorth) / 2 : null;

    /// <summary>95 % of height from its root mean square error, metres.</summary>
    public static double? HeightOf(double? rmse) => Normal.Within95 * rmse;

    /// <summary>What the check shots of each session show, in order of sessions; a session without check shots is left out.</summary>
    public static ImmutableArray<(int Session, PositionalAccuracy Accuracy)> OfCheckShots(Site site) =>
    [
        .. from check in site.CheckShots
           group check by site.Shots.Session[check.Row] into session
           orderby session.Key
           select (session.Key, Of([.. session])),
    ];

    private static PositionalAccuracy Of(ImmutableArray<CheckShot> checks)
    {
        double[] heights = [.. checks.Select(check => check.Height).OfType<double>()];
        return new(
            Misfits.Of([.. checks.Select(check => check.East)]), Misfits.Of([.. checks.Select(check => check.North)]),
            heights.Length > 0 ? Misfits.Of(heights) : null, checks.Average(check => check.East * check.North));
    }
}
