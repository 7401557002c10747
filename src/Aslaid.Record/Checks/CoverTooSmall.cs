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
        var (covers, unproven) = (new CoverAlong(site), new SortedDictionary<string, Unproven>(StringComparer.Ordinal));
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
                Add(site, covers, run, points.AsSpan()[first..(i + 1)], least, found, unproven);
            }
        }

        foreach (var (_, code) in unproven)
        {
            var (run, worst) = (code.Run, code.Point);
            found.Add(Severity.Look, code.Rows.ToArray(), run.Path.PointAt(worst.Chainage), worst.Top, run.Number, worst.Chainage, worst.Chainage, worst.Cover, run.Entry!.CoverMin, Named(worst.Surface!), [code.U95 ?? double.NaN, worst.Chainage, code.Rows.Count]);
        }
    }

    /// <summary>Enough cover as measured, but not beyond doubt: the least of a code, and a shot of each stretch.</summary>
    private sealed record Unproven(Run Run, CoverPoint Point, double? U95, List<int> Rows);

    private static bool IsDoubtful(CoverPoint point, double least) => point.Cover < least + Near;

    private static void Add(Site site, CoverAlong covers, Run run, ReadOnlySpan<CoverPoint> points, double least, Findings found, SortedDictionary<string, Unproven> unproven)
    {
        var (worst, gravest, judged) = (default(CoverPoint), (Grade: -1, Short: double.NegativeInfinity), default(Judgement));
        var (from, to) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var point in points)
        {
            var judgement = Judgement.OfTolerance(point.Cover, covers.U(run, point), Limits.AtLeast(least), site.Settings.GuardBand);
            if (judgement.Verdict == Verdict.Conforms) continue;
            if (judgement.Within == false) (from, to) = (Math.Min(from, point.Chainage), Math.Max(to, point.Chainage));
            var here = (Grade: judgement.Verdict == Verdict.DoesNotConform ? 2 : judgement.Within == false ? 1 : 0, Short: least - point.Cover!.Value);
            if (here.CompareTo(gravest) > 0) (worst, gravest, judged) = (point, here, judgement);
        }

        if (gravest.Grade < 0 || gravest.Grade == 0 && run.Entry is { NeedsProof: false }) return;
        var member = run.MemberAt(worst.Chainage);
        int[] rows = member + 1 < run.MemberCount && worst.Chainage > run.Chainages[member] ? [run.Members[member], run.Members[member + 1]] : [run.Members[member]];
        if (gravest.Grade > 0)
        {
            found.Add(gravest.Grade == 2 ? Severity.Stop : Severity.Look, rows, run.Path.PointAt(worst.Chainage), worst.Top, run.Number, from, to, worst.Cover, least, Named(worst.Surface!), [judged.U95 ?? double.NaN, worst.Chainage, 0]);
            return;
        }

        var known = unproven.GetValueOrDefault(run.Code);
        unproven[run.Code] = known is null ? new(run, worst, judged.U95, [.. rows]) : known.Point.Cover <= worst.Cover ? known with { Rows = [.. known.Rows, .. rows] } : new(run, worst, judged.U95, [.. rows, .. known.Rows]);
    }

    private static string Named(DesignedSurface surface) => $"{surface.Name} ({EnumWords.Of(surface.Kind)}{(surface.Date is { } date ? FormattableString.Invariant($", {date:yyyy-MM-dd}") : "")})";

    public string Message(Finding finding)
    {
        var doubt = finding.Figure(0);
        return $"{finding.RunLabel()} has {CheckText.Metres(finding.Measured)} {(double.IsNaN(doubt) ? "(accuracy not stated)" : $"± {CheckText.Metres(doubt)}")} of cover at {CheckText.Number(finding.Figure(1), "0.0")} m below {finding.Word}, least {CheckText.Metres(finding.Allowed)}{(finding.To - finding.From > 0.05 ? $"; short {CheckText.Along(finding)}" : "")}{(finding.Severity == Severity.Stop ? "" : finding.Figure(2) > 0 ? "; enough as measured, not proven" : "; not proven")}.";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Protect it, lower it, or have less cover agreed by whoever owns it; local code prevails."
        : "Measure its top again more accurately while it is open, or state how well the surface is known.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
