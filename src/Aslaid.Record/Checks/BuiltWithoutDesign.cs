namespace Aslaid.Record;

/// <summary>Things built where the design has nothing of their code. One finding a code.</summary>
internal sealed class BuiltWithoutDesign : ICheck
{
    public string Name => "built-without-design";

    public string Title => "Built without any design";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        if (site.Design.Lines.IsEmpty && site.Design.Points.IsEmpty) return;
        for (var place = 0; place < site.Shots.Book.Entries.Length; place++)
        {
            var entry = site.Shots.Book.Entries[place];
            if (entry is { TolerancePlan: null, ToleranceHeight: null }) continue;
            var runs = site.CodeMembers.RunsOf(place).Where(run => site.Runs[run].Counts && !site.Match.Any(site.Runs[run])).ToArray();
            var points = site.CodeMembers.PointsOf(place).Where(row => site.Match.PointOf(row) is null && site.Design.PointsOf(place).Count > 0).ToArray();
            if (runs.Length == 0 && points.Length == 0) continue;
            int[] rows = [.. runs.Select(run => site.Runs[run].Members[0]), .. points];
            var none = site.Design.LinesOf(place).Count == 0 && site.Design.PointsOf(place).Count == 0;
            found.Add(none ? Severity.Note : Severity.Look, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), measured: runs.Sum(run => site.Runs[run].PlanLength), allowed: null, word: entry.Code, figures: [runs.Length, points.Length, none ? 1 : 0, site.Settings.DesignReach]);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.Word}: {CheckText.Count(finding.Figure(0), "run")} ({CheckText.Number(finding.Measured, "0.0")} m) and {CheckText.Count(finding.Figure(1), "point")} have no design {(finding.Figure(2) == 1 ? "of that code at all" : $"within {CheckText.Number(finding.Figure(3), "0.0")} m")}: {CheckText.Shots(finding)}.";

    public string Cure(Finding finding) => "Adopt the design that they were built to, or say in the design map which of its lines are of this code.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
