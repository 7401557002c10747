using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots marked as an arc that carry none: two in one place, none after the last through-shot, or a fit that did not settle.</summary>
internal sealed class ArcNotMade : ICheck
{
    public string Name => "arc-not-made";

    public string Title => "Arcs that cannot be made";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["run-not-closed", "two-shots-one-place"];

    public void Look(Site site, Findings found) => ArcDoubts.Look(site, found, kind => kind != ArcDoubtKind.NotProven, Severity.Stop);

    public string Message(Finding finding) => Kind(finding) switch
    {
        ArcDoubtKind.Coincident => $"No arc through {CheckText.Shots(finding)}: two of them are one place.",
        ArcDoubtKind.Unfinished => $"No arc through {CheckText.Shots(finding)}: no shot follows the through-shot.",
        _ => $"No arc through {CheckText.Shots(finding)}: the best fit does not settle.",
    };

    public string Cure(Finding finding) => Kind(finding) switch
    {
        ArcDoubtKind.Coincident => "Leave one of the two out, or shoot another through-shot; a full circle needs two.",
        ArcDoubtKind.Unfinished => "Shoot the end of the bend; or make the last leg straight if that is how it was built.",
        _ => "Look for a shot that is not on the bend; or make it straight.",
    };

    public Change? Correction(Finding finding) => Kind(finding) == ArcDoubtKind.Coincident ? null : ArcDoubts.Straightened(finding);

    public Reshoot ReshootFor(Finding finding) => Kind(finding) == ArcDoubtKind.NotConverged ? Reshoot.None : Reshoot.Open;

    private static ArcDoubtKind Kind(Finding finding) => (ArcDoubtKind)(int)finding.Figure(0);
}
