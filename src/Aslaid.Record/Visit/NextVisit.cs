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
            if (IsForTheField(finding) && !(finding.Under is { } leader && IsForTheField(leader) && Urgency(leader) >= Urgency(finding))) findings.Add(finding);
        }

        var stops = ImmutableArray.CreateBuilder<VisitStop>(findings.Count);
        if (findings.Count == 0) return stops.ToImmutable();
        var here = record.Inputs.Control.IsEmpty
            ? findings.MinBy(finding => finding.At.East).At
            : record.Inputs.Control[0].At;
        Point2? before = null;
        var covered = Covered(record);
        var paths = new Dictionary<int, Path>();
        foreach (var tour in findings.GroupBy(finding => finding.Reshoot == Reshoot.Open).OrderByDescending(tour => tour.Key))
        {
            var places = tour.ToArray();
            var left = new NearestLeft(Array.ConvertAll(places, finding => finding.At));
            while (left.Take(here) is >= 0 and var place)
            {
                var next = places[place];
                here = next.At;
                var walk = before is { } from ? Distance(from, here) : 0;
                stops.Add(new(stops.Count + 1, next, here, next.AtHeight, walk, Way(record, next, before, paths), covered.Contains((next.RunNumber, next.Number))));
                before = here;
            }
        }

        return stops.ToImmutable();
    }

    private static bool IsForTheField(Finding finding) =>
        finding.State != FindingState.Accepted && finding.Severity != Severity.Note && finding.Reshoot is Reshoot.Open or Reshoot.Any;

    /// <summary>A consequence is left to the finding that leads it only where that one sends the crew out no later.</summary>
    private static int Urgency(Finding finding) => finding.Reshoot == Reshoot.Open ? 1 : 0;

    /// <summary>Runs and the findings in force on lengths of them that have been covered meanwhile.</summary>
    private static HashSet<(int Run, int Finding)> Covered(AsBuiltRecord record)
    {
        var covered = new HashSet<(int, int)>();
        foreach (var hold in record.Holds)
        {
            if (hold.State != HoldState.Covered) continue;
            foreach (var finding in hold.By) covered.Add((hold.Run, finding));
        }

        return covered;
    }

    private static double Distance(Point2 a, Point2 b) => double.Hypot(b.East - a.East, b.North - a.North);

    /// <summary>As "From 104 walk 6.2 m along WM-1 (bearing 83°)".</summary>
    /// <param name="paths">Paths made so far, by run.</param>
    private static string Way(AsBuiltRecord record, Finding finding, Point2? before, Dictionary<int, Path> paths)
    {
        var invariant = CultureInfo.InvariantCulture;
        if (finding.Run is { } run && finding.From is not null && run.PieceCount > 0)
        {
            if (!paths.TryGetValue(run.Number, out var path)) paths[run.Number] = path = run.Path;
            var along = path.Locate(finding.At).Along;
            var member = run.MemberAt(along);
            var walk = along - run.Chainages[member];
            var id = record.Shots.Raw.Id(run.Members[member]);
            return walk < 0.05 ? $"At {id} on {run.Label}." : string.Create(invariant, $"From {id} walk {walk:0.0} m along {run.Label}.");
        }

        var shot = record.Shots.Raw.Id(finding.Shots[0]);
        if (before is not { } start || Distance(start, finding.At) < 0.5) return $"At {shot}.";
        var bearing = Bearing.Of(start, finding.At);
        return string.Create(invariant, $"Walk {Distance(start, finding.At):0} m on bearing {bearing.Degrees:0}° to {shot}.");
    }
}
