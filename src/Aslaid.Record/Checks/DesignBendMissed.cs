using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Bends and short curves of the design that lie wholly between two shots: the run goes straight by.</summary>
internal sealed class DesignBendMissed : ICheck
{
    public string Name => "design-bend-missed";

    public string Title => "A bend of the design that no shot follows";

    public string Unit => "m";

    public ImmutableArray<string> Explains => DesignCuts.Consequences;

    public void Look(Site site, Findings found) => DesignCuts.Look(site, onCurve: false, found);

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} goes straight from {finding.Shot(0)} to {finding.Shot(1)} where {finding.Word} of the design bends{(double.IsNaN(finding.Figure(0)) ? "" : $" at radius {CheckText.Metres(finding.Figure(0))}")}: it passes {CheckText.Metres(finding.Measured)} from it at station {CheckText.Number(finding.Figure(1), "0.00")} m, limit {CheckText.Metres(finding.Allowed)}.";

    public string Cure(Finding finding) => $"Shoot the bend between {finding.Shot(0)} and {finding.Shot(1)}: where it begins, its middle as a through-shot, and where it ends.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
