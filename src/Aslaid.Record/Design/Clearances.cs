using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How two runs come near each other.</summary>
public enum ClearanceKind : byte
{
    /// <summary>One crosses the other in plan.</summary>
    Crossing,

    /// <summary>They run side by side.</summary>
    Alongside,

    /// <summary>One comes near without crossing and without running beside.</summary>
    Approach,
}

/// <summary>The clear distance between two runs at one place.</summary>
/// <param name="One">Number of the one run; where they cross, the upper.</param>
/// <param name="Other">Number of the other.</param>
/// <param name="At">The place on the one.</param>
/// <param name="Chainage">Metres along the one.</param>
/// <param name="OtherChainage">Metres along the other.</param>
/// <param name="Plan">Clear distance in plan, metres, outside to outside; negative where they overlap in plan.</param>
/// <param name="Vertical">Underside of the upper less top of the lower, metres; null where a height or a size is not known.</param>
/// <param name="Space">Clear distance in space, metres; null likewise.</param>
/// <param name="Judgement">What the rule judges, against its limit.</param>
public sealed record Clearance(ClearanceKind Kind, int One, int Other, Point2 At, double Chainage, double OtherChainage, double Plan, double? Vertical, double? Space, SeparationRule Rule, Judgement Judgement);

/// <summary>
/// Clear distances between runs of services for which there is a rule: at every crossing, at the nearest place alongside, at the nearest
/// approach. Arcs count as arcs. Runs of which one lies in the other, and runs of one bank, may touch.
/// </summary>
public sealed class Clearances
{
    /// <summary>Runs whose headings differ by less lie alongside, radians (DEFAULT: 30°).</summary>
    private const double Along = Math.PI / 6;

    /// <summary>Metres from a crossing within which nothing but the crossing is judged (DEFAULT).</summary>
    private const double AtCrossing = 2;

    private readonly Site site;
    private readonly CoverAlong covers;
    private readonly Dictionary<int, Path> paths = [];

    internal Clearances(Site site)
    {
        (this.site, covers) = (site, new(site));
        var found = ImmutableArray.CreateBuilder<Clearance>();
        widest = site.Shots.Book.Entries.Max(entry => (double?)Math.Max(entry.OutsideDiameter ?? 0, entry.Width ?? 0)) ?? 0;
        var (owners, boxes, firsts) = (new List<int>(), new List<Box2>(), new List<int>());
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (!Counts(run)) continue;
            firsts.Add(boxes.Count);
            for (var piece = 0; piece < run.PieceCount; piece++)
            {
                owners.Add(number);
                boxes.Add(BoxOf(run.Piece(piece)));
            }
        }

        firsts.Add(boxes.Count);
        var (index, near, seen) = (BoxIndex.Of(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(boxes)), new List<int>(), new int[site.Runs.Count]);
        for (var place = 0; place + 1 < firsts.Count; place++)
        {
            var (number, others) = (owners[firsts[place]], new SortedSet<int>());
            for (var piece = firsts[place]; piece < firsts[place + 1]; piece++)
            {
                near.Clear();
                index.Query(boxes[piece].Grow(Reach), near);
                foreach (var one in near)
                {
                    if (owners[one] <= number || seen[owners[one]] == number + 1) continue;
                    seen[owners[one]] = number + 1;
                    others.Add(owners[one]);
                }
            }

            var run = site.Runs[number];
            foreach (var other in others)
                if (site.Separation.Find(run.Entry?.Service, site.Runs[other].Entry?.Service) is { } rule && !site.Relations.MayTouch(number, other) && !Share(run, site.Runs[other])) Of(number, other, rule, found);
        }

        All = found.ToImmutable();
    }

    /// <summary>Metres more than the least up to which clear distances are told.</summary>
    private const double Told = 0.5;

    private readonly double widest; // of the code book, metres

    /// <summary>How far apart axes may lie and still be asked about, metres.</summary>
    private double Reach => site.Separation.Most + Told + widest;

    /// <summary>By the first run, then the other.</summary>
    public ImmutableArray<Clearance> All { get; }

    private bool Counts(Run run) => site.Separation.Knows(run.Entry?.Service) && IsThere(run);

    private static bool IsThere(Run run) => run.PieceCount > 0 && run.Facts.Status is RunStatus.New or RunStatus.Existing;

    private static Box2 BoxOf(Piece piece) => piece.Kind == PieceKind.Arc ? piece.Arc.Box : piece.Straight.Box;

    /// <summary>Runs that share a shot are joined there.</summary>
    private static bool Share(Run one, Run other)
    {
        var shots = new HashSet<int>(one.MemberCount);
        foreach (var shot in one.Members) shots.Add(shot);
        foreach (var shot in other.Members)
            if (shots.Contains(shot)) return true;
        return false;
    }

    private Path PathOf(int run) => paths.TryGetValue(run, out var path) ? path : paths[run] = site.Runs[run].Path;

    private void Of(int number, int other, SeparationRule rule, ImmutableArray<Clearance>.Builder found)
    {
        var (one, two) = (PathOf(number), PathOf(other));
        if (one.Nearest(two).Distance > Reach) return;
        var crossings = one.Intersections(two, 1e-6);
        if (rule.Crossing is { } atCrossings)
            foreach (var meeting in crossings) found.Add(Crossing(number, other, meeting, rule, atCrossings));
        var places = Places(number, other).FindAll(place => !crossings.Any(meeting => Math.Abs(meeting.Here - place.Here) < AtCrossing));
        if (rule.Alongside is { } alongside && Nearest(places.Where(place => place.Angle < Along), rule.PlanOnly) is { } beside)
        {
            if ((rule.PlanOnly ? beside.Plan : beside.Space ?? beside.Plan) < alongside + Told) found.Add(Made(ClearanceKind.Alongside, number, other, beside, rule, alongside));
        }

        if (rule.Crossing is { } least && crossings.IsEmpty && Nearest(places.Where(place => place.Angle >= Along), false) is { } approach && (approach.Space ?? approach.Plan) < least + Told)
            found.Add(Made(ClearanceKind.Approach, number, other, approach, rule, least));
    }

    private Clearance Crossing(int number, int other, PathMeeting meeting, SeparationRule rule, double least)
    {
        var (one, two) = (site.Runs[number], site.Runs[other]);
        var (high, low) = (At(one, meeting.Here), At(two, meeting.There));
        var (here, there) = (meeting.Here, meeting.There);
        if (low.Centre > high.Centre) (one, two, high, low, here, there) = (two, one, low, high, there, here);
        double? gap = high.Under - low.Top;
        var measure = gap is null ? null : Measures.Gap(one, two, new(meeting.At, here, there), 0);
        return new(ClearanceKind.Crossing, one.Number, two.Number, meeting.At, here, there, -(high.HalfWidth + low.HalfWidth), gap, gap, rule,
            Judgement.OfTolerance(gap, measure?.U(site.Shots), Limits.AtLeast(least), site.Settings.GuardBand));
    }

    private Clearance Made(ClearanceKind kind, int number, int other, in Place place, SeparationRule rule, double least)
    {
        var value = kind == ClearanceKind.Alongside && rule.PlanOnly ? place.Plan : place.Space;
        return new(kind, number, other, place.At, place.Here, place.There, place.Plan, place.Vertical, place.Space, rule,
            Judgement.OfTolerance(value, U(site.Runs[number], site.Runs[other], place), Limits.AtLeast(least), site.Settings.GuardBand));
    }

    /// <summary>dd = n·(dF₂ − dF₁), n the unit vector in space from the one foot to the other.</summary>
    private double? U(Run one, Run two, in Place place)
    {
        var (here, there) = (RunPlace.AtChainage(one, place.Here), RunPlace.AtChainage(two, place.There));
        var (plan, rise) = (there.At - here.At, place.Rise ?? 0);
        var whole = Math.Sqrt(plan.SizeSquared + rise * rise);
        if (whole == 0) return null;
        var sum = new GradientSum();
        there.Add(sum, 1 / whole * plan);
        here.Add(sum, -1 / whole * plan);
        if (place.Rise is not null && here.HasHeight && there.HasHeight)
        {
            there.AddHeight(sum, rise / whole);
            here.AddHeight(sum, -rise / whole);
        }

        return sum.Of(whole).U(site.Shots);
    }

    /// <summary>Places at which the distance may be least: at the vertices of either, and where they come nearest in plan.</summary>
    private List<Place> Places(int number, int other)
    {
        var (one, two, places, reach) = (PathOf(number), PathOf(other), new List<Place>(), Reach);
        var box = two.Box.Grow(reach);
        foreach (var chainage in one.Chainages)
            if (box.Contains(one.PointAt(chainage))) Add(chainage);
        box = one.Box.Grow(reach);
        foreach (var vertex in two.Vertices)
            if (box.Contains(vertex.At)) Add(one.Locate(vertex.At).Along);
        Add(one.Nearest(two).Here);
        return places;

        void Add(double chainage)
        {
            var place = Between(number, other, chainage);
            if (place.Apart <= reach) places.Add(place);
        }
    }

    /// <summary>The nearest of some places.</summary>
    private static Place? Nearest(IEnumerable<Place> places, bool inPlan)
    {
        Place? best = null;
        foreach (var place in places)
            if (best is null || Value(place) < Value(best.Value)) best = place;
        return best;

        double Value(in Place place) => inPlan ? place.Plan : place.Space ?? place.Plan;
    }

    private Place Between(int number, int other, double chainage)
    {
        var (one, two) = (PathOf(number), PathOf(other));
        var at = one.PointAt(chainage);
        var beside = two.Locate(at);
        var (here, there) = (At(site.Runs[number], chainage), At(site.Runs[other], beside.Along));
        var angle = Math.Abs(one.BearingAt(chainage).To(two.BearingAt(beside.Along)));
        if (angle > Math.PI / 2) angle = Math.PI - angle;
        var plan = beside.Distance - here.HalfWidth - there.HalfWidth;
        var rise = there.Centre - here.Centre;
        double? vertical = rise is null ? null : rise > 0 ? there.Under - here.Top : here.Under - there.Top;
        double? space = vertical is not { } v ? null
            : here.IsRound && there.IsRound ? Math.Sqrt(beside.Distance * beside.Distance + rise!.Value * rise.Value) - here.HalfWidth - there.HalfWidth
            : plan <= 0 && v <= 0 ? Math.Max(plan, v)
            : double.Hypot(Math.Max(0, plan), Math.Max(0, v));
        return new(at, chainage, beside.Along, beside.Distance, plan, vertical, space, rise, angle);
    }

    /// <summary>Levels and half the width of a run at a chainage, metres.</summary>
    private Section At(Run run, double chainage)
    {
        var member = run.MemberAt(chainage);
        var (up, down) = covers.Sizes(run, member);
        var height = PathOf(run.Number).HeightAt(chainage);
        var (top, under) = (height + up, height + down);
        var entry = run.Entry!;
        var half = (entry.OutsideDiameter ?? entry.Width ?? 0) / 2;
        return new(top, under, (top + under) / 2, half, entry.OutsideDiameter is not null);
    }

    private readonly record struct Section(double? Top, double? Under, double? Centre, double HalfWidth, bool IsRound);

    private readonly record struct Place(Point2 At, double Here, double There, double Apart, double Plan, double? Vertical, double? Space, double? Rise, double Angle);
}
