using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Sessions whose heights are those of another datum: ellipsoidal for levelled ones, or another geoid.</summary>
internal sealed class HeightDatumOff : ICheck
{
    /// <summary>A common misfit in height above which another datum is likelier than a set-up or a pole, metres (DEFAULT).</summary>
    private const double Large = 1;

    /// <summary>Share of the common misfit by which points may differ: geoids slope (DEFAULT).</summary>
    private const double Alike = 0.1;

    /// <summary>Points lie in a line where the square of their breadth is less than this share of all.</summary>
    private const double InLine = 0.01;

    /// <summary>How often its standard uncertainty a slope must be to be there.</summary>
    private const double Often = 3;

    public string Name => "height-datum-off";

    public string Title => "Sessions in another height datum";

    public string Unit => "m";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => ["control-missed", "session-shifted", "control-drift", "accuracy-optimistic", "accuracy-over-limit", "measured-twice", "method-unfit", "off-design", "cover-too-small", "too-close", "reference-unclear", "pole-height-by-design"];

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        foreach (var checks in site.SessionChecks.All)
        {
            if (!checks.Any(check => site.CheckShots[check].Height is { } height && Math.Abs(height) >= Large)) continue;
            var points = Array.FindAll(site.SessionChecks.PointsAsStated(checks), point => !double.IsNaN(point.Height));
            if (points.Length < 2 || !SessionShift.Of(site, checks).PlanFits) continue;
            var mean = points.Average(point => point.Height);
            if (Math.Abs(mean) < Large || Array.Exists(points, point => Math.Abs(point.Height - mean) > Alike * Math.Abs(mean))) continue;
            var (slope, u) = Slope(points);
            var rows = checks.Select(check => site.CheckShots[check].Row).ToArray();
            found.Add(Severity.Stop, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), measured: Math.Abs(mean), allowed: Large,
                figures: [mean, points.Max(point => Math.Abs(point.Height - mean)), points.Length, slope, u]);
        }
    }

    /// <summary>Steepest slope of the plane through the misfits, m/m, and its standard uncertainty; NaN for fewer than three points or points in line.</summary>
    private static (double Slope, double U) Slope(PointMisfit[] points)
    {
        if (points.Length < 3) return (double.NaN, double.NaN);
        var weights = Array.ConvertAll(points, point => double.IsNaN(point.HeightVariance) ? 1 : 1 / point.HeightVariance);
        var sum = weights.Sum();
        var (middle, mean) = (default(Step), 0.0);
        for (var i = 0; i < points.Length; i++)
            (middle, mean) = (middle + weights[i] / sum * (points[i].At - points[0].At), mean + weights[i] / sum * points[i].Height);
        var (ee, en, nn, eh, nh) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < points.Length; i++)
        {
            var (arm, height, w) = (points[i].At - points[0].At - middle, points[i].Height - mean, weights[i]);
            (ee, en, nn) = (ee + w * arm.East * arm.East, en + w * arm.East * arm.North, nn + w * arm.North * arm.North);
            (eh, nh) = (eh + w * arm.East * height, nh + w * arm.North * height);
        }

        var determinant = ee * nn - en * en;
        if (!(determinant > InLine * (ee + nn) * (ee + nn) / 4)) return (double.NaN, double.NaN);
        var (east, north) = ((nn * eh - en * nh) / determinant, (ee * nh - en * eh) / determinant);
        var slope = double.Hypot(east, north);
        var known = !Array.Exists(points, point => double.IsNaN(point.HeightVariance));
        var u = Math.Sqrt((nn * east * east - 2 * en * east * north + ee * north * north) / determinant) / slope;
        return (slope, slope == 0 || !known ? double.NaN : u);
    }

    public string Message(Finding finding)
    {
        var text = $"Heights of all {CheckText.Count(finding.Shots.Length, "check shot")} of the session of {finding.Session()} miss by {CheckText.Signed(finding.Figure(0))} m, alike within {CheckText.Metres(finding.Figure(1))}"
            + $" on {CheckText.Count(finding.Figure(2), "point")}, and plan fits; from {CheckText.Metres(finding.Allowed)} on that is another height datum.";
        var (slope, u) = (finding.Figure(3), finding.Figure(4));
        if (!(slope > Often * u)) return text;
        return text + $" The misfit slopes by {CheckText.Number(1e6 * slope, "0")} mm/km (± {CheckText.Number(1e6 * Normal.Within95 * u, "0")} at 95 %), as a geoid does.";
    }

    public string Cure(Finding finding) => "Find out which heights the instrument was set to (above the ellipsoid, or another geoid); export the session with the declared geoid and check it on control.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
