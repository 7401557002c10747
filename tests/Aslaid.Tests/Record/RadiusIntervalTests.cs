using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class RadiusIntervalTests
{
    private const double Sigma = 0.010;

    /// <summary>Three shots of an arc of 10 m radius, the middle one at a share of it.</summary>
    private static Point2[] Shots(double degrees, double share)
    {
        var sweep = double.DegreesToRadians(degrees);
        return [.. new[] { -0.5, share - 0.5, 0.5 }.Select(at => ArcGen.Site + new Step(10 * Math.Sin(at * sweep), 10 * Math.Cos(at * sweep)))];
    }

    private static double U(ReadOnlySpan<Point2> places)
    {
        Span<ArcGradient> by = stackalloc ArcGradient[3];
        ArcGradients.Compute(Arc.Through(places[0], places[1], places[2], 0), places, held: false, by);
        var squares = 0.0;
        foreach (var g in by) squares += g.RadiusE * g.RadiusE + g.RadiusN * g.RadiusN;
        return Sigma * Math.Sqrt(squares);
    }

    // as-built-job, "Three-point arc" [calc]: 10 mm per axis, R = 10 m, 95 %.
    [Theory]
    [InlineData(90, 0.5, 9.93, 10.07)]
    [InlineData(30, 0.5, 9.35, 10.75)]
    [InlineData(30, 0.1, 8.27, 12.67)]
    public void Of_ThreePointArcs_IsThePublishedInterval(double degrees, double share, double low, double high)
    {
        var interval = RadiusInterval.Of(10, U(Shots(degrees, share)));
        Assert.Equal(low, interval.Low, 0.015);
        Assert.Equal(high, interval.High, 0.015);
    }

    [Theory]
    [InlineData(90, 0.5, 0.005)]
    [InlineData(30, 0.5, 0.005)]
    [InlineData(30, 0.1, 0.005)]
    [InlineData(15, 0.5, 0.005)]
    [InlineData(12, 0.5, 0.005)]
    public void Of_ArcsGoodAndWeak_IsThatOfTheirDraws(double degrees, double share, double within)
    {
        var (truth, drawn) = (Shots(degrees, share), new Point2[3]);
        var draws = new MonteCarlo(MeasureScene.AsDrawn, 7);
        var radii = new double[MonteCarlo.Draws];
        for (var draw = 0; draw < radii.Length; draw++)
        {
            for (var i = 0; i < 3; i++) drawn[i] = truth[i] + new Step(Sigma * draws.Normal(), Sigma * draws.Normal());
            radii[draw] = Arc.Through(drawn[0], drawn[1], drawn[2], 0).Radius;
        }

        Array.Sort(radii);
        var (low, high) = (radii[(int)(0.025 * radii.Length)], radii[(int)(0.975 * radii.Length)]);
        var (u, interval) = (U(truth), RadiusInterval.Of(10, U(truth)));
        TestContext.Current.SendDiagnosticMessage($"{degrees} {share}: drawn {low:0.000} {high:0.000}, interval {interval.Low:0.000} {interval.High:0.000}, linear {10 - 1.96 * u:0.000} {10 + 1.96 * u:0.000}");
        Assert.Equal(low, interval.Low, within * low);
        Assert.Equal(high, interval.High, within * high);
        if (!RadiusInterval.IsLinear(10, u)) return;
        Assert.Equal(low, 10 - 1.96 * u, 0.05 * 1.96 * u);
        Assert.Equal(high, 10 + 1.96 * u, 0.05 * 1.96 * u);
    }

    // At the rule's own edge both ends of R ± 1.96 u are still within a twentieth of the half-width, and beyond it not for long.
    [Fact]
    public void IsLinear_AtItsEdge_MissesByATwentieth()
    {
        var half = 1.96 * RadiusInterval.LinearShare;
        var interval = RadiusInterval.Of(1, RadiusInterval.LinearShare);
        Assert.True(Math.Abs(interval.High - (1 + half)) < 0.055 * half);
        Assert.True(Math.Abs(interval.Low - (1 - half)) < 0.055 * half);
        Assert.True(RadiusInterval.IsLinear(1, RadiusInterval.LinearShare));
        Assert.False(RadiusInterval.IsLinear(1, 1.01 * RadiusInterval.LinearShare));
    }

    [Fact]
    public void Of_HopelessArc_IsOpenAbove()
    {
        var interval = RadiusInterval.Of(10, 6);
        Assert.Equal(double.PositiveInfinity, interval.High);
        Assert.InRange(interval.Low, 4, 5);
    }
}
