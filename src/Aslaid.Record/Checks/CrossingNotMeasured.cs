namespace Aslaid.Record;

/// <summary>Crossings of an existing thing that only the design knows: nobody measured it there.</summary>
internal sealed class CrossingNotMeasured : ICheck
{
    public string Name => "crossing-not-measured";

    public string Title => "An existing thing crossed and not measured";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        if (!site.Design.Lines.Any(line => line.IsExisting && line.Place >= 0)) return;
        var (near, lines) = (new List<int>(), new SortedSet<int>());
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry?.Service is null || run.PieceCount == 0 || run.Facts.Status != RunStatus.New) continue;
            lines.Clear();
            site.Design.Pieces.Query(run.Box, near, lines);
            foreach (var line in lines.Select(of => site.Design.Lines[of]))
            {
                if (!line.IsExisting || line.Place == site.Runs.CodePlaces[number]) continue;
                foreach (var meeting in run.Path.Intersections(line.Path, 1e-6))
                {
                    if (site.Coverage.Of(line)!.Measured.Any(range => meeting.There >= range.From && meeting.There <= range.To)) continue;
                    var (member, designed) = (run.MemberAt(meeting.Here), line.HeightAt(meeting.There)?.Height);
                    var built = run.Path.HeightAt(meeting.Here);
                    found.Add(Severity.Look, [run.Members[member]], meeting.At, built, number, meeting.Here, meeting.Here, built - designed, null, line.Name, [line.StationAt(meeting.There), designed ?? double.NaN]);
                }
            }
        }
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} crosses {finding.Word} {CheckText.Along(finding)} (there station {CheckText.Number(finding.Figure(0), "0.0")} m), known from the design only{(finding.Measured is { } apart ? $", which has it {CheckText.Metres(Math.Abs(apart))} {(apart > 0 ? "lower" : "higher")}" : ", without a height")}: not measured.";

    public string Cure(Finding finding) => $"Expose {finding.Word} by safe means where it is crossed and shoot its top.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
