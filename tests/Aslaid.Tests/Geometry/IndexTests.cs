namespace Aslaid.Tests;

public sealed class IndexTests
{
    private static readonly Gen<Box2[]> Boxes = Gen.Select(ArcGen.Place(100), Gen.Double[0, 8], Gen.Double[0, 8], (at, wide, high) => new Box2(at.East, at.North, at.East + wide, at.North + high)).Array[0, 400];


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
