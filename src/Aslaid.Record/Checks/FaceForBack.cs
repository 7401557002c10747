using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Runs of an edge that lie steadily beside their design and on that of another edge, or off by their own width: face taken for back.</summary>
internal sealed class FaceForBack : ICheck
{
    private static readonly string[] Edges = ["face", "back", "channel", "lip"];

    /// <summary>Fewer shots are not steady (DEFAULT).</summary>
    private const int Least = 3;

    /// <summary>Beyond this no two edges of one thing lie apart, metres (DEFAULT).</summary>
    private const double Widest = 0.6;

    public string Name => "face-for-back";

    public string Title => "One edge shot for another";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["off-design", "upstand-differs", "design-not-measured"];

    public void Look(Site site, Findings found)
    {
        if (site.Design.Lines.IsEmpty) return;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { MeasuredAt: { } edge, TolerancePlan: { } tolerance } entry || !Edges.Contains(edge)) continue;
            var (rows, offsets, u, others) = (new List<int>(), new List<double>(), 0.0, new Dictionary<int, int>());
            var count = run.IsClosed ? run.MemberCount - 1 : run.MemberCount;
            for (var member = 0; member < count; member++)
            {
                if (site.Match.Of(run, member) is not { } place || Math.Abs(place.Offset) > Widest) continue;
                var row = run.Members[member];
                rows.Add(row);
                offsets.Add(place.Offset);
                u = Math.Max(u, site.Shots.PlaceSigma(row));
                var (line, _, beside) = site.Design.Pieces.Nearest(site.Shots.At(row));
                if (site.Design.Lines[line].Place != site.Runs.CodePlaces[number] && beside.Distance < Math.Abs(place.Offset) / 2) others[site.Design.Lines[line].Place] = others.GetValueOrDefault(site.Design.Lines[line].Place) + 1;
            }

            if (offsets.Count < Least || offsets.Count < 0.8 * count || double.IsNaN(u)) continue;
            var spread = Misfits.Of(offsets.ToArray());
            if (Math.Abs(spread.Mean) <= Math.Max(tolerance, 3 * u) || spread.Sd > Math.Max(2 * u, tolerance / 2)) continue;
            var other = others.Count == 0 ? -1 : others.MaxBy(pair => pair.Value).Key;
            var byDesign = other >= 0 && others[other] >= 0.8 * offsets.Count && site.Shots.Book.Entries[other].MeasuredAt is { } theirs && theirs != edge && Edges.Contains(theirs);
            var byWidth = entry.Width is { } width && Math.Abs(Math.Abs(spread.Mean) - width) <= Math.Max(2 * u, 0.01);
            if (!byDesign && !byWidth) continue;
            found.Add(Severity.Stop, rows.ToArray(), site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), number, 0, run.PlanLength, spread.Mean, tolerance, byDesign ? site.Shots.Book.Entries[other].Code : null, [spread.Sd ?? 0]);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} lies steadily {CheckText.Metres(Math.Abs(finding.Measured ?? 0))} {(finding.Measured > 0 ? "right" : "left")} of its design ({CheckText.Count(finding.Shots.Length, "shot")}, spread {CheckText.Metres(finding.Figure(0))}), {(finding.Word is { } code ? $"on that of {code}" : "by its own width")}: another edge was shot than the {finding.Run?.Entry?.MeasuredAt}.";

    public string Cure(Finding finding) => finding.Word is { } code ? $"If the {code} was shot, recode the run to {code}; else relay it." : "Say which edge was shot: recode the run to the code of that edge.";

    public Change? Correction(Finding finding) => finding.Word is { } code ? new Recoded(finding.Keys(), code, null) : null;

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
