namespace Aslaid.Record;

/// <summary>Runs of one shot: something was begun and not gone on with.</summary>
internal sealed class SingleShotRun : ICheck
{
    public string Name => "single-shot-run";

    public string Title => "Runs of a single shot";

    public string Unit => "";

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Members.ContainsAnyExcept(run.Members[0]) || run.Entry is null) continue; // an unknown code is the mistake that leads
            var shot = run.Members[0];
            found.Add(Severity.Stop, [shot], site.Shots.At(shot), site.Shots.HeightOf(shot), number);
        }
    }

    public string Message(Finding finding) => $"{finding.RunLabel()} ({finding.Run?.Code}) has only shot {finding.Shot(0)}.";

    public string Cure(Finding finding) => "Shoot the rest of it; or give the shot the label of the run it belongs to, or set it aside.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
