using Aslaid.Exchange;

namespace Aslaid.Tests;

public sealed class CurveBoxTests
{
    // From centre and angles, where Of has only three points.
    private static (double MinEast, double MaxEast, double MinNorth, double MaxNorth) Truth(CurveGen.TrueArc arc)
    {
        List<double> shares = [0, 1];
        for (var quarter = -8; quarter <= 16; quarter++)
            if ((quarter * Math.PI / 2 - arc.From) / arc.Sweep is >= 0 and <= 1 and var share) shares.Add(share);
        var at = shares.Select(s => arc.At(s, false)).ToArray();
        return (at.Min(p => p.East), at.Max(p => p.East), at.Min(p => p.North), at.Max(p => p.North));
    }

    [Fact]
    public void Of_AnyArc_IsTheTrueBox() => CurveGen.Arc.Sample(arc =>
    {
        const double tolerance = 1e-5; // m: coordinates step by 1e-9 m, and an arc of 0.05 rad magnifies that by 3e3 in its centre
        var (minEast, maxEast, minNorth, maxNorth) = Truth(arc);
        var box = CurveBox.Of(arc.Vertices);
        return Math.Abs(box.MinEast - minEast) < tolerance && Math.Abs(box.MaxEast - maxEast) < tolerance
            && Math.Abs(box.MinNorth - minNorth) < tolerance && Math.Abs(box.MaxNorth - maxNorth) < tolerance
            && box.MinHeight == 5 && box.MaxHeight == 6;
    });

    [Fact]
    public void Of_ReversedCurve_IsTheSame() => CurveGen.Any.Sample(vertices =>
    {
        var there = CurveBox.Of(vertices);
        Array.Reverse(vertices);
        var back = CurveBox.Of(vertices);
        return Math.Abs(there.MinEast - back.MinEast) < 1e-6 * (1 + Math.Abs(there.MaxEast - there.MinEast))
            && Math.Abs(there.MaxNorth - back.MaxNorth) < 1e-6 * (1 + Math.Abs(there.MaxNorth - there.MinNorth));
    });

    [Fact]
    public void Of_FullCircle_CoversIt() => Assert.Equal(
        new CurveBox(511_990, 512_010, 6_242_990, 6_243_010, 5, 5),
        CurveBox.Of([new(511_994, 6_242_992, 5, 0, false), new(512_006, 6_243_008, 5, 0, true), new(511_994, 6_242_992, 5, 0, false)]));

    [Fact]
    public void Of_ThreePointsOnALine_HasNoBulge() => Assert.Equal(
        new CurveBox(512_000, 512_010, 6_243_000, 6_243_020, 4, 6),
        CurveBox.Of([new(512_000, 6_243_000, 4, 0, false), new(512_005, 6_243_010, 6, 0, true), new(512_010, 6_243_020, 5, 0, false)]));

    [Fact]
    public void Join_WithEmpty_ChangesNothing()
    {
        var box = CurveBox.Of([new(1, 2, 3, 0, false)]);
        Assert.Equal(box, CurveBox.Empty.Join(box));
        Assert.Equal(box, box.Join(CurveBox.Empty));
        Assert.True(CurveBox.Empty.IsEmpty);
        Assert.False(box.IsEmpty);
    }
}
