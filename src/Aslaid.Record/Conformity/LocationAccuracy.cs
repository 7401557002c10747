namespace Aslaid.Record;

/// <summary>
/// How well the record says where a shot lies: its own part and what its session has in common, metres. Judged against
/// <c>plan_95_max_m</c> and <c>height_95_max_m</c>; no construction tolerance enters.
/// </summary>
internal static class LocationAccuracy
{
    /// <summary>Standard uncertainty per axis in plan; NaN where no accuracy is given.</summary>
    public static double SigmaPlan(Site site, int row) => site.Shots.PlaceSigma(row);

    /// <summary>Standard uncertainty of height; NaN where no accuracy or no height is given.</summary>
    public static double SigmaHeight(Site site, int row) =>
        double.IsNaN(site.Shots.Heights[row]) ? double.NaN : site.Shots.LevelSigma(row);

    /// <summary>95 % in plan, of a circle; NaN where no accuracy is given.</summary>
    public static double Plan95(Site site, int row) => Normal.Circle95 * SigmaPlan(site, row);

    /// <summary>95 % in plan were the accuracy that the instrument states proven by check shots.</summary>
    public static double StatedPlan95(Site site, int row) => Normal.Circle95 * site.Shots.OwnPlaceSigma(row, assumed: true);

    /// <summary>95 % of height were the accuracy that the instrument states proven by check shots.</summary>
    public static double StatedHeight95(Site site, int row) => Normal.Within95 * site.Shots.OwnLevelSigma(row, assumed: true);

    /// <summary>95 % of height; NaN where no accuracy or no height is given.</summary>
    public static double Height95(Site site, int row) => Normal.Within95 * SigmaHeight(site, row);
}
