namespace Aslaid.Record;

/// <summary>Arcs that are proven, but whose radius their shots hardly tell.</summary>
internal sealed class RadiusTooUncertain : ICheck
{
    public string Name => "radius-too-uncertain";

    public string Title => "Radius that the shots hardly tell";

    public string Unit => "1";

    public void Look(Site site, Findings found)
    {
        foreach (var piece in ArcPosition.Arcs(site.Runs))
        {
            var run = piece.Run;
            if (piece.URadius is not { } u || u <= site.Settings.RadiusDoubt * piece.Arc.Radius) continue;
            if (ArcPosition.IsNearEnd(piece)) continue; // the through-shot's place is the mistake that leads
            var middle = ArcPosition.UMiddle(piece);
            found.Add(ArcPosition.MissesItsPlace(middle, run.Entry) ? Severity.Stop : Severity.Look,
                run.Members[piece.First..(piece.Last + 1)], piece.Arc.MidPoint, site.Shots.HeightOf(run.Members[piece.First + 1]), run.Number,
                run.Chainages[piece.First], run.Chainages[piece.Last], u / piece.Arc.Radius, site.Settings.RadiusDoubt,
                figures: [piece.Arc.Radius, u, ArcPosition.Normal95 * middle ?? double.NaN, run.Entry?.Plan95Max ?? double.NaN]);
        }
    }

    public string Message(Finding finding)
    {
        var text = $"Radius {CheckText.Radius(finding.Figure(0), finding.Figure(1))} on {finding.RunLabel()} {CheckText.Along(finding)}: "
            + $"u is {CheckText.Number(100 * finding.Measured, "0")} % of it, limit {CheckText.Number(100 * finding.Allowed, "0")} % ({CheckText.Shots(finding)})";
        return text + (finding.Severity == Severity.Stop
            ? $"; the arc's middle is good to {CheckText.Metres(finding.Figure(2))} at 95 %, limit {CheckText.Metres(finding.Figure(3))}."
            : ".");
    }

    public string Cure(Finding finding) => "Shoot another through-shot, or the same ones better.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
