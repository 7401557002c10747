namespace Aslaid.Record;

/// <summary>Three-shot arcs whose through-shot stands near one end, where it says little about the bend.</summary>
internal sealed class ArcShotNearEnd : ICheck
{
    public string Name => "arc-shot-near-end";

    public string Title => "Through-shots near the end of their arc";

    public string Unit => "1";

    public void Look(Site site, Findings found)
    {
        foreach (var piece in ArcPosition.Arcs(site.Runs))
        {
            var run = piece.Run;
            if (!ArcPosition.IsNearEnd(piece)) continue;
            var (share, u) = (ArcPosition.Share(piece), ArcPosition.UMiddle(piece));
            var shot = run.Members[piece.First + 1];
            found.Add(ArcPosition.MissesItsPlace(u, run.Entry) ? Severity.Stop : Severity.Look,
                [shot, run.Members[piece.First], run.Members[piece.Last]], piece.Arc.MidPoint, site.Shots.HeightOf(shot), run.Number,
                run.Chainages[piece.First], run.Chainages[piece.Last], share, share < 0.5 ? ArcPosition.LeastShare : ArcPosition.MostShare,
                figures: [ArcPosition.Normal95 * u ?? double.NaN, run.Entry?.Plan95Max ?? double.NaN]);
        }
    }

    public string Message(Finding finding)
    {
        var text = $"Through-shot {finding.Shot(0)} stands at {CheckText.Number(finding.Measured, "0.00")} of its arc {finding.Shot(1)} to {finding.Shot(2)}, limit {CheckText.Number(finding.Allowed, "0.00")}";
        if (!double.IsNaN(finding.Figure(0))) text += $"; the arc's middle is good to {CheckText.Metres(finding.Figure(0))} at 95 %";
        return text + (finding.Severity == Severity.Stop ? $", limit {CheckText.Metres(finding.Figure(1))}." : ".");
    }

    public string Cure(Finding finding) => "Shoot another through-shot in the middle of the bend.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
