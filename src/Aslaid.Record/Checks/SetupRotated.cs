using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Sessions that are turned against the site grid: the set-up was oriented wrongly.</summary>
internal sealed class SetupRotated : ICheck
{
    private const double ArcSeconds = 180 * 3600 / Math.PI;

    /// <summary>Milligons in an arc second.</summary>
    private const double Milligons = 400_000.0 / 360 / 3600;

    public string Name => "setup-rotated";

    public string Title => "Sessions turned against the site grid";

    public string Unit => "arcsec";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => ["control-missed", "session-shifted", "control-drift", "accuracy-optimistic", "accuracy-over-limit", "method-unfit", "measured-twice", "off-design", "design-bend-missed", "design-curve-cut", "face-for-back", "on-other-design"];

    /// <summary>Rounding explains an effect no larger than itself.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) => CoordinatesRounded.Allows(leader, finding.Figure(5));

    public void Look(Site site, Findings found)
    {
        foreach (var similarity in site.Similarities.All)
            if (similarity.IsTurned) ScaleOff.Add(site, found, similarity, ArcSeconds * similarity.Fit.B, ArcSeconds * similarity.U);
    }

    public string Message(Finding finding)
    {
        var (turn, u) = (Math.Abs(finding.Figure(0)), Normal.Within95 * finding.Figure(1));
        return $"Check shots of the session of {finding.Session()} on {CheckText.Count(finding.Figure(2), "point")} fit the control turned {CheckText.Number(turn, "0")}\" {(finding.Figure(0) > 0 ? "anticlockwise" : "clockwise")}"
            + $" ({CheckText.Number(Milligons * turn, "0.0")} mgon, ± {CheckText.Number(u, "0")}\" at 95 %)" + ScaleOff.Rest(finding);
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Look
        ? "Check shoot a third point; until then neither the orientation nor the points are proven."
        : "Find out which point the set-up was oriented on; compute the session again from its true orientation, and check it on control.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Look ? Reshoot.Any : Reshoot.Open;
}
