using Aslaid.Sheets;

namespace Aslaid.Tests;

public class ArcCubicsTests
{
    private static readonly Gen<Arc> Arcs =
        Gen.Select(Gen.Double[0, double.Tau], Gen.Double[0.02, 0.98 * double.Tau], Gen.Double[0.3, 500], Gen.Bool).Select((start, sweep, radius, left) =>
        {
            Point2 At(double part)
            {
                var angle = start + (left ? 1 : -1) * part * sweep;
                return new(512000 + radius * Math.Cos(angle), 6243000 + radius * Math.Sin(angle));
            }

            return Arc.Through(At(0), At(0.5), At(1), 1e-9);
        });

    private static readonly Gen<(Arc Arc, double From, double To)> Parts =
        Gen.Select(Arcs, Gen.Double[0, 0.7], Gen.Double[0.05, 0.3]).Select((arc, from, part) => (arc, from * arc.PlanLength, (from + part) * arc.PlanLength));

    /// <summary>A cubic over 45° with handles of 4/3·tan(δ/4)·R leaves its circle by 4.2 millionths of the radius at most.</summary>
    [Fact]
    public void Of_AnyPartOfAnyArc_StaysOnTheCircle() => Parts.Sample(part =>
    {
        foreach (var cubic in ArcCubics.Of(part.Arc, part.From, part.To))
            for (var t = 0.0; t <= 1; t += 0.0625)
                Assert.True(Math.Abs(At(cubic, t).DistanceTo(part.Arc.Centre) - part.Arc.Radius) <= 4.3e-6 * part.Arc.Radius + 2e-8);
    });

    /// <summary>An arc that fits an A3 sheet, with a sweep of 45° or more, has a radius under 550 mm there.</summary>
    [Fact]
    public void Of_ArcAsLargeAsTheSheet_LeavesItByLessThanTheFinestPen()
    {
        var arc = Arc.Through(new(512000, 6243000), new(512000.55, 6243000.55), new(512001.10, 6243000), 1e-9);
        var worst = ArcCubics.Of(arc, 0, arc.PlanLength)
            .SelectMany(cubic => Enumerable.Range(0, 33).Select(i => Math.Abs(At(cubic, i / 32.0).DistanceTo(arc.Centre) - arc.Radius))).Max();
        Assert.InRange(1000 * worst, 0, 0.05); // mm
    }

    [Fact]
    public void Of_AnyPart_BeginsAndEndsWhereItShouldWithoutGaps() => Parts.Sample(part =>
    {
        var cubics = ArcCubics.Of(part.Arc, part.From, part.To).ToArray();
        Assert.Equal(part.Arc.PointAt(part.From), cubics[0].A);
        Assert.Equal(part.Arc.PointAt(part.To), cubics[^1].D);
        for (var i = 1; i < cubics.Length; i++) Assert.True(cubics[i - 1].D.DistanceTo(cubics[i].A) < 1e-9);
    });

    [Fact]
    public void Of_AnyArc_HasPartsOfAnEighthTurnAtMost() => Arcs.Sample(arc =>
        Assert.Equal((int)Math.Ceiling(arc.Sweep / (Math.PI / 4) - 1e-9), ArcCubics.Of(arc, 0, arc.PlanLength).Count()));

    private static Point2 At(Cubic c, double t)
    {
        var (u, o) = (1 - t, c.A);
        return o + 3 * u * u * t * (c.B - o) + 3 * u * t * t * (c.C - o) + t * t * t * (c.D - o);
    }
}
