namespace Aslaid.Record;

/// <summary>Shots marked as an arc that stand off a straight by no more than their uncertainty explains.</summary>
internal sealed class ArcNotProven : ICheck
{
    public string Name => "arc-not-proven";

    public string Title => "Arcs that their shots do not prove";

    public string Unit => "m";

    public void Look(Site site, Findings found) => ArcDoubts.Look(site, found, kind => kind == ArcDoubtKind.NotProven, Severity.Look);

    public string Message(Finding finding) =>
        $"Arc {CheckText.Shots(finding)} is not proven: {CheckText.Metres(finding.Measured)} off its chord, limit {CheckText.Metres(finding.Allowed)} (3u). It runs straight through its shots.";

    public string Cure(Finding finding) => "Make it straight if it is; else shoot the middle of the bend with better accuracy.";

    public Change? Correction(Finding finding) => ArcDoubts.Straightened(finding);

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
