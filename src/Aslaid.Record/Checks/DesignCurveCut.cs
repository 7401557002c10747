using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Straights of a run across a part of a designed curve.</summary>
internal sealed class DesignCurveCut : ICheck
{
    public string Name => "design-curve-cut";

    public string Title => "A chord across a curve of the design";

    public string Unit => "m";

    public ImmutableArray<string> Explains => DesignCuts.Consequences;

    public void Look(Site site, Findings found) => DesignCuts.Look(site, onCurve: true, found);

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} cuts across the curve of {finding.Word} of the design (radius {CheckText.Metres(finding.Figure(0))}) from {finding.Shot(0)} to {finding.Shot(1)}: a chord of {CheckText.Metres(finding.Figure(2))} leaves it by {CheckText.Metres(finding.Measured)} at station {CheckText.Number(finding.Figure(1), "0.00")} m, limit {CheckText.Metres(finding.Allowed)}.";

    public string Cure(Finding finding) => $"Shoot the middle of the curve between {finding.Shot(0)} and {finding.Shot(1)} as a through-shot.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
