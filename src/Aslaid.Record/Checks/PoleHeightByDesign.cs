using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots taken one after the other whose heights are off the design by the same, while others of the session are right: as a wrong pole height does.</summary>
internal sealed class PoleHeightByDesign : ICheck
{
    /// <summary>Poles are set to whole centimetres (common practice).</summary>
    private const double PoleStep = 0.01;

    public string Name => "pole-height-by-design";

    public string Title => "A block of shots too high or too low against the design";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["off-design", "cover-too-small", "level-jump", "fall-wrong", "reference-unclear"];

    public void Look(Site site, Findings found)
    {
        if (site.Design.IsEmpty) return;
        var heights = new DesignHeights(site);
        foreach (var block in heights.Blocks())
        {
            if (heights.IsOneRun(block)) continue; // a run laid so, or another level of it shot: other checks ask
            var tightest = block.Rows.Min(row => site.Shots.Entry(row) is { } entry ? Math.Min(Limits.OfHeight(entry).Upper ?? double.PositiveInfinity, -Limits.OfHeight(entry).Lower ?? double.PositiveInfinity) : double.PositiveInfinity);
            found.Add(Math.Abs(block.Mean) > tightest ? Severity.Stop : Severity.Look, block.Rows, site.Shots.At(block.Rows[0]), site.Shots.HeightOf(block.Rows[0]),
                measured: block.Mean, allowed: double.IsFinite(tightest) ? tightest : null, figures: [block.U, block.Others, block.Rows.All(row => site.Shots.Raw.Number("pole", row) is not null && site.Shots.Raw.Number("pole", row) == site.Shots.Raw.Number("pole", block.Rows[0])) ? 1 : 0]);
        }
    }

    public string Message(Finding finding) =>
        $"{CheckText.Count(finding.Shots.Length, "shot")} one after the other ({CheckText.Shots(finding)}) lie {CheckText.Metres(Math.Abs(finding.Measured ?? 0))} {(finding.Measured > 0 ? "above" : "below")} the design, each alike, while {CheckText.Number(finding.Figure(1), "0")} others of the session are right: was the pole height another?";

    public string Cure(Finding finding) => Correction(finding) is PoleHeightCorrected pole
        ? $"Prove it on control or on one of the shots again; then correct the pole height from {CheckText.Metres(pole.Entered)} to {CheckText.Metres(pole.True)}."
        : "Measure the pole, shoot one of them again; if they are right, it was built so: accept it with its reason.";

    public Change? Correction(Finding finding)
    {
        if (finding.Figure(2) != 1 || finding.Raw().Number("pole", finding.Shots[0]) is not { } entered) return null;
        var changed = Math.Round((entered + finding.Measured!.Value) / PoleStep) * PoleStep;
        return changed > 0 ? new PoleHeightCorrected(finding.Keys(), entered, changed) : null;
    }

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
