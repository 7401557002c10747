namespace Aslaid.Tests;

public sealed class IndexTests
{
    private static readonly Gen<Box2[]> Boxes = Gen.Select(ArcGen.Place(100), Gen.Double[0, 8], Gen.Double[0, 8], (at, wide, high) => new Box2(at.East, at.North, at.East + wide, at.North + high)).Array[0, 400];

    /// <summary>Places on a coarse raster: many alike, many at one distance.</summary>
    private static readonly Gen<Point2[]> Places = Gen.Select(Gen.Int[-20, 20], Gen.Int[-20, 20], (e, n) => ArcGen.Site + new Step(e, n)).Array[0, 600];

    [Fact]
    public void BoxQuery_AnyBoxes_EqualsLookingAtAll() => Gen.Select(Boxes, ArcGen.Place(100), ArcGen.Place(100)).Sample((boxes, a, b) =>
    {
        var wanted = Box2.Of(a, b);
        var found = new List<int> { -7 }; // what was there stays
        BoxIndex.Of(boxes).Query(wanted, found);
        Assert.Equal([-7, .. Enumerable.Range(0, boxes.Length).Where(i => boxes[i].Intersects(wanted))], found);
    });

    [Fact]
    public void BoxNear_AnyBoxes_EqualsLookingAtAll() => Gen.Select(Boxes, ArcGen.Place(120), Gen.Double[0, 60]).Sample((boxes, place, radius) =>
    {
        var found = new List<int>();
        var index = BoxIndex.Of(boxes);
        index.Near(place, radius, found);
        Assert.Equal(Enumerable.Range(0, boxes.Length).Where(i => boxes[i].DistanceTo(place) <= radius), found);
        var nearest = index.Nearest(place, out var distance);
        Assert.Equal(boxes.Length == 0 ? double.PositiveInfinity : boxes.Min(x => x.DistanceTo(place)), distance);
        Assert.Equal(Array.FindIndex(boxes, x => x.DistanceTo(place) == distance), nearest);
    });

    [Fact]
    public void PointIndex_AnyPlaces_EqualsLookingAtAll() => Gen.Select(Places, ArcGen.Place(30), Gen.Double[0, 15], Gen.Int[-1, 5]).Sample((places, place, radius, except) =>
    {
        var index = PointIndex.Of([.. places.Select(p => p.East)], [.. places.Select(p => p.North)]);
        var found = new List<int>();
        index.Near(place, radius, found);
        Assert.Equal(Enumerable.Range(0, places.Length).Where(i => places[i].DistanceTo(place) <= radius), found);
        found.Clear();
        var box = Box2.Of(place, place + new Step(radius, 5));
        index.Query(box, found);
        Assert.Equal(Enumerable.Range(0, places.Length).Where(i => box.Contains(places[i])), found);

        var others = Enumerable.Range(0, places.Length).Where(i => i != except).ToArray();
        var nearest = index.Nearest(place, out var distance, except);
        var least = others.Length == 0 ? double.PositiveInfinity : others.Min(i => places[i].DistanceTo(place));
        Assert.Equal(least, distance, 1e-12);
        Assert.Equal(others.Length == 0 ? -1 : others.MinBy(i => (places[i] - place).SizeSquared), nearest);
    });

    [Fact]
    public void PointIndex_FarAndFewAndInLine_StillFindsAll()
    {
        double[] east = [512_000, 512_000, 512_000, 9_000_000], north = [6_243_000, 6_243_001, 6_243_001, 6_243_000];
        var index = PointIndex.Of(east, north);
        var found = new List<int>();
        index.Near(new(512_000, 6_243_000), 1, found);
        Assert.Equal([0, 1, 2], found);
        Assert.Equal(1, index.Nearest(new(512_000, 6_243_002), out var distance));
        Assert.Equal(1, distance);
        Assert.Equal(-1, PointIndex.Of([], []).Nearest(default, out _));
        Assert.Throws<ArgumentException>(() => PointIndex.Of([1], [1, 2]));
        Assert.Throws<ArgumentException>(() => PointIndex.Of([double.NaN], [1]));
    }

    [Fact]
    public void BoxIndex_EmptyBoxes_AreNeverFound()
    {
        var index = BoxIndex.Of([Box2.Empty, new(0, 0, 1, 1), Box2.Empty]);
        var found = new List<int>();
        index.Query(new(-10, -10, 10, 10), found);
        Assert.Equal([1], found);
        Assert.Equal(1, index.Nearest(new(5, 1), out var distance));
        Assert.Equal(4, distance);
        Assert.Equal(-1, BoxIndex.Of([Box2.Empty]).Nearest(default, out _));
        Assert.Equal(Box2.Empty, BoxIndex.Of([]).Box);
    }

    [Fact]
    public void Chords_LimitAndCount_AreTwoFacesOfOneFormula() => Gen.Select(Gen.Double[0.5, 500], Gen.Double[0.001, 0.4], Gen.Double[0.01, 6.28]).Sample((radius, sagitta, sweep) =>
    {
        var half = Chords.Limit(radius, sagitta) / 2;
        Assert.Equal(sagitta, radius - Math.Sqrt(radius * radius - half * half), 1e-9 * (1 + radius * radius));
        var count = Chords.Count(radius, sweep, sagitta);
        Assert.True(radius * (1 - Math.Cos(sweep / count / 2)) <= sagitta * (1 + 1e-9));
        Assert.True(count == 1 || radius * (1 - Math.Cos(Math.Min(sweep / (count - 1), double.Tau) / 2)) > sagitta * (1 - 1e-9) || sweep / (count - 1) > Math.PI);
    });
}
