namespace Aslaid.Record;

/// <summary>Closed areas within another area, of which nobody said whether they are its holes.</summary>
internal sealed class HoleOffered : ICheck
{
    public string Name => "hole-offered";

    public string Title => "Areas within an area";

    public string Unit => "m2";

    public void Look(Site site, Findings found)
    {
        if (site.AreaRuns.Length < 2) return;
        var near = new List<int>();
        foreach (var number in site.AreaRuns)
        {
            var run = site.Runs[number];
            if (!run.Counts || HoleTable.Around(site, run, near) is not (>= 0 and var area) || site.Holes.IsDecided(number, area)) continue;
            // A tree pit in an island is an offer; a ring of the same code would count twice in one quantity.
            found.Add(run.Code == site.Runs[area].Code ? Severity.Look : Severity.Note, run.Members, site.Shots.At(run.Members[0]), site.Shots.HeightOf(run.Members[0]), number, measured: run.Area, word: site.Runs[area].Key);
        }
    }

    public string Message(Finding finding) => $"{finding.RunLabel()}, {CheckText.Number(finding.Measured, "0.00")} m2, lies within {finding.Word}: while nobody says that it is a hole, its area counts in both.";

    public string Cure(Finding finding) => "Say that it is a hole, or that it is none.";

    public Change? Correction(Finding finding) => new HoleDecided(finding.Run!.Value.Key, finding.Word!, IsHole: true);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
