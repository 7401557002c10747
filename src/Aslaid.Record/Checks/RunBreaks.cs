using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A stretch of a run that does not belong where it is.</summary>
/// <param name="Run">Number of the run.</param>
/// <param name="First">First member of the stretch, from 0.</param>
/// <param name="Last">Last member of the stretch.</param>
/// <param name="Target">Row of a shot whose code and run label fit the stretch; −1 for a single shot that lies off by itself.</param>
/// <param name="Leg">Metres from the member before to the first of the stretch.</param>
/// <param name="Median">Metres, median of the run's legs.</param>
internal readonly record struct RunBreak(int Run, int First, int Last, int Target, double Leg, double Median);

/// <summary>
/// The stretches of all runs that begin with a leg far longer than the run's usual one and have evidence against them: another
/// run goes on from them or goes through them, or a single shot sticks out. Leg and turning alone prove nothing. Shared by the
/// checks that would otherwise each report the same mistake.
/// </summary>
internal sealed class RunBreaks
{
    /// <summary>How often the median a leg must be to be out of the ordinary (DEFAULT).</summary>
    public const double LongLeg = 3;

    /// <summary>Legs below this are never out of the ordinary, metres (DEFAULT).</summary>
    private const double LeastLeg = 2;

    /// <summary>Spacing assumed for codes that state none, metres (DEFAULT).</summary>
    public const double UsualSpacing = 15;

    /// <summary>How near shots lie to the run they really belong to, metres (DEFAULT).</summary>
    private const double OnRun = 1;

    /// <summary>A step in height that says another kind of thing, trench or surface, metres (DEFAULT).</summary>
    private const double HeightStep = 0.3;

    private readonly Dictionary<int, (int First, int Count)> ofRun = [];
    private readonly List<RunBreak> all = [];

    public IReadOnlyList<RunBreak> All => all;

    /// <summary>Whether the leg that ends at a member belongs to a break: it enters, lies in or leaves the stretch.</summary>
    public bool Touches(int run, int endMember)
    {
        if (!ofRun.TryGetValue(run, out var at)) return false;
        for (var i = at.First; i < at.First + at.Count; i++)
            if (endMember >= all[i].First && endMember <= all[i].Last + 1) return true;
        return false;
    }

    public static RunBreaks Of(Site site)
    {
        var breaks = new RunBreaks();
        var search = new Search(site, breaks.all);
        for (var run = 0; run < site.Runs.Count; run++)
        {
            var before = breaks.all.Count;
            search.In(site.Runs[run]);
            if (breaks.all.Count > before) breaks.ofRun.Add(run, (before, breaks.all.Count - before));
        }

        return breaks;
    }

    private sealed class Search(Site site, List<RunBreak> into)
    {
        private readonly CurrentShots shots = site.Shots;
        private readonly List<int> near = [];
        private double[] legs = new double[64];
        private double[] sorted = new double[64];

        public void In(Run run)
        {
            var members = run.Members;
            var count = members.Length - 1;
            if (count < 2 || run.Entry is not { } entry) return;
            if (count > legs.Length) (legs, sorted) = (new double[2 * count], new double[2 * count]);
            var (least, most) = (double.PositiveInfinity, 0.0);
            for (var i = 0; i < count; i++)
            {
                legs[i] = shots.At(members[i]).DistanceTo(shots.At(members[i + 1]));
                (least, most) = (Math.Min(least, legs[i]), Math.Max(most, legs[i]));
            }

            if (most <= LongLeg * least || most < LeastLeg) return;
            legs.AsSpan(0, count).CopyTo(sorted);
            sorted.AsSpan(0, count).Sort();
            var median = sorted[(count - 1) / 2];
            var limit = Math.Max(LeastLeg, LongLeg * median);
            if (most <= limit) return;
            for (var leg = 0; leg < count; leg++)
                if (legs[leg] > limit) leg = At(run, entry, leg, limit, median);
        }

        /// <summary>Looks at the stretch after a long leg; returns the leg to go on from.</summary>
        private int At(Run run, CodeEntry entry, int leg, double limit, double median)
        {
            var (first, end) = (leg + 1, run.MemberCount - 1);
            var back = leg + 1;
            while (back < end && legs[back] <= limit) back++;
            if (!run.IsClosed)
            {
                if (TargetOf(run, first, end) is >= 0 and var target) return Add(end, target);
                if (back < end && TargetOf(run, first, back) is >= 0 and var middle) return Add(back, middle);
            }

            if (back == first && back < end && Sticks(run, entry, first)) return Add(first, -1);
            return leg;

            int Add(int last, int target)
            {
                into.Add(new(run.Number, first, last, target, legs[leg], median));
                return last;
            }
        }

        /// <summary>A single shot, far off on both sides, from which the run turns back.</summary>
        private bool Sticks(Run run, CodeEntry entry, int member)
        {
            var least = entry.SpacingMax ?? UsualSpacing;
            if (legs[member - 1] <= least || legs[member] <= least) return false;
            var at = shots.At(run.Members[member]);
            return (at - shots.At(run.Members[member - 1])).Dot(shots.At(run.Members[member + 1]) - at) < 0;
        }

        /// <summary>Row of a shot whose code and run fit the stretch better than its own; −1 where nothing says so.</summary>
        private int TargetOf(Run run, int first, int last)
        {
            if (2 * (last - first + 1) > run.MemberCount) return -1;
            var target = Continuing(run, first, last);
            if (target < 0) target = Carrying(run, first, last);
            return target >= 0 && IsOwn(run, first, last) ? target : -1; // the long look comes last: most stretches have no target
        }

        /// <summary>Whether all of the stretch is the run's own: none lent by a node or shared with another run.</summary>
        private bool IsOwn(Run run, int first, int last)
        {
            foreach (var shot in run.Members[first..(last + 1)])
                if (shots.CodeColumn[shot] != run.Table.CodeWords[run.Number] || site.Membership.IsShared(shot)) return false;
            return true;
        }

        /// <summary>The shot that the crew took next, where it goes on from the stretch as another run.</summary>
        private int Continuing(Run run, int first, int last)
        {
            var members = run.Members;
            var (end, before) = (members[last], members[first - 1]);
            var next = end + 1;
            if (next >= shots.Count || next >= EndOfBatch(end) || !shots.IsShot(next) || !shots.Used[next]) return -1;
            if (!SameCrew(end, next)) return -1;
            var own = site.Membership.Run[next];
            if (own < 0 || own == run.Number || shots.Entry(next) is not { Kind: CodeKind.Line or CodeKind.Area } entry) return -1;
            var apart = shots.At(end).DistanceTo(shots.At(next));
            if (apart >= legs[first - 1] || apart > (entry.SpacingMax ?? UsualSpacing)) return -1;
            return StepsInHeight(members[first..(last + 1)], before, next) || TurnsBack(members, first, last, next) ? next : -1;
        }

        /// <summary>Every height of the stretch is far from the shot before and nearer to the shot that goes on.</summary>
        private bool StepsInHeight(ReadOnlySpan<int> stretch, int before, int next)
        {
            foreach (var shot in stretch)
            {
                var away = Math.Abs(shots.Heights[shot] - shots.Heights[before]);
                if (!(away > HeightStep && Math.Abs(shots.Heights[shot] - shots.Heights[next]) < away / 2)) return false;
            }

            return true;
        }

        /// <summary>The long leg turns back on the run, and the stretch leads straight on to the next shot of the other run.</summary>
        private bool TurnsBack(ReadOnlySpan<int> members, int first, int last, int next)
        {
            if (first < 2 || last == first) return false;
            var entry = shots.At(members[first]) - shots.At(members[first - 1]);
            if ((shots.At(members[first - 1]) - shots.At(members[first - 2])).Dot(entry) >= 0) return false;
            var way = shots.At(members[last]) - shots.At(members[last - 1]);
            var on = shots.At(next) - shots.At(members[last]);
            return way.Dot(on) > 0.5 * way.Size * on.Size; // within 60° of straight on
        }

        /// <summary>A shot of the run of another code that all of the stretch, and not the shot before it, lies on.</summary>
        private int Carrying(Run run, int first, int last)
        {
            if (last == first) return -1; // one shot may happen to lie there
            var other = -1;
            for (var member = first; member <= last; member++)
            {
                var here = RunNear(shots.At(run.Members[member]), run, other);
                if (here < 0) return -1;
                other = here;
            }

            return RunNear(shots.At(run.Members[first - 1]), run, other) >= 0 ? -1 : site.Runs[other].Members[0];
        }

        /// <summary>The run of another code within reach of a place; where <paramref name="only"/> names one, that or none.</summary>
        private int RunNear(Point2 place, Run own, int only)
        {
            near.Clear();
            site.PieceIndex.Near(place, OnRun, near);
            var (best, least) = (-1, OnRun);
            foreach (var number in near)
            {
                var piece = site.PieceAt(number);
                var run = piece.Run.Number;
                if (run == own.Number || (only >= 0 && run != only) || own.Table.CodeWords[run] == own.Table.CodeWords[own.Number]) continue;
                var distance = (piece.Kind == PieceKind.Arc ? piece.Arc.Locate(place) : piece.Straight.Locate(place)).Distance;
                if (distance <= least) (best, least) = (run, distance);
            }

            return best;
        }

        private int EndOfBatch(int row)
        {
            var batch = shots.Raw.BatchOf(row);
            return batch.FirstRow + batch.Count;
        }

        private bool SameCrew(int a, int b) => !shots.Raw.TextColumns.TryGetValue("crew", out var crew) || crew[a] == crew[b];
    }
}
