using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>One place to go to on the next visit.</summary>
/// <param name="Order">From 1, in walking order.</param>
/// <param name="Finding">The finding that it answers.</param>
/// <param name="Place">Where to stand, metres.</param>
/// <param name="Height">Height there, metres; null where unknown.</param>
/// <param name="Walk">Metres in a straight line from the place before; 0 for the first.</param>
/// <param name="Way">The way there in words, from a shot the crew can find again.</param>
/// <param name="IsCovered">It was covered before it was shot.</param>
public sealed record VisitStop(int Order, Finding Finding, Point2 Place, double? Height, double Walk, string Way, bool IsCovered)
{
    /// <summary>What to do there, one sentence or two.</summary>
    public string Sentence => $"{Way} {(IsCovered ? "Covered meanwhile: have it exposed by safe means, or state a lesser class. " : "")}{Finding.Cure} ({Finding.Message})";
}

/// <summary>All that only another visit can cure, in walking order: first what must be shot while the trench is open, then the rest.</summary>
public static class NextVisit
{
    /// <summary>Places in walking order, twice: from the place nearest to the first control point (else the westernmost), each time to the nearest one left.</summary>
    public static ImmutableArray<VisitStop> Plan(AsBuiltRecord record)
    {
        var findings = new List<Finding>();
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            if (finding.State != FindingState.Accepted && finding.Severity != Severity.Note && finding.Reshoot is Reshoot.Open or Reshoot.Any) findings.Add(finding);
        }

        var stops = ImmutableArray.CreateBuilder<VisitStop>(findings.Count);
        if (findings.Count == 0) return stops.ToImmutable();
        var here = record.Inputs.Control.IsEmpty
            ? findings.MinBy(finding => finding.At.East).At
            : record.Inputs.Control[0].At;
        Point2? before = null;
        foreach (var tour in findings.GroupBy(finding => finding.Reshoot == Reshoot.Open).OrderByDescending(tour => tour.Key))
        {
            var left = new NearestLeft([.. tour]);
            while (left.Take(here) is { } next)
            {
                here = next.At;
                var walk = before is { } from ? Distance(from, here) : 0;
                stops.Add(new(stops.Count + 1, next, here, next.AtHeight, walk, Way(record, next, before), IsCovered(record, next)));
                before = here;
            }
        }

        return stops.ToImmutable();
    }

    /// <summary>Whether the place that it concerns has been covered meanwhile.</summary>
    private static bool IsCovered(AsBuiltRecord record, Finding finding) =>
        finding.RunNumber >= 0 && record.HoldsOf(finding.RunNumber).Any(hold => hold.State == HoldState.Covered && hold.By.Contains(finding.Number));

    private static double Distance(Point2 a, Point2 b) => double.Hypot(b.East - a.East, b.North - a.North);

    /// <summary>As "From 104 walk 6.2 m along WM-1 (bearing 83°)".</summary>
    private static string Way(AsBuiltRecord record, Finding finding, Point2? before)
    {
        var invariant = CultureInfo.InvariantCulture;
        if (finding.Run is { } run && finding.From is not null && run.PieceCount > 0)
        {
            var along = run.Path.Locate(finding.At).Along;
            var member = 0;
            while (member + 1 < run.MemberCount && run.Chainages[member + 1] <= along) member++;
            var walk = along - run.Chainages[member];
            var id = record.Shots.Raw.Id(run.Members[member]);
            return walk < 0.05 ? $"At {id} on {run.Label}." : string.Create(invariant, $"From {id} walk {walk:0.0} m along {run.Label}.");
        }

        var shot = record.Shots.Raw.Id(finding.Shots[0]);
        if (before is not { } start || Distance(start, finding.At) < 0.5) return $"At {shot}.";
        var bearing = Bearing.Of(start, finding.At);
        return string.Create(invariant, $"Walk {Distance(start, finding.At):0} m on bearing {bearing.Degrees:0}° to {shot}.");
    }

    /// <summary>The places not yet visited, in cells of a grid, searched ring by ring.</summary>
    private sealed class NearestLeft
    {
        private readonly Dictionary<(int, int), List<Finding>> cells = [];
        private readonly double cell;
        private int left;
        private readonly (int MinE, int MaxE, int MinN, int MaxN) reach;

        public NearestLeft(List<Finding> findings)
        {
            var box = findings.Aggregate(Box2.Empty, (b, f) => b.Union(Box2.Of(f.At, f.At)));
            cell = Math.Max(1, Math.Max(box.MaxEast - box.MinEast, box.MaxNorth - box.MinNorth) / Math.Sqrt(findings.Count));
            foreach (var finding in findings)
            {
                var key = Key(finding.At);
                if (!cells.TryGetValue(key, out var list)) cells[key] = list = [];
                list.Add(finding);
            }

            left = findings.Count;
            reach = (cells.Keys.Min(k => k.Item1), cells.Keys.Max(k => k.Item1), cells.Keys.Min(k => k.Item2), cells.Keys.Max(k => k.Item2));
        }

        private (int, int) Key(Point2 at) => ((int)Math.Floor(at.East / cell), (int)Math.Floor(at.North / cell));

        public Finding? Take(Point2 here)
        {
            if (left == 0) return null;
            var (e, n) = Key(here);
            Finding? best = null;
            (int, int) bestCell = default;
            var least = double.PositiveInfinity;
            for (var ring = 0; best is null || (ring - 1) * cell <= least; ring++)
            {
                foreach (var key in Ring(e, n, ring))
                {
                    foreach (var finding in cells.GetValueOrDefault(key) ?? [])
                    {
                        var distance = Distance(here, finding.At);
                        if (distance >= least) continue;
                        (best, bestCell, least) = (finding, key, distance);
                    }
                }

                if (best is null && ring == 0) ring = Math.Max(0, ToReach(e, n) - 1); // start where there are places at all
                if (ring > ToFarthest(e, n)) break;
            }

            var list = cells[bestCell];
            list.Remove(best!.Value);
            if (list.Count == 0) cells.Remove(bestCell);
            left--;
            return best;
        }

        private int ToReach(int e, int n) => Math.Max(
            Math.Max(reach.MinE - e, e - reach.MaxE), Math.Max(reach.MinN - n, n - reach.MaxN));

        private int ToFarthest(int e, int n) => Math.Max(
            Math.Max(Math.Abs(reach.MinE - e), Math.Abs(e - reach.MaxE)), Math.Max(Math.Abs(reach.MinN - n), Math.Abs(n - reach.MaxN)));

        private static IEnumerable<(int, int)> Ring(int e, int n, int ring)
        {
            if (ring == 0)
            {
                yield return (e, n);
                yield break;
            }

            for (var i = -ring; i <= ring; i++)
            {
                yield return (e + i, n - ring);
                yield return (e + i, n + ring);
            }

            for (var i = -ring + 1; i < ring; i++)
            {
                yield return (e - ring, n + i);
                yield return (e + ring, n + i);
            }
        }
    }
}
