using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Shots of a later file that stand at the end of a run and fit elsewhere in it.</summary>
/// <param name="First">First member of the stretch, from 0; it reaches to the run's end.</param>
/// <param name="After">Member behind which it fits; −1 for before the first.</param>
/// <param name="Reversed">It fits the other way round.</param>
/// <param name="Leg">Metres from the member before to the stretch as it stands.</param>
/// <param name="Added">Metres that the path gets longer by where it fits, the stretch itself left out.</param>
internal readonly record struct LateStretch(int First, int After, bool Reversed, double Leg, double Added);

/// <summary>The late stretches of all runs, one a run at most. Shared by the checks that would otherwise each report the leg back.</summary>
internal sealed class LateStretches
{
    /// <summary>The path must get shorter to this share of the leg back (DEFAULT).</summary>
    private const double Plainly = 0.5;

    private readonly Dictionary<int, LateStretch> ofRun = [];

    public LateStretches(Site site)
    {
        var raw = site.Shots.Raw;
        if (raw.Batches.Length < 2) return;
        for (var number = 0; number < site.Runs.Count; number++)
            if (Find(site.Shots, site.Runs[number]) is { } stretch) ofRun.Add(number, stretch);
    }

    public LateStretch? Of(int run) => ofRun.TryGetValue(run, out var stretch) ? stretch : null;

    /// <summary>Whether the leg that ends at a member is the leg back, or the gap that the stretch fills.</summary>
    public bool Explains(int run, int endMember) => ofRun.TryGetValue(run, out var stretch) && (endMember == stretch.First || endMember == stretch.After + 1);

    private static LateStretch? Find(CurrentShots shots, Run run)
    {
        var members = run.Members;
        var first = members.Length - 1;
        if (first < 2 || run.IsClosed || run.Through[first]) return null;
        var batch = shots.Raw.BatchOf(members[first]).Number;
        while (first > 0 && shots.Raw.BatchOf(members[first - 1]).Number == batch) first--;
        if (first < 2 || run.Through[first] || run.Through[first - 1]) return null;

        var leg = Between(first - 1, first, members);
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
}
