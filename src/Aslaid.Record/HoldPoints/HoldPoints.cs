using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Cuts each run into lengths that are open, held, complete or covered.</summary>
public static class HoldPoints
{
    /// <summary>A released value may move by this much before the release lapses, metres.</summary>
    public const double ReleasedMove = 0.0001;

    internal static ImmutableArray<Hold> Of(
        Site site, FindingTable findings, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        var heldBy = HeldBy(site, findings);
        var released = new Dictionary<int, List<(LengthReleased What, int Position)>>();
        var covered = new Dictionary<int, List<Stretch>>();
        foreach (var entry in inForce)
        {
            switch (entry.What)
            {
                case LengthReleased release when RunOf(release.Run, entry) is { } run:
                    Of(released, run.Number).Add((release, entry.Position));
                    break;
                case LengthCovered cover when RunOf(cover.Run, entry) is { } run:
                    Of(covered, run.Number).Add(new(cover.From, cover.To, entry.Position));
                    break;
            }
        }

        var holds = ImmutableArray.CreateBuilder<Hold>(site.Runs.Count);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var (complete, lapsed) = Standing(site, site.Runs[number], released.GetValueOrDefault(number));
            Cut(site.Runs[number], heldBy.GetValueOrDefault(number), complete, lapsed, covered.GetValueOrDefault(number), holds);
        }

        return holds.ToImmutable();

        Run? RunOf(string key, JournalEntry entry)
        {
            if (site.Runs.Find(key) is { } run) return run;
            unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: there is no run {key}."));
            return null;
        }
    }

    private static Dictionary<int, List<Stretch>> HeldBy(Site site, FindingTable findings)
    {
        var heldBy = new Dictionary<int, List<Stretch>>();
        var places = PlacesOfDoubtedShots(site, findings);
        for (var number = 0; number < findings.Count; number++)
        {
            var finding = findings[number];
            if (!finding.Holds) continue;
            foreach (var (other, member) in MembersOf(finding))
            {
                if (other == finding.RunNumber) continue;
                var (from, to) = RunRange.About(site.Runs[other], member, member);
                Of(heldBy, other).Add(new(from, to, number));
            }

            if (finding.Run is { } run) Of(heldBy, run.Number).Add(new(finding.From ?? 0, finding.To ?? run.PlanLength, number));
            else if (finding.Check.HoldsSession) HoldSession(site, finding, heldBy);
        }

        return heldBy;

        IEnumerable<(int Run, int Member)> MembersOf(Finding finding)
        {
            if (!finding.Check.DoubtsItsShots) yield break;
            foreach (var shot in finding.Shots.ToArray())
                if (places.TryGetValue(shot, out var all))
                    foreach (var place in all) yield return place;
        }
    }

    /// <summary>Where the shots of holding findings lie in runs: run and member, from 0.</summary>
    private static Dictionary<int, List<(int Run, int Member)>> PlacesOfDoubtedShots(Site site, FindingTable findings)
    {
        var places = new Dictionary<int, List<(int Run, int Member)>>();
        for (var number = 0; number < findings.Count; number++)
            if (findings[number] is { Holds: true, Check.DoubtsItsShots: true })
                foreach (var shot in findings[number].Shots) places.TryAdd(shot, []);
        if (places.Count == 0) return places;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var members = site.Runs[number].Members;
            for (var member = 0; member < members.Length; member++)
                if (places.TryGetValue(members[member], out var list)) list.Add((number, member));
        }

        return places;
    }

    private static void HoldSession(Site site, Finding finding, Dictionary<int, List<Stretch>> heldBy)
    {
        var sessions = new HashSet<int>();
        foreach (var shot in finding.Shots) sessions.Add(site.Shots.Session[shot]);
        foreach (var run in sessions.SelectMany(session => site.SessionRuns.Of(session)).Distinct())
            Of(heldBy, run).Add(new(0, site.Runs[run].PlanLength, finding.Number));
    }

    private static (List<Stretch> Complete, List<int> Lapsed) Standing(Site site, Run run, List<(LengthReleased What, int Position)>? releases)
    {
        var (complete, lapsed) = (new List<Stretch>(), new List<int>());
        foreach (var (what, position) in releases ?? [])
        {
            if (Stands(site, run, what)) complete.Add(new(what.From, what.To, position));
            else lapsed.Add(position);
        }

        return (complete, lapsed);
    }

    /// <summary>Whether inputs are the same and no released value moved by more than <see cref="ReleasedMove"/>.</summary>
    private static bool Stands(Site site, Run run, LengthReleased release)
    {
        if (Release.InputsHash(site, run, release.From, release.To) != release.InputsSha256) return false;
        var now = Release.Vertices(run, release.From, release.To);
        if (now.Length != release.Vertices.Length) return false;
        for (var i = 0; i < now.Length; i++)
        {
            var (was, stands) = (release.Vertices[i], now[i]);
            if (Moved(was.Chainage, stands.Chainage) || Moved(was.East, stands.East) || Moved(was.North, stands.North)) return false;
            if (was.Height.HasValue != stands.Height.HasValue || Moved(was.Height ?? 0, stands.Height ?? 0)) return false;
        }

        return true;
    }

    private static bool Moved(double was, double stands) => Math.Abs(was - stands) > ReleasedMove;

    /// <summary>Covered prevails over held (it can no longer be seen), held over complete, complete over open.</summary>
    private static void Cut(
        Run run, List<Stretch>? held, List<Stretch> complete, List<int> lapsed, List<Stretch>? covered, ImmutableArray<Hold>.Builder into)
    {
        var length = run.PlanLength;
        var cuts = new SortedSet<double> { 0, length };
        foreach (var stretch in (held ?? []).Concat(complete).Concat(covered ?? []))
        {
            cuts.Add(Math.Clamp(stretch.From, 0, length));
            cuts.Add(Math.Clamp(stretch.To, 0, length));
        }

        var edges = cuts.ToArray();
        if (edges.Length == 1) edges = [0, length]; // a run of one place still has a state
        var (first, lapsedThere) = (into.Count, lapsed.ToImmutableArray());
        var (holding, covering, completing) = (new Touching(held, edges), new Touching(covered, edges), new Touching(complete, edges));
        for (var i = 0; i + 1 < edges.Length; i++)
        {
            var (from, to) = (edges[i], edges[i + 1]);
            holding.Next();
            covering.Next();
            completing.Next();
            var (by, entry) = (holding.Sources, covering.LastSource);
            var state = HoldState.Open;
            if (entry is not null) state = HoldState.Covered;
            else if (by.Length > 0) state = HoldState.Held;
            else if ((entry = completing.LastSource) is not null) state = HoldState.Complete;
            var hold = new Hold(run.Number, from, to, state, by, lapsedThere, entry ?? 0);
            if (into.Count > first && Alike(into[^1], hold)) into[^1] = into[^1] with { To = to };
            else into.Add(hold);
        }
    }

    private static bool Alike(Hold a, Hold b) => a.State == b.State && a.Entry == b.Entry && a.By.AsSpan().SequenceEqual(b.By.AsSpan());

    private static List<T> Of<T>(Dictionary<int, List<T>> lists, int key)
    {
        if (!lists.TryGetValue(key, out var list)) lists[key] = list = [];
        return list;
    }
}
