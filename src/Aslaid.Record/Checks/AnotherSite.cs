using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Batches far from all control and from every other batch, for which no other reason is found.</summary>
internal sealed class AnotherSite : ICheck
{
    public string Name => "another-site";

    public string Title => "A file of another site or another grid";

    public string Unit => "m";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => BatchFinding.Consequences;

    public void Look(Site site, Findings found) => BatchFinding.Look(site, found, BatchFault.AnotherSite);

    public string Message(Finding finding) =>
        $"B{BatchFinding.Named(finding)[1..]} lies {BatchFinding.Far(finding.Measured)} from the nearest control point and other batch, "
        + $"limit {BatchFinding.Far(finding.Allowed)}: it is of another site, or in another grid.";

    public string Cure(Finding finding) => "Withdraw the batch; if it is of this site, take the file again in the site's grid.";

    public Change? Correction(Finding finding) => BatchFinding.Correction(finding);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
