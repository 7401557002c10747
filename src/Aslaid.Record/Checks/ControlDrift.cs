using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Sessions whose misfit on control changes while they last.</summary>
internal sealed class ControlDrift : ICheck
{
    /// <summary>Less than this is no drift, however well it is known, metres (DEFAULT).</summary>
    private const double Least = 0.010;

    /// <summary>A change this many times its limit is beyond doubt; nearer to it a person should look (DEFAULT).</summary>
    private const double Plainly = 1.25;

    public string Name => "control-drift";

    public string Title => "Sessions that drift between check shots";

    public string Unit => "m";

    public bool HoldsSession => true;

    /// <summary>Fits through two or three points come out scaled or turned where one of them was shot after the change.</summary>
    public ImmutableArray<string> Explains => ["control-missed", "scale-off", "setup-rotated", "accuracy-optimistic", "accuracy-over-limit", "method-unfit", "off-design", "cover-too-small", "too-close", "reference-unclear", "pole-height-by-design", "face-for-back"];

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        var sessions = site.SessionChecks.All.Select(checks => (Checks: checks, Pairs: Pairs(site, checks))).ToArray();
        var sigmas = AlarmBudget.Sigmas(2 * sessions.Sum(session => session.Pairs.Count));
        foreach (var (checks, pairs) in sessions)
        {
            if (pairs.Count == 0) continue;
            var (worst, over) = (default(Change), 1.0);
            var scatter = SessionScatter.Of(site, checks);
            foreach (var (first, second) in pairs)
            {
                if (Between(site, first, second, sigmas, scatter) is { } change && change.Over > over) (worst, over) = (change, change.Over);
            }

            if (over > 1) Add(site, worst, found);
        }
    }

    /// <summary>One check shot and the next, the first and the last, and the first and the last on each point.</summary>
    private static HashSet<(int First, int Second)> Pairs(Site site, ImmutableArray<int> checks)
    {
        var time = site.Shots.Raw.Time;
        var pairs = new HashSet<(int First, int Second)>();
        var timed = new List<(long Time, int Check)>();
        foreach (var check in checks)
            if (time[site.CheckShots[check].Row] is var at && at != long.MinValue) timed.Add((at, check));
        if (timed.Count < 2) return pairs;
        timed.Sort();
        var missed = checks.Where(check => site.SessionChecks.Misfits[check].Missed).Select(check => site.CheckShots[check].Point).ToHashSet();
        var ofPoint = new Dictionary<int, (int First, int Last)>();
        Add(timed[0].Check, timed[^1].Check);
        for (var i = 0; i < timed.Count; i++)
        {
            if (i > 0) Add(timed[i - 1].Check, timed[i].Check);
            var point = site.CheckShots[timed[i].Check].Point;
            ofPoint[point] = (ofPoint.TryGetValue(point, out var known) ? known.First : timed[i].Check, timed[i].Check);
        }

        foreach (var (first, last) in ofPoint.Values) Add(first, last);
        return pairs;

        void Add(int first, int second)
        {
            var (a, b) = (site.CheckShots[first].Point, site.CheckShots[second].Point);
            if (first != second && (a == b || !IsLone(a) && !IsLone(b))) pairs.Add((first, second));
        }

        bool IsLone(int point) => missed.Count == 1 && missed.Contains(point); // one mark that is missed may have moved
    }

    private readonly record struct Change(int First, int Second, Step Plan, double Height, double Size, double Limit, double Over, bool InPlan);

    /// <summary>What the session has in common cancels, and so does the point's own error where both were taken on one.</summary>
    private static Change? Between(Site site, int first, int second, double sigmas, SessionScatter scatter)
    {
        var (a, b) = (site.CheckShots[first], site.CheckShots[second]);
        var plan = new Step(b.East - a.East, b.North - a.North);
        var height = b.Height - a.Height ?? double.NaN;
        if (Judged(factors: false) is not { Over: > 1 }) return null;
        return Judged(factors: true) is { Over: > 1 } change ? change : null;

        Change? Judged(bool factors)
        {
            var checks = site.SessionChecks;
            var (ka, kb) = factors ? (checks.FactorElsewhere(a.Row, true), checks.FactorElsewhere(b.Row, true)) : (1, 1);
            var (la, lb) = factors ? (checks.FactorElsewhere(a.Row, false), checks.FactorElsewhere(b.Row, false)) : (1, 1);
            var (p, q) = (site.Control[a.Point], site.Control[b.Point]);
            var knownPlan = a.Point == b.Point ? 0 : (Square(p.UPlan ?? 0) + Square(q.UPlan ?? 0)) / 2;
            var knownHeight = a.Point == b.Point ? 0 : Square(p.UHeight ?? 0) + Square(q.UHeight ?? 0);
            var planLimit = Math.Max(Least, AlarmBudget.Radial(sigmas) * Math.Sqrt(checks.PlanVariance(a.Row, ka) + checks.PlanVariance(b.Row, kb) + knownPlan));
            var heightLimit = Math.Max(Least, sigmas * Math.Sqrt(checks.HeightVariance(a.Row, la) + checks.HeightVariance(b.Row, lb) + knownHeight));
            var (inPlan, inHeight) = (scatter.InPlan ? 0 : plan.Size / planLimit, scatter.InHeight ? 0 : Math.Abs(height) / heightLimit); // NaN where accuracy or height is not known
            if (inPlan > 1 && !(inHeight > inPlan)) return new(first, second, plan, height, plan.Size, planLimit, inPlan, true);
            return inHeight > 1 ? new(first, second, plan, height, Math.Abs(height), heightLimit, inHeight, false) : null;
        }
    }

    private static void Add(Site site, Change change, Findings found)
    {
        var (a, b) = (site.CheckShots[change.First], site.CheckShots[change.Second]);
        var session = site.Shots.SessionColumn[a.Row];
        var ceiling = change.InPlan ? site.SessionChecks.PlanCeiling(session) : site.SessionChecks.HeightCeiling(session);
        var minutes = (site.Shots.Raw.Time[b.Row] - site.Shots.Raw.Time[a.Row]) / (double)TimeSpan.TicksPerMinute;
        found.Add(change.Size > ceiling && change.Over > Plainly ? Severity.Stop : Severity.Look, [a.Row, b.Row], site.Shots.At(b.Row), site.Shots.HeightOf(b.Row),
            measured: change.Size, allowed: change.Limit, word: a.Point == b.Point ? $"both on {site.Control[a.Point].Id}" : $"on {site.Control[a.Point].Id} and {site.Control[b.Point].Id}",
            figures: [change.Plan.East, change.Plan.North, change.Height, change.InPlan ? 1 : 0, minutes]);
    }

    public string Message(Finding finding) =>
        $"From check shot {finding.Shot(0)} to {finding.Shot(1)} ({finding.Word}) the misfit changes by {CheckText.Metres(finding.Measured)} in {(finding.Figure(3) > 0 ? "plan" : "height")}"
        + $" (E {CheckText.Signed(finding.Figure(0))}, N {CheckText.Signed(finding.Figure(1))}{(double.IsNaN(finding.Figure(2)) ? "" : $", H {CheckText.Signed(finding.Figure(2))}")} m)"
        + $" in {CheckText.Number(finding.Figure(4), "0")} minutes, limit {CheckText.Metres(finding.Allowed)}: one of both moments is wrong, and nobody knows which.";

    public string Cure(Finding finding) => "Look for what changed between both (set-up moved, base or pole changed); check shoot again, and shoot again what was taken between them.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;

    private static double Square(double x) => x * x;
}
