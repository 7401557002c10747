using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Things that lie beyond their tolerance off the design, in plan or in height.</summary>
internal sealed class OffDesign : ICheck
{
    public string Name => "off-design";

    public string Title => "Built beyond tolerance off the design";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        if (site.Design.IsEmpty) return;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { } entry || run.Facts.Status is RunStatus.Removed or RunStatus.Superseded) continue;
            for (var member = 0; member < run.MemberCount; member++)
            {
                if (!IsOut(site, run, entry, member)) continue;
                var first = member;
                while (member + 1 < run.MemberCount && IsOut(site, run, entry, member + 1)) member++;
                Add(site, run, first, member, found);
            }
        }

        foreach (var row in site.Points)
            if (Deviations.OfPoint(site, row) is { } deviation && Worst(deviation) is { Within: false } worst)
                found.Add(Grade(worst), [row], site.Shots.At(row), site.Shots.HeightOf(row), measured: worst.Value, allowed: Limit(worst), word: deviation.Design, figures: [IsHeight(deviation, worst), worst.U95 ?? double.NaN, double.NaN, 1]);
    }

    private static bool IsOut(Site site, Run run, CodeEntry entry, int member)
    {
        if (site.Match.Of(run, member) is not { } place) return false;
        return Math.Abs(place.Offset) > entry.TolerancePlan + Limits.Same || place.Height is { } height && !Limits.OfHeight(entry).Hold(height);
    }

    private static void Add(Site site, Run run, int first, int last, Findings found)
    {
        var (worst, at, gravest, name) = (default(Judgement), first, (Severity.Note, double.NegativeInfinity), "");
        var height = 0.0;
        for (var member = first; member <= last; member++)
        {
            if (Deviations.Of(site, run, member) is not { } deviation || Worst(deviation) is not { } judged) continue;
            var here = (Grade(judged), -judged.Limits.Room(judged.Value!.Value));
            if (here.CompareTo(gravest) <= 0) continue;
            (worst, at, gravest, name, height) = (judged, member, here, deviation.Design, IsHeight(deviation, judged));
        }

        if (gravest.Item1 == Severity.Note) return;
        var (shots, named) = (new List<int> { run.Members[at] }, new HashSet<int> { run.Members[at] });
        for (var member = first; member <= last; member++)
            if (named.Add(run.Members[member])) shots.Add(run.Members[member]);
        var (from, to) = RunRange.About(run, first, last);
        found.Add(gravest.Item1, shots.ToArray(), site.Shots.At(run.Members[at]), site.Shots.HeightOf(run.Members[at]), run.Number, from, to, worst.Value, Limit(worst), name,
            [height, worst.U95 ?? double.NaN, site.Match.Of(run, at) is { } place ? place.Line.StationAt(place.Chainage) : double.NaN, shots.Count]);
    }

    /// <summary>The judgement of the two that is farther beyond its limit, that which is beyond doubt first.</summary>
    private static Judgement? Worst(Deviation deviation)
    {
        if (deviation.Plan is not { Within: false } plan) return deviation.Level;
        if (deviation.Level is not { Within: false } level) return plan;
        return (Grade(plan), -plan.Limits.Room(plan.Value!.Value)).CompareTo((Grade(level), -level.Limits.Room(level.Value!.Value))) >= 0 ? plan : level;
    }

    private static Severity Grade(Judgement judged) => judged.Verdict == Verdict.DoesNotConform ? Severity.Stop : Severity.Look;

    private static double Limit(Judgement judged) => (judged.Value < 0 ? judged.Limits.Lower : judged.Limits.Upper) ?? judged.Limits.Lower ?? 0;

    private static double IsHeight(Deviation deviation, Judgement judged) => deviation.Level is { } level && level == judged ? 1 : 0;

    public string Message(Finding finding)
    {
        var (height, doubt) = (finding.Figure(0) == 1, finding.Figure(1));
        var way = height ? finding.Measured > 0 ? "above" : "below" : finding.Run is null ? "from" : finding.Measured > 0 ? "right of" : "left of";
        var where = double.IsNaN(finding.Figure(2)) ? "" : $" at station {CheckText.Number(finding.Figure(2), "0.00")} m";
        return $"{(finding.Run is null ? finding.Shot(0) : $"{finding.RunLabel()} at {finding.Shot(0)}")} lies {CheckText.Metres(Math.Abs(finding.Measured ?? 0))} {(double.IsNaN(doubt) ? "(accuracy not given)" : $"± {CheckText.Metres(doubt)}")} {way} {finding.Word} of the design{where}, tolerance {CheckText.Metres(Math.Abs(finding.Allowed ?? 0))}"
            + $"{(finding.Figure(3) > 1 ? $"; {CheckText.Count(finding.Figure(3), "shot")} in a row" : "")}{(finding.Severity == Severity.Stop ? "" : "; it may still be within")}.";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? $"Hold it against the design in force; relay it, have the change agreed, or accept the departure with its reason."
        : $"Shoot {finding.Shot(0)} again more accurately, or accept it as measured.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.None : Reshoot.Open;
}
