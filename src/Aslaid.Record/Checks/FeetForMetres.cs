using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Batches whose coordinates or heights are in another unit than metres, or in the other of the two feet.</summary>
internal sealed class FeetForMetres : ICheck
{
    /// <summary>A factor this near to 1 is that between the two feet.</summary>
    private const double TwoFeet = 1e-5;

    public string Name => "feet-for-metres";

    public string Title => "Feet taken for metres";

    public string Unit => "m";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => BatchFinding.Consequences;

    public void Look(Site site, Findings found) => BatchFinding.Look(site, found, BatchFault.Unit);

    public string Message(Finding finding)
    {
        var factor = finding.Figure(1);
        var what = Math.Abs(factor - 1) < TwoFeet
            ? (factor > 1 ? "International feet were used where US survey feet are meant" : "US survey feet were used where international feet are meant")
                + " (2 parts in a million)"
            : factor < 1 ? "Feet are given as metres" : "Metres were turned to metres once more, as if they were feet";
        return $"{what} in {(finding.Figure(3) > 0 ? "the heights of " : "")}{BatchFinding.Named(finding)}: as given it lies {BatchFinding.Far(finding.Measured)} off, "
            + $"times {CheckText.Number(factor, "0.0######")}{(finding.Figure(2) > 0 ? " and with east and north exchanged" : "")} {BatchFinding.Residual(finding)}.";
    }

    public string Cure(Finding finding) => "Withdraw the batch, and take the file again in metres, turned by the right foot.";

    public Change? Correction(Finding finding) => BatchFinding.Correction(finding);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
