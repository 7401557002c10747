namespace Aslaid.Tests;

public sealed class MeetTests
{
    private const double Tolerance = 1e-6; // m

    private static readonly Gen<Straight> Straights = Gen.Select(ArcGen.Place(40), ArcGen.Place(40), (a, b) => new Straight(a, b));

    private static readonly Gen<Arc> Arcs = Gen.Select(ArcGen.Place(40), Gen.Double[2, 40], Gen.Double[0, double.Tau], Gen.Double[0.3, 6], Gen.Bool,
        (centre, radius, start, sweep, left) => new ArcGen.Truth(centre, radius, start, sweep, left ? Turn.Left : Turn.Right).Arc);

    [Fact]
    public void Intersect_AnyTwo_IsSymmetricAndOnBoth() => Gen.Select(Straights, Straights, Arcs, Arcs).Sample((s1, s2, a1, a2) =>
    {
        Point2[] at = new Point2[Meet.Most], back = new Point2[Meet.Most];
        Same(Meet.Intersect(s1, s2, Tolerance, at), Meet.Intersect(s2, s1, Tolerance, back), p => s1.Locate(p).Distance, p => s2.Locate(p).Distance);
        Same(Meet.Intersect(s1, a2, Tolerance, at), Meet.Intersect(a2, s1, Tolerance, back), p => s1.Locate(p).Distance, p => a2.Locate(p).Distance);
        Same(Meet.Intersect(a1, a2, Tolerance, at), Meet.Intersect(a2, a1, Tolerance, back), p => a1.Locate(p).Distance, p => a2.Locate(p).Distance);

        void Same(int count, int other, Func<Point2, double> toFirst, Func<Point2, double> toSecond)
        {
            Assert.Equal(count, other);
            for (var i = 0; i < count; i++)
            {
                Assert.Contains(back.Take(count), p => p.DistanceTo(at[i]) < 2 * Tolerance);
                Assert.InRange(toFirst(at[i]), 0, 2 * Tolerance);
                Assert.InRange(toSecond(at[i]), 0, 2 * Tolerance);
            }
        }
    });

    [Fact]
    public void Intersect_WalkedAlong_FindsEveryChangeOfSide() => Gen.Select(Straights, Arcs, Arcs).Sample((s, a, b) =>
    {
        // Where a walk along one piece changes the side of the other's circle or line within it, they must meet there.
        var at = new Point2[Meet.Most];
        Seek(Meet.Intersect(s, a, Tolerance, at), f => s.PointAt(f * s.PlanLength), s.PlanLength, a);
        Seek(Meet.Intersect(b, a, Tolerance, at), f => b.PointAt(f * b.PlanLength), b.PlanLength, a);

        void Seek(int count, Func<double, Point2> walk, double length, Arc other)
        {
            const int steps = 400;
            for (var i = 0; i < steps; i++)
            {
                Locus here = other.Locate(walk(i / (double)steps)), next = other.Locate(walk((i + 1) / (double)steps));
                var within = here.Along > 1 && here.Along < other.PlanLength - 1 && next.Along > 1 && next.Along < other.PlanLength - 1;
                if (within && here.Distance is > Tolerance and < 1 && next.Distance is > Tolerance and < 1 && here.Offset * next.Offset < 0)
                    Assert.Contains(at.Take(count), p => p.DistanceTo(walk((i + 0.5) / steps)) < length / steps);
            }
        }
    });

    [Fact]
    public void Nearest_AnyTwo_IsNoFartherThanAnyPair() => Gen.Select(Straights, Arcs, Arcs, Gen.Double[0, 1], Gen.Double[0, 1]).Sample((s, a, b, f, g) =>
    {
        Judge(Meet.Nearest(s, a), Meet.Nearest(a, s), s.PointAt(f * s.PlanLength), a.PointAt(g * a.PlanLength), s.Locate, a.Locate);
        Judge(Meet.Nearest(a, b), Meet.Nearest(b, a), a.PointAt(f * a.PlanLength), b.PointAt(g * b.PlanLength), a.Locate, b.Locate);

        static void Judge(Nearness there, Nearness back, Point2 first, Point2 second, Func<Point2, Locus> onFirst, Func<Point2, Locus> onSecond)
        {
            Assert.Equal(there.Distance, back.Distance, 1e-7);
            Assert.Equal(there.Distance, there.First.DistanceTo(there.Second), 1e-7);
            Assert.InRange(onFirst(there.First).Distance, 0, 1e-7);
            Assert.InRange(onSecond(there.Second).Distance, 0, 1e-7);
            Assert.True(there.Distance <= first.DistanceTo(second) + 1e-7);
            // It is a pair of feet: from either place the other is nearest.
            Assert.Equal(there.Distance, onSecond(there.First).Distance, 1e-7);
            Assert.Equal(there.Distance, onFirst(there.Second).Distance, 1e-7);
        }
    });

    [Fact]
    public void Nearest_WalkedAlong_IsTheLeastDistance() => Gen.Select(Arcs, Arcs).Sample((a, b) =>
    {
        var least = Enumerable.Range(0, 1001).Min(i => b.Locate(a.PointAt(i / 1000.0 * a.PlanLength)).Distance);
        var found = Meet.Nearest(a, b).Distance;
        Assert.InRange(found, 0, least + 1e-7);
        Assert.InRange(least - found, -1e-7, a.PlanLength / 1000);
    }, iter: 60);

    [Theory]
    [InlineData(0.0, 1)]
    [InlineData(5e-7, 1)]
    [InlineData(-5e-7, 2)] // crossings 4 mm apart are two, though the arc leaves the line by half a tolerance
    [InlineData(2e-6, 0)]
    public void Intersect_Tangent_TouchesWithinTheTolerance(double gap, int expected)
    {
        var t = new ArcGen.Truth(ArcGen.Site, 8, 0, 3, Turn.Left);
        var top = ArcGen.Site + new Step(0, 8 + gap);
        var at = new Point2[Meet.Most];
        Assert.Equal(expected, Meet.Intersect(t.Arc, new Straight(top + new Step(-3, 0), top + new Step(3, 0)), Tolerance, at));
        if (expected == 1) Assert.InRange(at[0].DistanceTo(top), 0, 1e-4);
    }

    [Theory]
    [InlineData(15.0, 1)]
    [InlineData(15.0000005, 1)]
    [InlineData(15.00001, 0)]
    [InlineData(1.0, 1)] // inside
    public void Intersect_TouchingCircles_MeetOnce(double apart, int expected)
    {
        Arc.TryFullCircle(ArcGen.Site + new Step(8, 0), ArcGen.Site + new Step(0, 8), ArcGen.Site + new Step(-8, 0), 0, out var a, out _);
        var centre = ArcGen.Site + new Step(apart, 0);
        Arc.TryFullCircle(centre + new Step(7, 0), centre + new Step(0, 7), centre + new Step(-7, 0), 0, out var b, out _);
        var at = new Point2[Meet.Most];
        Assert.Equal(expected, Meet.Intersect(a, b, Tolerance, at));
        if (expected == 1) Assert.InRange(at[0].DistanceTo(ArcGen.Site + new Step(8, 0)), 0, 1e-3);
    }

    [Fact]
    public void Intersect_PiecesThatShareAStretch_MeetAtItsEnds()
    {
        var a = ArcGen.Site;
        var at = new Point2[Meet.Most];
        Assert.Equal(2, Meet.Intersect(new Straight(a, a + new Step(10, 0)), new Straight(a + new Step(14, 0), a + new Step(6, 0)), Tolerance, at));
        Assert.Equal([a + new Step(6, 0), a + new Step(10, 0)], at.Take(2));
        var t = new ArcGen.Truth(a, 10, 0, 2, Turn.Left);
        Assert.Equal(2, Meet.Intersect(t.Arc, (t with { Start = 1 }).Arc, Tolerance, at));
        Assert.InRange(at[0].DistanceTo(t.At(0.5)), 0, 1e-7);
        Assert.Equal(t.At(1), at[1]);
    }

    [Fact]
    public void PathNearest_AnyTwo_AgreesWithAWalk() => Gen.Select(PathTests.Paths, PathTests.Paths).Sample((a, b) =>
    {
        var found = a.Nearest(b);
        var back = b.Nearest(a);
        Assert.Equal(found.Distance, back.Distance, 1e-7);
        Assert.Equal(found.Distance, a.PointAt(found.Here).DistanceTo(b.PointAt(found.There)), 1e-6);
        var least = Enumerable.Range(0, 1001).Min(i => b.Locate(a.PointAt(i / 1000.0 * a.PlanLength)).Distance);
        Assert.InRange(found.Distance, Math.Max(0, least - a.PlanLength / 1000), least + 1e-7);
        Assert.Equal(found.Distance < 1e-7, a.Intersections(b, 1e-7).Length > 0);
    }, iter: 40);

    [Fact]
    public void PathIntersections_AnyTwo_AreSymmetricAndInOrder() => Gen.Select(PathTests.Paths, PathTests.Paths).Sample((a, b) =>
    {
        var there = a.Intersections(b, Tolerance);
        var back = b.Intersections(a, Tolerance);
        Assert.Equal(there.Length, back.Length);
        Assert.Equal(there.OrderBy(m => m.Here), there);
        foreach (var m in there)
        {
            Assert.InRange(a.PointAt(m.Here).DistanceTo(m.At), 0, 1e-5);
            Assert.InRange(b.PointAt(m.There).DistanceTo(m.At), 0, 1e-5);
        }
    });
}
