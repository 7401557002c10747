namespace Aslaid.Record;

/// <summary>What findings about one attribute of one code have in common: the runs by number, then the points by row.</summary>
internal static class AttributeFinding
{
    private const int Named = 6;

    /// <summary>Between code, attribute and value in a finding's word.</summary>
    private const char Separator = '\n';

    /// <summary>Figures: how many runs, how many points, and the numbers of the first few runs.</summary>
    public static void Add(Findings found, Site site, List<int> runs, List<int> points, string code, string attribute, string value = "")
    {
        if (runs.Count + points.Count == 0) return;
        int[] rows = [.. runs.Select(run => site.Runs[run].Members[0]), .. points];
        found.Add(Severity.Look, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), runs.Count == 1 && points.Count == 0 ? runs[0] : -1,
            word: code + Separator + attribute + Separator + value, figures: [runs.Count, points.Count, .. runs.Take(Named).Select(run => (double)run)]);
    }

    public static string Code(Finding finding) => finding.Word!.Split(Separator)[0];

    public static string Attribute(Finding finding) => finding.Word!.Split(Separator)[1];

    public static string Value(Finding finding) => finding.Word!.Split(Separator)[2];

    /// <summary>As <c>2 runs (WM-1, WM-2) and 3 shots (11, 12, 13)</c>.</summary>
    public static string Where(Finding finding)
    {
        var (runs, points) = ((int)finding.Figure(0), (int)finding.Figure(1));
        var text = new List<string>();
        if (runs > 0)
        {
            var labels = new List<string>();
            foreach (var run in finding.Figures[2..]) labels.Add(finding.Table.RunTable[(int)run].Label);
            text.Add($"{CheckText.Count(runs, "run")} ({string.Join(", ", labels)}{(runs > labels.Count ? $" and {CheckText.Number(runs - labels.Count, "0")} more" : "")})");
        }

        if (points > 0)
        {
            var ids = new List<string>();
            for (var i = runs; i < Math.Min(finding.Shots.Length, runs + Named); i++) ids.Add(finding.Shot(i));
            text.Add($"{CheckText.Count(points, "shot")} ({string.Join(", ", ids)}{(points > ids.Count ? $" and {CheckText.Number(points - ids.Count, "0")} more" : "")})");
        }

        return string.Join(" and ", text);
    }
}
