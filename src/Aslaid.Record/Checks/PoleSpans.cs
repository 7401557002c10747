namespace Aslaid.Record;

/// <summary>Shots of a session whose heights are off by one value.</summary>
/// <param name="First">Row of the first shot.</param>
/// <param name="Last">Row of the last shot.</param>
/// <param name="Off">Metres, too high positive.</param>
/// <param name="U">Metres, its standard uncertainty.</param>
/// <param name="Run">Number of the run that shows the step into it, or out of it.</param>
/// <param name="OtherRun">Number of the run that shows the other end, or −1 where none does.</param>
/// <param name="ByPole">The pole height that was entered changes by as much there: that alone proves nothing, a deeper trench asks for a longer pole.</param>
/// <param name="Agreeing">Check shots and places shot again that say the same.</param>
/// <param name="Proven">Whether it is more than the shape of one thing.</param>
internal readonly record struct PoleSpan(int First, int Last, double Off, double U, int Run, int OtherRun, bool ByPole, int Agreeing, bool Proven);

/// <summary>Makes spans of steps: a step and its equal opposite, or a step that something else than the run itself confirms.</summary>
internal sealed class PoleSpans(Site site)
{
    /// <summary>Shots nearer in plan than this lie in one place, metres (DEFAULT).</summary>
    private const double OnePlace = 0.05;

    /// <summary>So many shots of the run within the span before its shape alone is worth a look: fewer are a dropped kerb (DEFAULT).</summary>
    private const int LeastAlone = 8;

    /// <summary>Two runs that agree at one moment must each step by so many standard uncertainties (DEFAULT).</summary>
    private const double PlainSigmas = 6;

    /// <summary>Steps nearer to each other than this are one place, metres (DEFAULT).</summary>
    private const double Apart = 5;

    /// <summary>Where a span has no end, places shot again are looked for among so many shots from the step.</summary>
    private const int MostLookedAt = 200;

    private readonly CurrentShots shots = site.Shots;
    private readonly double[]? poles = site.Shots.Raw.NumberColumns.GetValueOrDefault("pole");
    private readonly List<int> near = [];
    private readonly RunCrossings crossings = new(site);
    private (int First, int Last)[]? stretches;

    public List<PoleSpan> Of(LevelSteps steps)
    {
        var (spans, open) = (new List<PoleSpan>(), new List<LevelStep>());
        for (var i = 0; i < steps.All.Count;)
        {
            var session = steps.All[i].Session;
            open.Clear();
            for (; i < steps.All.Count && steps.All[i].Session == session; i++)
            {
                var step = steps.All[i];
                var start = open.FindLastIndex(before => Closes(before, step) && before.Run == step.Run);
                if (start < 0) start = open.FindLastIndex(before => Closes(before, step));
                if (start < 0)
                {
                    open.Add(step);
                    continue;
                }

                if (Closed(open[start], step, open) is { } span) spans.Add(span);
                open.RemoveRange(start, open.Count - start); // what began within it has another reason
            }

            var last = spans.Count == 0 ? -1 : spans[^1].Last;
            foreach (var step in open)
                if ((step.To > last || spans.Count == 0) && HalfOpen(step, open) is { } span)
                {
                    spans.Add(span);
                    last = span.Last;
                }
        }

        return spans;
    }

    private static bool Closes(LevelStep start, LevelStep end) => start.To <= end.From && start.Agrees(-end.Rise, end.U);

    /// <summary>Two runs tell two things where they step far enough apart; side by side, as face and back of a kerb, both may really drop.</summary>
    private bool IsApart(LevelStep a, LevelStep b) =>
        a.Run != b.Run && shots.At(a.To).DistanceTo(shots.At(b.To)) > Apart;

    private static bool IsPlain(LevelStep step) => Math.Abs(step.Rise) >= PlainSigmas * step.U;

    /// <summary>Whether a run elsewhere steps at the same moment by as much.</summary>
    private bool IsSeconded(LevelStep step, List<LevelStep> open)
    {
        foreach (var other in open)
            if (other.From < step.To && step.From < other.To && other.Agrees(step.Rise, step.U) && IsApart(step, other) && IsPlain(step) && IsPlain(other)) return true;
        return false;
    }

    private PoleSpan? Closed(LevelStep start, LevelStep end, List<LevelStep> open)
    {
        var (w1, w2) = (1 / (start.U * start.U), 1 / (end.U * end.U));
        var (off, u) = ((w1 * start.Rise - w2 * end.Rise) / (w1 + w2), 1 / Math.Sqrt(w1 + w2));
        var byPole = PoleSays(start, ref off, ref u, 1) || PoleSays(end, ref off, ref u, -1);
        var span = new PoleSpan(start.To, end.From, off, u, start.Run, end.Run, byPole, 0, false);
        if (!Weigh(ref span)) return null;
        if (span.Agreeing > 0 || IsSeconded(start, open)) span = span with { Proven = true };
        return span.Proven || byPole || !IsShape(start, end) ? span : null;
    }

    /// <summary>Whether it is plainly the shape of one thing: a few shots of a dropped kerb, a service that dips under another, two edges side by side.</summary>
    private bool IsShape(LevelStep start, LevelStep end)
    {
        if (start.Run != end.Run) return !IsApart(start, end);
        var (first, last) = (Math.Min(start.Member, end.Member), Math.Max(start.Member, end.Member));
        if (last - first < LeastAlone) return true;
        for (var member = first; member <= last; member++)
            if (crossings.On(site.Runs[start.Run], member)) return true;
        return false;
    }

    /// <summary>A step that never comes back is a drop or a ramp, unless control or places shot again say otherwise, or the pole entered makes it worth a look.</summary>
    private PoleSpan? HalfOpen(LevelStep step, List<LevelStep> open)
    {
        var (first, last) = SessionEnds(step);
        var (off, u) = (step.Rise, step.U);
        var byPole = PoleSays(step, ref off, ref u, 1);
        var after = new PoleSpan(step.To, last, off, u, step.Run, -1, byPole, 0, false);
        var before = new PoleSpan(first, step.From, -step.Rise, step.U, step.Run, -1, false, 0, false);
        var (isAfter, isBefore) = (Weigh(ref after), Weigh(ref before, forward: false));
        if (isAfter && after.Agreeing > 0) return after with { Proven = true };
        if (isBefore && before.Agreeing > 0) return before with { Proven = true };
        return isAfter && byPole ? after with { Proven = IsSeconded(step, open) } : null;
    }

    /// <summary>First and last row of the session's shots about a step that state the same pole height.</summary>
    private (int First, int Last) SessionEnds(LevelStep step)
    {
        stretches ??= Stretches();
        var (first, last) = (stretches[step.From], stretches[step.To]);
        return (first.First, last.Last);
    }

    /// <summary>By row: the shots of one session, one after the other, with one pole height.</summary>
    private (int First, int Last)[] Stretches()
    {
        var (of, latest) = (new (int First, int Last)[shots.Count], new int[shots.SessionCount]);
        latest.AsSpan().Fill(-1);
        for (var row = 0; row < of.Length; row++)
        {
            if (!Counts(row, shots.Session[row])) continue;
            ref var before = ref latest[shots.Session[row]];
            of[row] = (before >= 0 && !PoleChanges(before, row) ? of[before].First : row, row);
            before = row;
        }

        for (var row = of.Length - 1; row >= 0; row--)
        {
            if (!Counts(row, shots.Session[row])) continue;
            ref var after = ref latest[shots.Session[row]];
            of[row].Last = of[after].First == of[row].First ? of[after].Last : row;
            after = row;
        }

        return of;
    }

    private bool PoleChanges(int a, int b) => poles is not null && Math.Abs(poles[a] - poles[b]) >= LevelSteps.Least;

    private bool Counts(int row, int session) => shots.IsShot(row) && shots.Used[row] && shots.Session[row] == session;

    /// <summary>
    /// Entered longer by as much as the heights fall: the pole itself was not changed, or changed and not entered, and the change is known
    /// exactly; or the thing lies lower there, and the crew drew the pole out to reach it.
    /// </summary>
    private bool PoleSays(LevelStep step, ref double off, ref double u, int sense)
    {
        if (poles is null) return false;
        var change = poles[step.To] - poles[step.From];
        if (!(Math.Abs(change) >= LevelSteps.Least) || !step.Agrees(-change, 0)) return false;
        (off, u) = (-sense * change, Math.Min(u, step.U));
        return true;
    }

    /// <summary>Counts who agrees; false where a check shot or a place shot again says that the heights are right.</summary>
    private bool Weigh(ref PoleSpan span, bool forward = true)
    {
        var (agreeing, elsewhere, session) = (0, 0, shots.Session[span.First]);
        foreach (var check in site.CheckShots)
        {
            if (shots.Session[check.Row] != session || check.Height is not { } miss) continue;
            var within = check.Row >= span.First && check.Row <= span.Last;
            if (within && Math.Abs(miss) < Math.Abs(span.Off) / 2) return false;
            if (!(Math.Abs(miss - span.Off) <= LevelStep.Often * U(site.Control[check.Point].UHeight ?? 0, shots.SigmaHeight[check.Row], span.U, site.Settings.SessionUHeight))) continue;
            if (within) agreeing++;
            else elsewhere++;
        }

        if (elsewhere > 0) agreeing = 0; // then it is the session
        var (from, to) = span.OtherRun >= 0 ? (span.First, span.Last)
            : forward ? (span.First, Math.Min(span.Last, span.First + MostLookedAt)) : (Math.Max(span.First, span.Last - MostLookedAt), span.Last);
        for (var row = from; row <= to; row++)
        {
            if (!Counts(row, session) || double.IsNaN(shots.Heights[row])) continue;
            near.Clear();
            site.ShotIndex.Near(shots.At(row), OnePlace, near);
            foreach (var number in near)
            {
                var other = site.ShotRows[number];
                if (other >= span.First && other <= span.Last && shots.Session[other] == session) continue;
                if (shots.CodeColumn[other] != shots.CodeColumn[row] || shots.Entry(row)?.Kind == CodeKind.Control || double.IsNaN(shots.Heights[other])) continue;
                var apart = shots.Heights[row] - shots.Heights[other];
                var common = shots.Session[other] == session ? 0 : Math.Sqrt(2) * site.Settings.SessionUHeight;
                if (Math.Abs(apart) < Math.Abs(span.Off) / 2) return false;
                if (Math.Abs(apart - span.Off) <= LevelStep.Often * U(shots.SigmaHeight[row], shots.SigmaHeight[other], span.U, common)) agreeing++;
            }
        }

        span = span with { Agreeing = agreeing };
        return true;

        static double U(double a, double b, double c, double d) => double.Hypot(double.Hypot(a, b), double.Hypot(c, d));
    }
}
