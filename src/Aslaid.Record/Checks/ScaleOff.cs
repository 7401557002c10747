using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Sessions whose distances are too long or too short on the site grid.</summary>
internal sealed class ScaleOff : ICheck
{
    /// <summary>Fewest points that leave anything to prove a scale or a turn by.</summary>
    public const int EnoughPoints = 3;

    public string Name => "scale-off";

    public string Title => "Sessions in another scale than the site grid";

    public string Unit => "ppm";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => ["control-missed", "session-shifted", "control-drift", "accuracy-optimistic", "accuracy-over-limit", "method-unfit", "measured-twice", "off-design", "design-bend-missed", "design-curve-cut"];

    /// <summary>Rounding explains an effect no larger than itself.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) => CoordinatesRounded.Allows(leader, finding.Figure(5));

    public void Look(Site site, Findings found)
    {
        foreach (var similarity in site.Similarities.All)
            if (similarity.IsScaled) Add(site, found, similarity, 1e6 * similarity.Fit.A, 1e6 * similarity.U);
    }

    /// <summary>Figures: the part in its unit, its standard uncertainty, points, reach, limit of the effect.</summary>
    internal static void Add(Site site, Findings found, SessionSimilarity similarity, double part, double u)
    {
        var rows = similarity.Checks.Select(check => site.CheckShots[check].Row).ToArray();
        found.Add(similarity.IsProven ? Severity.Stop : Severity.Look, rows, similarity.Fit.Middle,
            measured: Math.Abs(part), allowed: Math.Max(similarity.Sigmas * u, similarity.Limit / similarity.Reach * Math.Abs(u / similarity.U)),
            figures: [part, u, similarity.Points, similarity.Reach, similarity.Limit, Math.Abs(part / u) * similarity.U * similarity.Reach]);
    }

    /// <summary>What both checks say after their number.</summary>
    internal static string Rest(Finding finding) =>
        $": {CheckText.Metres(finding.Figure(5))} at the farthest shot, {CheckText.Number(finding.Figure(3), "0")} m from the control met, limit {CheckText.Metres(finding.Figure(4))}."
        + (finding.Figure(2) >= EnoughPoints ? "" : finding.Severity == Severity.Look ? " Two points only: one of them may have moved instead." : " Two points only, and both are missed.");

    public string Message(Finding finding) =>
        $"Check shots of the session of {finding.Session()} on {CheckText.Count(finding.Figure(2), "point")} fit the control with distances {CheckText.Number(Math.Abs(finding.Figure(0)), "0")} ppm too {(finding.Figure(0) > 0 ? "long" : "short")}"
        + $" (± {CheckText.Number(Normal.Within95 * finding.Figure(1), "0")} ppm at 95 %)" + Rest(finding);

    public string Cure(Finding finding) => finding.Severity == Severity.Look
        ? "Check shoot a third point; until then neither the scale nor the points are proven."
        : "Find out whether ground distances were taken for grid distances; compute the session again with the declared scale factor, and check it on control.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Look ? Reshoot.Any : Reshoot.Open;
}
