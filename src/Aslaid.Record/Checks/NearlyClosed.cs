namespace Aslaid.Record;

/// <summary>Runs that come round to their own start, with a new shot beside the first one.</summary>
internal sealed class NearlyClosed : ICheck
{
    /// <summary>A run this many times as long as its gap has come round.</summary>
    private const double LengthsOfGap = 4;

    /// <summary>Shorter runs come round to nothing, metres.</summary>
    private const double LeastLength = 1;

    public string Name => "nearly-closed";

    public string Title => "Runs that end beside their own start";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.MemberCount < 4 || run.IsClosed || run.Entry is not { Closes: false } entry) continue; // three shots there and back enclose nothing
            var (start, end) = (run.Members[0], run.Members[^1]);
            if (start == end) continue;
            var (gap, allowed) = (RunEnds.Gap(run), RunEnds.OnePlace(site.Shots, site.Settings, start, end));
            if (gap > allowed || run.PlanLength < LeastLength || run.PlanLength < LengthsOfGap * gap) continue;
            var severity = entry.Kind == CodeKind.Area ? Severity.Stop : Severity.Look;
            found.Add(severity, [start, end], site.Shots.At(end), site.Shots.HeightOf(end), number, measured: gap, allowed: allowed);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} ends {CheckText.Metres(finding.Measured)} beside its first shot {finding.Shot(0)}; within {CheckText.Metres(finding.Allowed)} they may be one place.";

    public string Cure(Finding finding) =>
        $"If it closes, end it on {finding.Shot(0)} instead of {finding.Shot(1)}: nothing is moved, the gap stays on record as its misclosure.";

    public Change? Correction(Finding finding) => new EndTied(finding.Run!.Value.Key, RunEnd.End, finding.Key(0), Instead: true);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
