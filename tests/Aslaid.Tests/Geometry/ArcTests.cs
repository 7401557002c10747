namespace Aslaid.Tests;

public sealed class ArcTests
{
    private const double Flatness = 1e-4; // m: a tenth of the last digit a rover shows

    [Fact]
    public void Through_PlacesOfAKnownArc_FindsIt() => Gen.Select(ArcGen.Truths, Gen.Double[0.2, 0.8]).Sample((t, f) =>
    {
        var arc = Arc.Through(t.At(0), t.At(f), t.At(1), 1e-6);
        // Places are rounded to 1 nm; the radius feels that by R/sagitta, and some more off the middle.
        var rounding = 2e-8 * (1 + t.Radius / t.Sagitta);
        Assert.Equal(t.Turn, arc.Turn);
        Assert.Equal(t.Radius, arc.Radius, rounding);
        Assert.Equal(t.Sweep, arc.Sweep, rounding / t.Radius * 10);
        Assert.InRange(arc.Centre.DistanceTo(t.Centre), 0, rounding);
        Assert.Equal(t.Radius * t.Sweep, arc.PlanLength, 1e-6);
        Assert.Equal(t.At(0), arc.From);
        Assert.Equal(t.At(1), arc.To);
    });

    [Fact]
    public void Through_ReversedPlaces_TurnsTheOtherWay() => ArcGen.Truths.Sample(t =>
    {
        Arc there = Arc.Through(t.At(0), t.At(0.5), t.At(1), 1e-6), back = Arc.Through(t.At(1), t.At(0.5), t.At(0), 1e-6);
        Assert.NotEqual(there.Turn, back.Turn);
        Assert.Equal(there.Sweep, back.Sweep, 1e-9);
        Assert.Equal(there.SegmentArea, -back.SegmentArea, 1e-9 * (1 + t.Radius * t.Radius));
        var reversed = there.Reverse();
        Assert.Equal(there, reversed.Reverse());
        Assert.InRange(reversed.PointAt(0.3 * reversed.PlanLength).DistanceTo(there.PointAt(0.7 * there.PlanLength)), 0, 1e-7);
    });

    [Fact]
    public void Through_ShiftedToAFarOrigin_KeepsItsShape() => ArcGen.Round.Sample(t =>
    {
        var shift = new Step(-512_000, -6_243_000); // whole metres: nothing is rounded on the way to smaller numbers
        var far = t.Arc;
        var near = Arc.Through(far.From + shift, t.At(0.5) + shift, far.To + shift, 1e-6);
        Assert.Equal(far.Radius, near.Radius);
        Assert.Equal(far.Sweep, near.Sweep);
        Assert.Equal(far.SegmentArea, near.SegmentArea);
    });

    [Fact]
    public void Through_PlacesTurnedAQuarter_TurnsItsBearings() => ArcGen.Round.Sample(t =>
    {
        Point2 Quarter(Point2 p) => ArcGen.Site + -1 * (p - ArcGen.Site).Left; // clockwise
        var arc = t.Arc;
        var turned = Arc.Through(Quarter(t.At(0)), Quarter(t.At(0.5)), Quarter(t.At(1)), 1e-6);
        Assert.Equal(arc.Radius, turned.Radius, 1e-8 * (1 + t.Radius / t.Sagitta)); // turned places are rounded anew
        Assert.Equal(Math.PI / 2, arc.BearingAt(1).To(turned.BearingAt(1)), 1e-7);
    });

    [Fact]
    public void Locate_PlaceOnTheArc_ReturnsItsChainage() => Gen.Select(ArcGen.Truths, Gen.Double[0, 1]).Sample((t, f) =>
    {
        var arc = t.Arc;
        var along = f * arc.PlanLength;
        var locus = arc.Locate(arc.PointAt(along));
        Assert.Equal(along, locus.Along, 1e-7);
        Assert.Equal(0, locus.Distance, 1e-7);
        Assert.Equal(f, arc.Fraction(arc.PointAt(along)), 1e-7 / arc.PlanLength * 2);
    });

    [Fact]
    public void Locate_PlaceBesideTheArc_OffsetIsRightPositive() => Gen.Select(ArcGen.Round, Gen.Double[0.05, 0.95], Gen.Double[-0.9, 3]).Sample((t, f, part) =>
    {
        var arc = t.Arc;
        var along = f * arc.PlanLength;
        var offset = t.Sense * part * t.Radius; // outside is right of a left turn
        var place = arc.PointAt(along) + offset * FromLeft(arc.BearingAt(along));
        var locus = arc.Locate(place);
        Assert.Equal(offset, locus.Offset, 1e-7);
        Assert.Equal(Math.Abs(offset), locus.Distance, 1e-7);
        Assert.Equal(along, locus.Along, 1e-6);

        static Step FromLeft(Bearing ahead) => -1 * ahead.Unit.Left;
    });

    [Fact]
    public void Locate_AnyPlace_IsNoFartherThanAnyPointOfTheArc() => Gen.Select(ArcGen.Round, ArcGen.Place(600), Gen.Double[0, 1]).Sample((t, place, f) =>
    {
        var arc = t.Arc;
        var locus = arc.Locate(place);
        Assert.Equal(locus.Distance, place.DistanceTo(locus.Foot), 1e-7);
        Assert.True(locus.Distance <= place.DistanceTo(arc.PointAt(f * arc.PlanLength)) + 1e-7);
    });

    [Fact]
    public void Box_OfAnArc_HoldsEveryPointAndTouchesEverySide() => ArcGen.Round.Sample(t =>
    {
        var arc = t.Arc;
        var walked = Box2.Empty;
        for (var i = 0; i <= 2000; i++) walked = walked.Union(arc.PointAt(arc.PlanLength * i / 2000));
        var box = arc.Box.Grow(1e-7);
        Assert.Equal(box, box.Union(walked));
        var sagitta = t.Radius * Math.Pow(t.Sweep / 4000, 2); // what the walk misses
        Assert.Equal(arc.Box.MinEast, walked.MinEast, sagitta + 1e-7);
        Assert.Equal(arc.Box.MaxEast, walked.MaxEast, sagitta + 1e-7);
        Assert.Equal(arc.Box.MinNorth, walked.MinNorth, sagitta + 1e-7);
        Assert.Equal(arc.Box.MaxNorth, walked.MaxNorth, sagitta + 1e-7);
    }, iter: 30);

    [Fact]
    public void PointAt_Ends_AreTheEndsBitForBit() => ArcGen.Truths.Sample(t =>
    {
        var arc = t.Arc;
        Assert.Equal(arc.From, arc.PointAt(0));
        Assert.Equal(arc.To, arc.PointAt(arc.PlanLength));
        Assert.InRange(arc.PointAt(Math.BitDecrement(arc.PlanLength)).DistanceTo(arc.To), 0, 2e-8 * (1 + t.Radius / t.Sagitta)); // no jump before the end
    });

    [Theory]
    [InlineData(0.0)]
    [InlineData(9e-5)]
    [InlineData(-9e-5)]
    public void TryThrough_FlatterThanTheFlatness_IsStraight(double ordinate)
    {
        var a = ArcGen.Site;
        Assert.False(Arc.TryThrough(a, a + new Step(5, ordinate), a + new Step(10, 0), Flatness, out _, out var fault));
        Assert.Equal(ArcFault.Straight, fault);
    }

    [Theory] // s = 0.2 mm over 10 m: R = c²/8s + s/2 = 62.5 km
    [InlineData(2e-4, Turn.Right)]
    [InlineData(-2e-4, Turn.Left)]
    public void TryThrough_BarelyBent_KeepsTurnAndLength(double ordinate, Turn turn)
    {
        var a = ArcGen.Site;
        Assert.True(Arc.TryThrough(a, a + new Step(5, ordinate), a + new Step(10, 0), Flatness, out var arc, out _));
        Assert.Equal(turn, arc.Turn);
        Assert.Equal(62_500, arc.Radius, 1.0); // 1 nm of north is 0.3 m of radius
        Assert.Equal(10 + 8 * ordinate * ordinate / 30, arc.PlanLength, 1e-9);
        Assert.Equal(arc.To, arc.PointAt(arc.PlanLength));
        Assert.InRange(arc.PointAt(arc.PlanLength / 2).DistanceTo(a + new Step(5, ordinate)), 0, 1e-8);
    }

    [Fact]
    public void TryThrough_SamePlaceTwice_IsCoincident()
    {
        Point2 a = ArcGen.Site, b = a + new Step(1, 1), c = a + new Step(2, 0);
        foreach (var (p, q, r) in new[] { (a, a, c), (a, b, b), (a, b, a), (a, a, a) })
        {
            Assert.False(Arc.TryThrough(p, q, r, 0, out var arc, out var fault));
            Assert.Equal(ArcFault.Coincident, fault);
            Assert.Equal(default, arc);
        }
        Assert.Throws<ArgumentException>(() => Arc.Through(a, b, a, Flatness));
    }

    [Fact]
    public void TryThrough_PlacesOutOfOrderOnALine_IsStraight()
    {
        var a = ArcGen.Site;
        Assert.False(Arc.TryThrough(a, a + new Step(20, 0), a + new Step(10, 0), Flatness, out _, out var fault));
        Assert.Equal(ArcFault.Straight, fault);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void TryFullCircle_ThreePlaces_TurnsByTheirOrder(bool left)
    {
        var centre = ArcGen.Site;
        Point2 a = centre + new Step(4, 0), b = centre + new Step(0, left ? 4 : -4), c = centre + new Step(-4, 0);
        Assert.True(Arc.TryFullCircle(a, b, c, Flatness, out var arc, out _));
        Assert.True(arc.IsFullCircle);
        Assert.Equal(left ? Turn.Left : Turn.Right, arc.Turn);
        Assert.Equal(a, arc.From);
        Assert.Equal(a, arc.To);
        Assert.Equal(8 * Math.PI, arc.PlanLength, 1e-9);
        Assert.Equal((left ? 1 : -1) * 16 * Math.PI, arc.SegmentArea, 1e-8);
        Assert.Null(arc.TangentLength);
        Assert.Equal(0, arc.Chord);
        var box = arc.Box;
        Assert.Equal(8, box.MaxEast - box.MinEast, 1e-8);
        Assert.Equal(8, box.MaxNorth - box.MinNorth, 1e-8);
        Assert.InRange(arc.MidPoint.DistanceTo(c), 0, 1e-8);
    }

    [Fact]
    public void Default_Arc_IsADotAtTheOrigin()
    {
        Arc dot = default;
        Assert.Equal(0, dot.PlanLength);
        Assert.Equal(default, dot.PointAt(0));
        Assert.Equal(default, dot.MidPoint);
        Assert.Equal(5, dot.Locate(new(3, 4)).Distance);
        Assert.Equal(0, dot.SegmentArea);
        Assert.Equal(new Box2(0, 0, 0, 0), dot.Box);
    }

    [Theory]
    [InlineData(double.NaN, 1)]
    [InlineData(-1, 1)]
    [InlineData(1, -0.1)]
    [InlineData(1, 6.3)]
    [InlineData(1, double.NaN)]
    public void FromParts_NoArc_Throws(double radius, double sweep) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Arc.FromParts(default, default, default, radius, sweep, Turn.Left));

    [Fact]
    public void ToString_UnderAnyCulture_UsesPoints() => Assert.Equal("(512000.0000, 6243000.5000)", new Point2(512_000, 6_243_000.5).ToString());

    [Fact] // the case of the house's own story: 6120° and -1e-20° wrapped in radians fell out of [0, 2π)
    public void FromDegrees_AnyNumber_StaysWithinOneTurn() => Gen.Double[-1e6, 1e6].Sample(degrees =>
    {
        var bearing = Bearing.FromDegrees(degrees);
        Assert.InRange(bearing.Radians, 0, Math.BitDecrement(double.Tau));
        Assert.InRange(bearing.Degrees, 0, Math.BitDecrement(360));
        Assert.Equal(0, bearing.To(Bearing.FromDegrees(degrees % 360)), 1e-12);
    });

    [Theory]
    [InlineData(6120, 0)]
    [InlineData(-1e-20, 0)]
    [InlineData(370, 10)]
    [InlineData(-350, 10)]
    public void FromDegrees_Named_Wraps(double degrees, double expected) => Assert.Equal(expected, Bearing.FromDegrees(degrees).Degrees, 1e-12);

    [Theory]
    [InlineData(0, 1, 0)]
    [InlineData(1, 0, 90)]
    [InlineData(0, -1, 180)]
    [InlineData(-1, 0, 270)]
    public void BearingOf_Quarters_AreClockwiseFromNorth(double east, double north, double degrees)
    {
        var bearing = Bearing.Of(ArcGen.Site, ArcGen.Site + new Step(east, north));
        Assert.Equal(degrees, bearing.Degrees, 1e-12);
        Assert.InRange((bearing.Unit - new Step(east, north)).Size, 0, 1e-15);
    }
}
