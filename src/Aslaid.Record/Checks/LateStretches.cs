using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Shots of a later file that stand at the end of a run and fit elsewhere in it, or measure it again.</summary>
/// <param name="First">First member of the stretch, from 0; it reaches to the run's end.</param>
/// <param name="After">Member behind which it fits; −1 for before the first; nowhere for what is measured again.</param>
/// <param name="Reversed">It fits the other way round.</param>
/// <param name="Leg">Metres from the member before to the stretch as it stands.</param>
/// <param name="Added">Metres that the path gets longer by where it fits, the stretch itself left out.</param>
/// <param name="Repeat">What it measures of the run again; null where it fits elsewhere.</param>
internal readonly record struct LateStretch(int First, int After, bool Reversed, double Leg, double Added, RepeatedLength? Repeat = null)
{
    /// <summary><see cref="After"/> of a stretch that belongs nowhere in the path.</summary>
    public const int Nowhere = -2;
}

/// <summary>A length of a run that later shots measure again.</summary>
/// <param name="Length">Metres along the earlier path.</param>
/// <param name="Farthest">Metres from the earlier path to the later shot farthest off it.</param>
/// <param name="Limit">Metres within which that shot must lie.</param>
internal readonly record struct RepeatedLength(double Length, double Farthest, double Limit);

/// <summary>The late stretches of all runs, one a run at most. Shared by the checks that would otherwise each report the leg back.</summary>
internal sealed class LateStretches
{
    /// <summary>The path must get shorter to this share of the leg back (DEFAULT).</summary>
    private const double Plainly = 0.5;

    /// <summary>Later shots so near an earlier path, or its level, lie along it, metres (DEFAULT), or within three standard uncertainties.</summary>
    private const double Along = 0.1;

    private const double Often = 3;

    /// <summary>A shot farther than this from both ends of a leg that is too long fills it, metres (DEFAULT).</summary>
    private const double FromJoint = 1;

    private readonly Dictionary<int, LateStretch> ofRun = [];

    public LateStretches(Site site)
    {
        var raw = site.Shots.Raw;
        if (raw.Batches.Length < 2) return;
        for (var number = 0; number < site.Runs.Count; number++)
            if (Find(site, site.Runs[number]) is { } stretch) ofRun.Add(number, stretch);
    }

    public LateStretch? Of(int run) => ofRun.TryGetValue(run, out var stretch) ? stretch : null;

    /// <summary>Whether the leg that ends at a member is the leg back, or the gap that the stretch fills.</summary>
    public bool Explains(int run, int endMember) => ofRun.TryGetValue(run, out var stretch) && (endMember == stretch.First || endMember == stretch.After + 1);

    private static LateStretch? Find(Site site, Run run)
    {
        var shots = site.Shots;
        var members = run.Members;
        var first = members.Length - 1;
        if (first < 2 || run.IsClosed || run.Through[first]) return null;
        var batch = shots.BatchOf(members[first]);
        while (first > 0 && shots.BatchOf(members[first - 1]) == batch) first--;
        if (first < 2 || run.Through[first] || run.Through[first - 1]) return null;

        var leg = Between(first - 1, first, members);
        if (Repeats(site, run, first) is { } repeat) return new(first, LateStretch.Nowhere, false, leg, 0, repeat);
        if (leg <= (run.Entry?.SpacingMax ?? RunBreaks.UsualSpacing)) return null;
        var best = new LateStretch(first, -1, false, leg, double.PositiveInfinity);
        Try(-1, Between(members.Length - 1, 0, members), false, ref best);
        Try(-1, Between(first, 0, members), true, ref best);
        for (var after = 0; after + 1 < first; after++)
        {
            if (run.Through[after] || run.Through[after + 1]) continue;
            var gap = Between(after, after + 1, members);
            Try(after, Between(after, first, members) + Between(members.Length - 1, after + 1, members) - gap, false, ref best);
            Try(after, Between(after, members.Length - 1, members) + Between(first, after + 1, members) - gap, true, ref best);
        }

        return best.Added <= Plainly * leg ? best : null;

        double Between(int a, int b, ReadOnlySpan<int> of) => shots.At(of[a]).DistanceTo(shots.At(of[b]));

        static void Try(int after, double added, bool reversed, ref LateStretch best)
        {
            if (added < best.Added) best = best with { After = after, Added = added, Reversed = reversed };
        }
    }

    /// <summary>Whether all later shots lie along the earlier path, one way, by two of its members at least, and fill no gap of it.</summary>
    private static RepeatedLength? Repeats(Site site, Run run, int first)
    {
        if (run.MemberCount - first < 2) return null;
        var (low, high, before, backward, forward) = (double.PositiveInfinity, double.NegativeInfinity, double.NaN, 0.0, 0.0);
        var (worst, limit, near) = (0.0, Along, new List<int>());
        for (var member = first; member < run.MemberCount; member++)
        {
            if (Place(site, run, first, run.Members[member], near) is not { } place) return null;
            if (place.Distance / place.Limit >= worst / limit) (worst, limit) = (place.Distance, place.Limit);
            if (member > first) (backward, forward) = (Math.Max(backward, before - place.Chainage), Math.Max(forward, place.Chainage - before));
            (before, low, high) = (place.Chainage, Math.Min(low, place.Chainage), Math.Max(high, place.Chainage));
        }

        if (Math.Min(backward, forward) > limit) return null; // it goes to and fro
        var from = run.MemberAt(low - Along);
        if (run.Chainages[from] < low - Along) from++;
        return from + 1 < first && run.Chainages[from + 1] <= high + Along ? new(high - low, worst, limit) : null;
    }

    /// <summary>Where a later shot lies along the earlier path; null where it lies off it, at another level, or in a gap.</summary>
    private static (double Chainage, double Distance, double Limit)? Place(Site site, Run run, int first, int shot, List<int> near)
    {
        var (shots, at) = (site.Shots, site.Shots.At(shot));
        var reach = Math.Max(Along, Often * 2 * Known(shots.PlaceSigma(shot)));
        near.Clear();
        site.PieceIndex.Near(at, reach, near);
        near.Sort();
        foreach (var number in near)
        {
            var piece = site.PieceAt(number);
            if (piece.Run.Number != run.Number || piece.Last >= first) continue;
            var locus = piece.Kind == PieceKind.Arc ? piece.Arc.Locate(at) : piece.Straight.Locate(at);
            var chainage = run.Chainages[piece.First] + locus.Along;
            var after = piece.First + 1;
            while (after < piece.Last && run.Chainages[after] < chainage) after++;
            var (a, b) = (run.Members[after - 1], run.Members[after]);
            var (behind, leg) = (chainage - run.Chainages[after - 1], run.Chainages[after] - run.Chainages[after - 1]);
            var limit = Math.Max(Along, Often * double.Hypot(Known(shots.PlaceSigma(shot)), Known(shots.PlaceSigma(a))));
            if (locus.Distance > limit) continue;
            var level = shots.Heights[a] + (leg > 0 ? behind / leg : 0) * (shots.Heights[b] - shots.Heights[a]);
            var levelLimit = Math.Max(Along, Often * double.Hypot(Known(shots.LevelSigma(shot)), Known(shots.LevelSigma(a))));
            if (Math.Abs(shots.Heights[shot] - level) > levelLimit) continue;
            var fills = leg > (run.Entry?.SpacingMax ?? RunBreaks.UsualSpacing) && behind > FromJoint && leg - behind > FromJoint;
            return fills ? null : (chainage, locus.Distance, limit);
        }

        return null;

        static double Known(double sigma) => double.IsNaN(sigma) ? 0 : sigma;
    }
}
