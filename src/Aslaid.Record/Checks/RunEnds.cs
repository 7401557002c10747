namespace Aslaid.Record;

/// <summary>How near the two ends of a run come to each other, and when that is near enough to be one place.</summary>
internal static class RunEnds
{
    /// <summary>Ends farther apart than this are never taken for one place, metres (DEFAULT).</summary>
    private const double OnePlaceMost = 0.05;

    /// <summary>Ends this many standard uncertainties apart may still be one place.</summary>
    private const double Often = 3;

    /// <summary>Metres between first and last member.</summary>
    public static double Gap(Run run) => run.Table.Shots.At(run.Members[0]).DistanceTo(run.Table.Shots.At(run.Members[^1]));

    /// <summary>Within min(50 mm, 3u) or the same-place distance; u is the radial standard uncertainty of the step from shot to shot.</summary>
    public static double OnePlace(CurrentShots shots, Settings settings, int a, int b)
    {
        var u = Math.Sqrt(2) * double.Hypot(Sigma(shots, settings, a), Sigma(shots, settings, b));
        return Math.Max(settings.SamePlace, Math.Min(OnePlaceMost, Often * u));
    }

    /// <summary>Per axis, metres; where none is stated, the one by which arcs are told from straights.</summary>
    public static double Sigma(CurrentShots shots, Settings settings, int row) =>
        double.IsNaN(shots.SigmaPlan[row]) ? settings.ArcProofUPlan : shots.SigmaPlan[row];
}
