using System.Runtime.InteropServices;

namespace Aslaid.Record;

/// <summary>Drains that rise, fall less than their code asks for, or whose shots do not prove their fall.</summary>
internal sealed class FallWrong : ICheck
{
    /// <summary>What a finding says.</summary>
    private enum Kind
    {
        /// <summary>A stretch rises against the flow.</summary>
        Reversed,

        /// <summary>A stretch falls too little.</summary>
        TooFlat,

        /// <summary>The doubt of some legs reaches over the limit.</summary>
        NotProven,

        /// <summary>Both ends are level within their doubt, and no attribute says where it flows.</summary>
        NoDirection,

        /// <summary>Shots state no accuracy.</summary>
        NoAccuracy,
    }

    public string Name => "fall-wrong";

    public string Title => "Fall reversed, too flat or not proven";

    public string Unit => "%";

    public bool NeedsAnother => true;

    /// <summary>Poor heights explain a fall that is not proven, not one that is wrong beyond doubt.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) =>
        leader.Check is not AccuracyOverLimit || (Kind)finding.Figure(0) is Kind.NotProven or Kind.NoAccuracy or Kind.NoDirection;

    public void Look(Site site, Findings found)
    {
        var count = 0;
        for (var number = 0; number < site.Runs.Count; number++)
            if (site.Runs[number].Entry?.FallMinPercent is not null) count += site.Runs[number].MemberCount;
        if (count == 0) return;
        var (sigmas, legs) = (AlarmBudget.Sigmas(count), new List<FallLeg>());
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.IsClosed || run.Entry is not { FallMinPercent: { } percent } entry) continue;
            new OneRun(site, run, entry, percent / 100, sigmas, legs, found).Look();
        }
    }

    public string Message(Finding finding)
    {
        var (kind, run) = ((Kind)finding.Figure(0), finding.RunLabel());
        var (fall, doubt) = (Percent(finding.Figure(1)), Percent(FallLegs.Coverage * finding.Figure(2)));
        var (where, leg) = ($"{CheckText.Along(finding)} ({finding.Shot(0)} to {finding.Shot(1)})", $"from {finding.Shot(0)} to {finding.Shot(1)}");
        var least = $"least {CheckText.Number(finding.Figure(3), "0.###")} %";
        var legs = $"Fall of {run} is not proven on {CheckText.Count(finding.Figure(4), "leg")} {CheckText.Along(finding)}";
        return kind switch
        {
            Kind.Reversed => $"{run} rises {Percent(-finding.Figure(1))} ± {doubt} % against the flow {where}, {least}{Suspect(finding)}.",
            Kind.TooFlat => $"{run} falls {fall} ± {doubt} % {where}, {least}{Suspect(finding)}.",
            Kind.NotProven => $"{legs}: {(finding.Figure(1) < 0 ? $"it rises {Percent(-finding.Figure(1))}" : fall)} ± {doubt} % {leg}, {least}.",
            Kind.NoDirection => $"{run} is level {leg} within its doubt, {fall} ± {doubt} %: the direction of flow is not proven, {least}.",
            _ => $"{legs}: {fall} % {leg}, {least}, accuracy not given.",
        };
    }

    /// <summary>What would prove it: U = 2√2·u_z/L, within the distance from the limit.</summary>
    public string Cure(Finding finding)
    {
        var (length, height) = (finding.Figure(5), finding.Figure(6));
        var need = double.IsNaN(height)
            ? ""
            : $": it needs heights of u {CheckText.Number(1000 * height, "0.0")} mm, or as they are shots {CheckText.Number(length, "0.0")} m apart";
        return (Kind)finding.Figure(0) switch
        {
            Kind.Reversed => "Level its shots again; if it lies so, relay it; if it flows the other way, set the attribute flow to along or against.",
            Kind.TooFlat => "Level its shots again; if it lies so, relay it or have it accepted.",
            Kind.NoDirection => "Set the attribute flow to along or against, or level both ends.",
            Kind.NoAccuracy => "Declare the accuracy of the batch, or level the shots again.",
            _ => $"Level its shots again{need}.",
        };
    }

    public Reshoot ReshootFor(Finding finding) => (Kind)finding.Figure(0) == Kind.NoAccuracy ? Reshoot.None : Reshoot.Open;

    private static string Percent(double fall) => CheckText.Number(100 * fall, "0.00");

    private static string Suspect(Finding finding) => finding.Figure(7) > 0 ? $"; {finding.Shot((int)finding.Figure(7) - 1)} alone would explain it" : "";

    /// <summary>One run, looked at whole.</summary>
    private readonly struct OneRun(Site site, Run run, CodeEntry entry, double least, double sigmas, List<FallLeg> legs, Findings found)
    {
        private readonly FallLegs judge = new(site, least, sigmas);

        public void Look()
        {
            if (FallLegs.Ends(run) is not { First: >= 0 } ends || judge.IsTooShort(run, ends.First, ends.Last)) return;
            var sense = judge.Flow(run, out var whole);
            if (sense == 0)
            {
                Add(Severity.Look, Kind.NoDirection, whole);
                return;
            }

            judge.Of(run, sense, legs);
            var bad = false;
            foreach (var leg in legs) bad |= leg.Verdict >= FallVerdict.TooFlat;
            if (bad) AddStretches(sense);
            else if (whole.Verdict >= FallVerdict.TooFlat) Add(Graver(whole), whole.Verdict == FallVerdict.Reversed ? Kind.Reversed : Kind.TooFlat, whole);
            if (bad || whole.Verdict < FallVerdict.TooFlat) AddNotProven();
        }

        /// <summary>One finding for all legs whose doubt reaches over the limit, those beside a bad one left out.</summary>
        private void AddNotProven()
        {
            List<int> named = [];
            var (worst, count, first, last) = (-1, 0, 0, 0);
            for (var i = 0; i < legs.Count; i++)
            {
                if (legs[i].Verdict != FallVerdict.NotProven || IsBesideBad(i)) continue;
                if (count++ == 0) first = i;
                last = i;
                if (worst < 0 || Short(legs[i]) > Short(legs[worst])) worst = i;
                foreach (var member in (ReadOnlySpan<int>)[legs[i].From, legs[i].To])
                    if (named.Count == 0 || named[^1] != member) named.Add(member);
            }

            if (count == 0) return;
            var kind = double.IsNaN(legs[worst].U) ? Kind.NoAccuracy : Kind.NotProven;
            Add(Severity.Look, kind, legs[worst], count, legs[first].From, legs[last].To, named);
        }

        /// <summary>Adjacent bad legs are one mistake; a leg that falls as it should ends the stretch.</summary>
        private void AddStretches(int sense)
        {
            for (var i = 0; i < legs.Count; i++)
            {
                if (legs[i].Verdict < FallVerdict.TooFlat) continue;
                var (begin, worst) = (i, i);
                for (; i + 1 < legs.Count && legs[i + 1].Verdict >= FallVerdict.TooFlat; i++)
                    if (legs[i + 1].Fall < legs[worst].Fall) worst = i + 1;
                var suspect = begin == i ? Suspect(begin, sense) : -1;
                List<int> members = [.. Enumerable.Range(legs[begin].From, legs[i].To - legs[begin].From + 1)];
                var kind = legs[worst].Verdict == FallVerdict.Reversed ? Kind.Reversed : Kind.TooFlat;
                Add(Graver(legs[worst]), kind, legs[worst], i - begin + 1, legs[begin].From, legs[i].To, members, suspect);
            }
        }

        /// <summary>The end of a bad leg without which its neighbours fall as they should; −1 where neither is.</summary>
        private int Suspect(int leg, int sense)
        {
            var (best, off) = (-1, 0.0);
            for (var side = 0; side < 2; side++)
            {
                var other = leg + (side == 0 ? -1 : 1);
                if (other < 0 || other >= legs.Count) continue;
                var (a, b) = side == 0 ? (legs[other], legs[leg]) : (legs[leg], legs[other]);
                if (a.To != b.From || judge.Leg(run, a.From, b.To, sense).Verdict >= FallVerdict.TooFlat) continue; // over a drop both fall by more than they do
                var step = Math.Abs(a.Fall - b.Fall);
                if (step > off) (best, off) = (a.To, step);
            }

            return best;
        }

        private bool IsBesideBad(int leg)
        {
            foreach (var other in (ReadOnlySpan<int>)[leg - 1, leg + 1])
                if (other >= 0 && other < legs.Count && legs[other].Verdict >= FallVerdict.TooFlat) return true;
            return false;
        }

        private double Short(FallLeg leg) => double.IsNaN(leg.U) ? double.PositiveInfinity : least - leg.Fall + FallLegs.Coverage * leg.U;

        private Severity Graver(FallLeg leg) => leg.Verdict == FallVerdict.Reversed || entry.NeedsProof ? Severity.Stop : Severity.Look;

        private void Add(Severity severity, Kind kind, FallLeg leg) => Add(severity, kind, leg, 1, leg.From, leg.To, []);

        /// <param name="members">Members concerned beside those of the leg.</param>
        /// <param name="suspect">Member that alone explains it, or −1.</param>
        private void Add(Severity severity, Kind kind, FallLeg leg, int count, int from, int to, List<int> members, int suspect = -1)
        {
            List<int> shots = [run.Members[leg.From], run.Members[leg.To]];
            foreach (var member in members)
                if (member != leg.From && member != leg.To) shots.Add(run.Members[member]);
            var (length, margin) = (run.Chainages[leg.To] - run.Chainages[leg.From], Math.Abs(leg.Fall - least));
            var (needLength, needHeight) = kind == Kind.NotProven && margin > AtLimit * least
                ? (length * FallLegs.Coverage * leg.U / margin, margin * length / (FallLegs.Coverage * Math.Sqrt(2)))
                : (double.NaN, double.NaN);
            var measured = kind == Kind.Reversed ? -leg.Fall : kind == Kind.NoDirection ? Math.Abs(leg.Fall) : Math.Max(0, leg.Fall);
            var at = run.Members[suspect >= 0 ? suspect : leg.From];
            found.Add(severity, CollectionsMarshal.AsSpan(shots), site.Shots.At(at), site.Shots.HeightOf(at), run.Number, run.Chainages[from], run.Chainages[to],
                100 * measured, kind == Kind.Reversed ? 0 : 100 * least,
                figures: [(int)kind, leg.Fall, leg.U, 100 * least, count, needLength, needHeight, suspect < 0 ? 0 : shots.IndexOf(run.Members[suspect]) + 1]);
        }
    }

    /// <summary>A fall this near to its limit, as a share of it, is proven by no height.</summary>
    private const double AtLimit = 0.001;
}
