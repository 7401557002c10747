using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots whose stated accuracy is worse than their code allows, and batches that state none.</summary>
internal sealed class AccuracyOverLimit : ICheck
{
    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    private const int ShotsNamed = 50;

    private const double InPlan = 0;
    private const double InHeight = 1;
    private const double Nowhere = 2;

    /// <summary>Added to where it is over: what check shots say puts it there. Figure 1 is how many shots.</summary>
    private const double OfSession = 3;

    public string Name => "accuracy-over-limit";

    public string Title => "Accuracy worse than the code allows";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    public ImmutableArray<string> Explains => ["fall-wrong", "cover-too-small", "too-close"];

    /// <summary>A shot that is too coarse by itself is no consequence of its session.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) => 
        !leader.Check.HoldsSession || finding.Figure(0) >= OfSession;

    public void Look(Site site, Findings found)
    {
        var (shots, said) = (site.Shots, new HashSet<int>());
        for (var number = 0; number < site.Runs.Count; number++)
            if (site.Runs[number].Entry is { } entry && Limited(entry)) LookAlong(site.Runs[number], entry, found, said);

        foreach (var row in site.ShotRows)
        {
            if (shots.PlaceColumn[row] < 0) continue;
            var entry = shots.Book.Entries[shots.PlaceColumn[row]];
            if (site.Membership.Run[row] >= 0 && entry.Kind is CodeKind.Line or CodeKind.Area) continue; // seen in its run
            var over = Of(shots, row, entry);
            if (over.IsOver && said.Add(row))
                found.Add(SeverityOf(entry), [row], shots.At(row), shots.HeightOf(row), measured: over.Measured, allowed: over.Allowed, figures: [over.Where]);
        }

        LookAtSessions(site, said, found);
        foreach (var batch in shots.Raw.Batches) LookForNone(shots, batch, found);
    }

    /// <summary>Shots that are good enough as stated, and over their limit by what check shots say of instrument and session: one look a session.</summary>
    private static void LookAtSessions(Site site, HashSet<int> said, Findings found)
    {
        var shots = site.Shots;
        var worst = new (Accuracy Most, int Row, int Count, List<int>? Named)[shots.SessionCount];
        foreach (var row in site.ShotRows)
        {
            if (shots.PlaceColumn[row] < 0 || shots.Book.Entries[shots.PlaceColumn[row]] is var entry && !Limited(entry)) continue;
            var all = Of(shots, row, entry, withSession: true);
            if (!all.IsOver || said.Contains(row)) continue;
            ref var session = ref worst[shots.SessionColumn[row]];
            session.Count++;
            if ((session.Named ??= []).Count < ShotsNamed) session.Named.Add(row);
            if (all.Ratio > session.Most.Ratio || session.Count == 1) (session.Most, session.Row) = (all, row);
        }

        foreach (var (most, row, count, named) in worst)
        {
            if (named is not null)
                found.Add(Severity.Look, [.. named], shots.At(row), shots.HeightOf(row), measured: most.Measured, allowed: most.Allowed, figures: [most.Where + OfSession, count]);
        }
    }

    /// <summary>Consecutive shots over the limit are one finding, with the worst of them as evidence.</summary>
    private static void LookAlong(Run run, CodeEntry entry, Findings found, HashSet<int> said)
    {
        var shots = run.Table.Shots;
        for (var member = 0; member < run.MemberCount; member++)
        {
            var (worst, first, at) = (Of(shots, run.Members[member], entry), member, member);
            if (!worst.IsOver) continue;
            while (member + 1 < run.MemberCount && Of(shots, run.Members[member + 1], entry) is { IsOver: true } next)
            {
                member++;
                if (next.Ratio > worst.Ratio) (worst, at) = (next, member);
            }

            foreach (var shot in run.Members[first..(member + 1)]) said.Add(shot);
            var (from, to) = RunRange.About(run, first, member);
            found.Add(SeverityOf(entry), run.Members[first..(member + 1)], shots.At(run.Members[at]), shots.HeightOf(run.Members[at]),
                run.Number, from, to, worst.Measured, worst.Allowed, figures: [worst.Where]);
        }
    }

    private static void LookForNone(CurrentShots shots, Batch batch, Findings found)
    {
        var (named, count) = (new List<int>(), 0);
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
        {
            if (shots.Raw.Again[row] >= 0 || !shots.UsedColumn[row] || shots.PlaceColumn[row] < 0) continue;
            var entry = shots.Book.Entries[shots.PlaceColumn[row]];
            if (!(entry.Plan95Max.HasValue && double.IsNaN(shots.SigmaPlan[row]) || entry.Height95Max.HasValue && double.IsNaN(shots.SigmaHeight[row]))) continue;
            count++;
            if (named.Count < ShotsNamed) named.Add(row);
        }

        if (count > 0) found.Add(Severity.Look, [.. named], shots.At(named[0]), shots.HeightOf(named[0]), figures: [Nowhere, count]);
    }

    private static bool Limited(CodeEntry entry) => entry.Plan95Max.HasValue || entry.Height95Max.HasValue;

    private static Severity SeverityOf(CodeEntry entry) => entry.NeedsProof ? Severity.Stop : Severity.Look;

    private readonly record struct Accuracy(double Measured, double Allowed, double Where)
    {
        public bool IsOver => Measured > Allowed + Same; // false where either is missing

        public double Ratio => Measured / Allowed;
    }

    /// <summary>Whether all that could ever be said against a shot is within its limits: what most shots are spared the rest by.</summary>
    private static bool IsPlainlyGood(CurrentShots shots, int row, CodeEntry entry)
    {
        ref readonly var session = ref shots.Sessions.ItemRef(shots.SessionColumn[row]);
        var (plan, height) = (shots.SigmaPlanColumn[row], shots.SigmaHeightColumn[row]);
        return Holds(entry.Plan95Max / Normal.Circle95, plan * plan + session.UPlan * session.UPlan)
            && Holds(entry.Height95Max / Normal.Within95, height * height + session.UHeight * session.UHeight);

        static bool Holds(double? most, double square) => most is not { } limit || square <= limit * limit || double.IsNaN(square);
    }

    /// <summary>In plan or in height, whichever is farther over its limit.</summary>
    private static Accuracy Of(CurrentShots shots, int row, CodeEntry entry, bool withSession = false)
    {
        if (IsPlainlyGood(shots, row, entry)) return default;
        var (place, level) = withSession ? (shots.OwnPlaceSigma(row), shots.OwnLevelSigma(row)) : (Math.Sqrt(shots.StatedPlanVariance(row)), Math.Sqrt(shots.StatedHeightVariance(row)));
        var plan = new Accuracy(Normal.Circle95 * place, entry.Plan95Max ?? double.NaN, InPlan);
        var height = new Accuracy(Normal.Within95 * level, entry.Height95Max ?? double.NaN, InHeight);
        return !height.IsOver || (plan.IsOver && plan.Ratio >= height.Ratio) ? plan : height;
    }

    public string Message(Finding finding)
    {
        if (finding.Figure(0) == Nowhere)
            return $"No accuracy given for {CheckText.Count(finding.Figure(1), "shot")} ({CheckText.Shots(finding)}): nothing about them is proven.";
        if (finding.Figure(0) >= OfSession)
        {
            return $"By what check shots say of instrument and session {(finding.Figure(0) - OfSession == InHeight ? "heights" : "places")} of {CheckText.Count(finding.Figure(1), "shot")} ({CheckText.Shots(finding)}) "
                + $"are good to {CheckText.Metres(finding.Measured)} at 95 %, limit {CheckText.Metres(finding.Allowed)}.";
        }

        var axis = finding.Figure(0) == InHeight ? "Height" : "Plan";
        return $"{axis} good to {CheckText.Metres(finding.Measured)} at 95 %, limit {CheckText.Metres(finding.Allowed)} ({CheckText.Shots(finding)}).";
    }

    /// <summary>Below this, metres at 95 %, heights are a matter for level or total station (common practice, DEFAULT).</summary>
    private const double FineHeight = 0.020;

    public string Cure(Finding finding) => finding.Figure(0) == Nowhere ? "Declare the accuracy of the batch, or export it with the shots."
        : finding.Figure(0) >= OfSession ? "Check shoot more, on more points and for longer: that tells better how the session lies."
        : finding.Figure(0) == InHeight && finding.Allowed < FineHeight ? "Measure the heights again by level or total station."
        : "Shoot again with a better solution or another instrument.";

    public Reshoot ReshootFor(Finding finding) => finding.Figure(0) == Nowhere ? Reshoot.None : finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
