using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class NearestLeftTests
{
    /// <summary>Places on a coarse lattice (many in one place, many equally near), some anywhere, some on another continent.</summary>
    private static readonly Gen<Point2[]> Places = Gen.OneOf(
        Gen.Select(Gen.Int[0, 4], Gen.Int[0, 4], (e, n) => new Point2(512_000 + e, 6_243_000 + n)),
        Gen.Select(Gen.Double[0, 100], Gen.Double[0, 1], (e, n) => new Point2(512_000 + e, 6_243_000 + n)),
        Gen.Const(new Point2(-3_000_000, 100_000))).Array[0, 80];

    [Fact]
    public void Take_UntilNoneIsLeft_IsTheSameAsLookingAtAll() => Places.Sample(places =>
    {
        var (left, open) = (new NearestLeft(places), Enumerable.Range(0, places.Length).ToList());
        var here = new Point2(512_002, 6_243_002);
        while (open.Count > 0)
        {
            var expected = open.MinBy(place => Math.Sqrt((here - places[place]).SizeSquared));
            Assert.Equal(expected, left.Take(here));
            open.Remove(expected);
            here = places[expected];
        }

        Assert.Equal(-1, left.Take(here));
    });
}
