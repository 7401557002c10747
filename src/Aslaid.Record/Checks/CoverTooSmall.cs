namespace Aslaid.Record;

/// <summary>Stretches of buried runs with less cover than their code asks.</summary>
internal sealed class CoverTooSmall : ICheck
{
    /// <summary>Metres above the limit up to which the uncertainty may still matter.</summary>
    private const double Near = 0.3;

    public string Name => "cover-too-small";

    public string Title => "Too little cover";

    public string Unit => "m";

    public bool NeedsAnother => true;

    public void Look(Site site, Findings found)
    {
        if (site.Design.Surfaces.IsEmpty) return;
        var covers = new CoverAlong(site);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { CoverMin: { } least } || run.Facts.Status is not (RunStatus.New or RunStatus.Existing)) continue;
            var points = covers.Of(run);
            for (var i = 0; i < points.Length; i++)
            {
                if (!IsDoubtful(points[i], least)) continue;
                var first = i;
                while (i + 1 < points.Length && IsDoubtful(points[i + 1], least)) i++;
                Add(site, covers, run, points.AsSpan()[first..(i + 1)], least, found);
            }
        }
    }

    private static bool IsDoubtful(CoverPoint point, double least) => point.Cover < least + Near;

    private static void Add(Site site, CoverAlong covers, Run run, ReadOnlySpan<CoverPoint> points, double least, Findings found)
    {
        var (worst, gravest) = (default(CoverPoint), (Grade: Verdict.Conforms, Short: double.NegativeInfinity));
        var (from, to, judged) = (double.PositiveInfinity, double.NegativeInfinity, default(Judgement));
        foreach (var point in points)
        {
            var judgement = Judgement.OfTolerance(point.Cover, covers.U(run, point), Limits.AtLeast(least), site.Settings.GuardBand);
            if (judgement.Verdict == Verdict.Conforms || judgement.Verdict == Verdict.NotProven && judgement.Within == true && run.Entry is { NeedsProof: false }) continue;
            (from, to) = (Math.Min(from, point.Chainage), Math.Max(to, point.Chainage));
            var here = (Grade: judgement.Verdict, Short: least - point.Cover!.Value);
            if (here.Grade == gravest.Grade ? here.Short <= gravest.Short : here.Grade != Verdict.DoesNotConform && gravest.Grade != Verdict.Conforms) continue;
            (worst, gravest, judged) = (point, here, judgement);
        }

        if (gravest.Grade == Verdict.Conforms) return;
        var member = run.MemberAt(worst.Chainage);
        int[] rows = member + 1 < run.MemberCount && worst.Chainage > run.Chainages[member] ? [run.Members[member], run.Members[member + 1]] : [run.Members[member]];
        found.Add(gravest.Grade == Verdict.DoesNotConform ? Severity.Stop : Severity.Look, rows, run.Path.PointAt(worst.Chainage), worst.Top, run.Number, from, to, worst.Cover, least,
            $"{worst.Surface!.Name} ({EnumWords.Of(worst.Surface.Kind)}{(worst.Surface.Date is { } date ? FormattableString.Invariant($", {date:yyyy-MM-dd}") : "")})", [judged.U95 ?? double.NaN, worst.Chainage]);
    }

    public string Message(Finding finding)
    {
        var doubt = finding.Figure(0);
        return $"{finding.RunLabel()} has {CheckText.Metres(finding.Measured)} {(double.IsNaN(doubt) ? "(accuracy not stated)" : $"± {CheckText.Metres(doubt)}")} of cover at {CheckText.Number(finding.Figure(1), "0.0")} m below {finding.Word}, least {CheckText.Metres(finding.Allowed)}{(finding.To - finding.From > 0.05 ? $"; short {CheckText.Along(finding)}" : "")}{(finding.Severity == Severity.Stop ? "" : "; not proven")}.";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Protect it, lower it, or have less cover agreed by whoever owns it; local code prevails."
        : "Measure its top again more accurately while it is open, or state how well the surface is known.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
