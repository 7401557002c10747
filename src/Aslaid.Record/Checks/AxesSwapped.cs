using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Batches whose east and north were exchanged.</summary>
internal sealed class AxesSwapped : ICheck
{
    public string Name => "axes-swapped";

    public string Title => "East and north exchanged";

    public string Unit => "m";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => BatchFinding.Consequences;

    public void Look(Site site, Findings found) => BatchFinding.Look(site, found, BatchFault.AxesSwapped);

    public string Message(Finding finding) =>
        $"East and north of {BatchFinding.Named(finding)} are exchanged: as given it lies {BatchFinding.Far(finding.Measured)} off, "
        + $"exchanged {BatchFinding.Residual(finding)}.";

    public string Cure(Finding finding) => "Withdraw the batch, and take the file again with its columns named right.";

    public Change? Correction(Finding finding) => BatchFinding.Correction(finding);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
