using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Runs whose heights are steadily off the design by what lies between two levels of the thing: another level was shot than the code says.</summary>
internal sealed class ReferenceUnclear : ICheck
{
    private static readonly string[] Levels = ["top", "soffit", "centre", "invert", "underside"];

    /// <summary>Fewer shots are not steady (DEFAULT).</summary>
    private const int Least = 3;

    public string Name => "reference-unclear";

    public string Title => "Another level of the thing shot than its code says";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["off-design", "cover-too-small", "too-close", "fall-wrong"];

    public void Look(Site site, Findings found)
    {
        if (site.Design.Lines.IsEmpty) return;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { MeasuredAt: { } usual } entry || Below(usual, entry) is not { } own) continue;
            var (rows, heights, u) = (new List<int>(), new List<double>(), 0.0);
            for (var member = 0; member < run.MemberCount; member++)
            {
                if (site.Match.Of(run, member) is not { Height: { } height } || site.Shots.CodeColumn[run.Members[member]] != run.Table.CodeWords[number]) continue;
                rows.Add(run.Members[member]);
                heights.Add(height);
                u = Math.Max(u, site.Shots.LevelSigma(run.Members[member]));
            }

            if (heights.Count < Least || double.IsNaN(u)) continue;
            var spread = Misfits.Of(heights.ToArray());
            if (spread.Sd > Math.Max(2 * u, 0.01) || Math.Abs(spread.Mean) < Math.Max(2.5 * u, 0.02)) continue;
            var (best, off) = ((string?)null, double.PositiveInfinity);
            foreach (var level in Levels)
                if (level != usual && Below(level, entry) is { } other && Math.Abs(spread.Mean - (own - other)) < off) (best, off) = (level, Math.Abs(spread.Mean - (own - other)));
            if (best is null || off > Math.Max(2 * u, 0.01) || off > Math.Abs(spread.Mean) / 3) continue;
            var beyond = !Limits.OfHeight(entry).Hold(spread.Mean);
            found.Add(beyond ? Severity.Stop : Severity.Look, rows.ToArray(), site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), number, 0, run.PlanLength, spread.Mean, own - Below(best, entry), best, [spread.Sd ?? 0, u]);
        }
    }

    /// <summary>Metres from the top down to a level; null where a size is not known.</summary>
    private static double? Below(string level, CodeEntry entry) => level switch
    {
        "top" => 0,
        "soffit" => entry.Wall,
        "centre" => (entry.OutsideDiameter ?? entry.Depth) / 2,
        "invert" => (entry.OutsideDiameter ?? entry.Depth) - entry.Wall,
        "underside" => entry.OutsideDiameter ?? entry.Depth,
        _ => null,
    };

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} lies steadily {CheckText.Metres(Math.Abs(finding.Measured ?? 0))} {(finding.Measured > 0 ? "above" : "below")} the design ({CheckText.Count(finding.Shots.Length, "shot")}, spread {CheckText.Metres(finding.Figure(0))}): as if its {finding.Word} had been shot ({CheckText.Metres(Math.Abs(finding.Allowed ?? 0))}) and not its {finding.Run?.Entry?.MeasuredAt}.";

    public string Cure(Finding finding) => $"Look at it while it is open: which level was shot? If its {finding.Word}, set measured_at of the run to {finding.Word}.";

    public Change? Correction(Finding finding) => finding.Run is { } run ? new AttributeSet(run.Key, "measured_at", finding.Word!) : null;

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
