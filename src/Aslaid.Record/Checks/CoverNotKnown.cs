namespace Aslaid.Record;

/// <summary>Buried runs of which the cover is not known: no surface reaches there, or nothing tells their top. One finding a code.</summary>
internal sealed class CoverNotKnown : ICheck
{
    public string Name => "cover-not-known";

    public string Title => "Cover not known";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        if (site.Design.Surfaces.IsEmpty) return;
        var covers = new CoverAlong(site);
        foreach (var code in Enumerable.Range(0, site.Runs.Count).Where(number => site.Runs[number] is { Entry.CoverMin: not null, PieceCount: > 0 }).GroupBy(number => site.Runs[number].Code))
        {
            var (length, whole, rows, noTop) = (0.0, 0.0, new List<int>(), 0.0);
            foreach (var number in code)
            {
                var (run, before) = (site.Runs[number], length);
                var points = covers.Of(run);
                for (var i = 1; i < points.Length; i++)
                {
                    if (points[i - 1].Cover is not null && points[i].Cover is not null) continue;
                    length += points[i].Chainage - points[i - 1].Chainage;
                    if (points[i].Top is null || points[i - 1].Top is null) noTop += points[i].Chainage - points[i - 1].Chainage;
                }

                whole += run.PlanLength;
                if (length > before) rows.Add(run.Members[0]);
            }

            if (rows.Count > 0) found.Add(Severity.Look, rows.ToArray(), site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), measured: length, word: code.Key, figures: [whole, noTop]);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.Word}: the cover of {CheckText.Number(finding.Measured, "0.0")} m of {CheckText.Number(finding.Figure(0), "0.0")} m is not known ({(finding.Figure(1) > 0 ? $"of {CheckText.Number(finding.Figure(1), "0.0")} m nothing tells the top; " : "")}elsewhere no surface reaches there).";

    public string Cure(Finding finding) => "Adopt a surface that reaches there, say where the thing was measured and how large it is, or shoot the finished surface after.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
