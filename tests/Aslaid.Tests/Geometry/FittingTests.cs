namespace Aslaid.Tests;

public sealed class FittingTests
{
    private static readonly Gen<double[]> Wobble = Gen.Double[-1, 1].Array[12];

    [Fact]
    public void TryFree_PlacesOfAnArc_FindsItWithoutResiduals() => ArcGen.Truths.Sample(t =>
    {
        var places = Enumerable.Range(0, 9).Select(i => t.At(i / 8.0)).ToArray();
        var residuals = new double[9];
        Assert.True(ArcFitting.TryFree(places, 1e-6, out var fit, out _, residuals: residuals));
        var rounding = 2e-8 * (1 + t.Radius / t.Sagitta);
        Assert.Equal(t.Radius, fit.Arc.Radius, rounding);
        Assert.Equal(t.Turn, fit.Arc.Turn);
        Assert.Equal(t.Radius * t.Sweep, fit.Arc.PlanLength, 1e-6);
        Assert.All(residuals, r => Assert.Equal(0, r, 1e-8));
    });

    [Fact]
    public void TryFree_AnyNearbyCircle_FitsNoBetter() => Gen.Select(ArcGen.Round, Wobble, ArcGen.Place(1), Gen.Double[-1, 1]).Sample((t, wobble, way, dr) =>
    {
        var places = Scatter(t, wobble, 0.1);
        Assert.True(ArcFitting.TryFree(places, 0, out var fit, out _));
        foreach (var size in (ReadOnlySpan<double>)[1e-4, 1e-2, 1.0])
        {
            var centre = fit.Arc.Centre + size * (way - ArcGen.Site);
            var radius = fit.Arc.Radius + size * dr;
            var sum = Sum(places, centre, radius);
            Assert.True(sum >= fit.SumOfSquares * (1 - 1e-9));
        }
    });

    [Fact]
    public void TryHeld_AnyOtherArcThroughTheEnds_FitsNoBetter() => Gen.Select(ArcGen.Round, Wobble, Gen.Double[0.05, 0.95]).Sample((t, wobble, f) =>
    {
        var places = Scatter(t, wobble, 0.1);
        var residuals = new double[places.Length];
        Assert.True(ArcFitting.TryHeld(places, 0, out var fit, out _, residuals: residuals));
        for (var i = 0; i < places.Length; i++) Assert.Equal(places[i].DistanceTo(fit.Arc.Centre) - fit.Arc.Radius, residuals[i], 1e-8);
        Assert.Equal(fit.SumOfSquares, residuals.Sum(r => r * r), 1e-12);
        Assert.Equal(Math.Sqrt(fit.SumOfSquares / places.Length), fit.RmsResidual, 1e-9);
        Assert.Equal(Math.Sqrt(fit.SumOfSquares / (places.Length - 3)), fit.SigmaZero!.Value, 1e-9);
        Assert.Equal(places[0], fit.Arc.From);
        Assert.Equal(places[^1], fit.Arc.To);
        foreach (var size in (ReadOnlySpan<double>)[1e-4, 1e-2, 0.1])
        {
            var other = Arc.Through(places[0], fit.Arc.PointAt(f * fit.Arc.PlanLength) + size * fit.Arc.BearingAt(f * fit.Arc.PlanLength).Unit.Left, places[^1], 0);
            var sum = Sum(places[1..^1], other.Centre, other.Radius);
            Assert.True(sum >= fit.SumOfSquares * (1 - 1e-9));
        }
    });

    [Fact]
    public void TryHeld_OnePlaceBetween_IsTheArcThroughIt() => ArcGen.Truths.Sample(t =>
    {
        var exact = t.Arc;
        Assert.True(ArcFitting.TryHeld([t.At(0), t.At(0.5), t.At(1)], 1e-6, out var fit, out _));
        Assert.Equal(exact.Radius, fit.Arc.Radius, 2e-8 * (1 + t.Radius / t.Sagitta));
        Assert.Equal(exact.Turn, fit.Arc.Turn);
        Assert.Equal(exact.Sweep, fit.Arc.Sweep, 1e-8 * (1 + 1 / t.Radius));
        Assert.Equal(0, fit.DegreesOfFreedom);
        Assert.Null(fit.SigmaZero);
        Assert.Equal(-1, fit.Outlier);
    });

    [Fact]
    public void TryFree_WeightsAllAlike_ChangeNothingButTheSum() => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
    {
        var places = Scatter(t, wobble, 0.02);
        Assert.True(ArcFitting.TryFree(places, 0, out var plain, out _));
        Assert.True(ArcFitting.TryFree(places, 0, out var weighted, out _, [.. places.Select(_ => 10_000.0)])); // u = 10 mm
        Assert.Equal(plain.Arc.Radius, weighted.Arc.Radius, 1e-8 * (1 + t.Radius / t.Sagitta));
        Assert.Equal(10_000 * plain.SumOfSquares, weighted.SumOfSquares, 1e-6 * weighted.SumOfSquares);
        Assert.Equal(plain.Cofactor.RadiusRadius, 10_000 * weighted.Cofactor.RadiusRadius, 1e-5 * plain.Cofactor.RadiusRadius);
        Assert.Equal(plain.Outlier, weighted.Outlier);
    });

    [Fact]
    public void Cofactor_OfAFreeFit_IsWhatTheGradientsPropagate() => ArcGen.Round.Sample(t =>
    {
        // u² = Σ(gE² + gN²) for unit u; without residuals it is the inverse of the normal matrix.
        var places = Enumerable.Range(0, 9).Select(i => t.At(i / 8.0)).ToArray();
        Assert.True(ArcFitting.TryFree(places, 0, out var fit, out _));
        var g = new ArcGradient[9];
        ArcGradients.Compute(fit.Arc, places, held: false, g);
        Assert.Equal(g.Sum(x => x.RadiusE * x.RadiusE + x.RadiusN * x.RadiusN), fit.Cofactor.RadiusRadius, 1e-4 * fit.Cofactor.RadiusRadius);
        Assert.Equal(g.Sum(x => x.CentreEastE * x.CentreEastE + x.CentreEastN * x.CentreEastN), fit.Cofactor.EastEast, 1e-4 * (1 + fit.Cofactor.EastEast));
        Assert.Equal(g.Sum(x => x.CentreEastE * x.CentreNorthE + x.CentreEastN * x.CentreNorthN), fit.Cofactor.EastNorth, 1e-4 * (1 + fit.Cofactor.RadiusRadius));
        Assert.Equal(g.Sum(x => x.CentreNorthE * x.RadiusE + x.CentreNorthN * x.RadiusN), fit.Cofactor.NorthRadius, 1e-4 * (1 + fit.Cofactor.RadiusRadius));
    });

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Outlier_OnePlaceMoved_IsNamed(bool held)
    {
        var t = new ArcGen.Truth(ArcGen.Site, 20, 0.4, 2, Turn.Right);
        var places = Enumerable.Range(0, 9).Select(i => t.At(i / 8.0, i == 5 ? 0.08 : 0.002 * (i % 3 - 1))).ToArray();
        var weights = places.Select(_ => 1 / (0.01 * 0.01)).ToArray();
        Assert.True(held ? ArcFitting.TryHeld(places, 0, out var fit, out _, weights) : ArcFitting.TryFree(places, 0, out fit, out _, weights));
        Assert.Equal(5, fit.Outlier);
        Assert.InRange(fit.LargestNormalised!.Value, 3.29, 12);
        Assert.True(fit.SumOfSquares > 20); // chi-squared with 6 freedoms stays under 16.8 in 99 of 100
    }

    [Theory]
    [InlineData(Turn.Left)]
    [InlineData(Turn.Right)]
    public void TryCircle_PlacesAround_TurnsByTheirOrder(Turn turn)
    {
        var t = new ArcGen.Truth(ArcGen.Site, 6, 1, double.Tau, turn);
        var places = Enumerable.Range(0, 10).Select(i => t.At(i / 10.0, 0.01 * Math.Cos(i * 2.5))).ToArray();
        Assert.True(ArcFitting.TryCircle(places, 0.01, out var fit, out _));
        Assert.True(fit.Arc.IsFullCircle);
        Assert.Equal(turn, fit.Arc.Turn);
        Assert.Equal(6, fit.Arc.Radius, 0.01);
        Assert.Equal(7, fit.DegreesOfFreedom);
    }

    [Fact]
    public void TryFit_PlacesInLine_IsStraight()
    {
        var places = Enumerable.Range(0, 6).Select(i => ArcGen.Site + new Step(i, 2 * i)).ToArray();
        Assert.False(ArcFitting.TryFree(places, 1e-3, out _, out var free));
        Assert.False(ArcFitting.TryHeld(places, 1e-3, out _, out var held));
        Assert.Equal(ArcFault.Straight, free);
        Assert.Equal(ArcFault.Straight, held);
        Assert.False(AlgebraicCircle.TryKasa(places, out _));
    }

    [Fact]
    public void TryFit_NearlyInLine_IsStraight()
    {
        var places = Enumerable.Range(0, 8).Select(i => ArcGen.Site + new Step(i, 0.002 * (i % 2))).ToArray();
        Assert.False(ArcFitting.TryFree(places, 0.01, out _, out var free));
        Assert.False(ArcFitting.TryHeld(places, 0.01, out _, out var held));
        Assert.Equal(ArcFault.Straight, free);
        Assert.Equal(ArcFault.Straight, held);
    }

    [Fact]
    public void TryFit_AllPlacesTheSame_IsCoincident()
    {
        Point2[] places = [ArcGen.Site, ArcGen.Site, ArcGen.Site, ArcGen.Site];
        Assert.False(ArcFitting.TryFree(places, 0, out _, out var free));
        Assert.False(ArcFitting.TryHeld(places, 0, out _, out var held));
        Assert.False(ArcFitting.TryCircle(places.AsSpan(0, 2), 0, out _, out var circle));
        Assert.Equal((ArcFault.Coincident, ArcFault.Coincident, ArcFault.Coincident), (free, held, circle));
    }

    [Fact]
    public void TryFree_TwoDifferentPlacesAmongMany_IsCoincident()
    {
        Point2 a = ArcGen.Site, b = a + new Step(3, 1);
        Assert.False(ArcFitting.TryFree([a, b, b, a, b], 0, out _, out var fault));
        Assert.NotEqual(ArcFault.None, fault);
        Point2 c = a + new Step(5, 3);
        Assert.True(ArcFitting.TryFree([a, a, b, b, c, c], 1e-3, out var fit, out _)); // each shot twice
        Assert.Equal(Arc.Through(a, b, c, 1e-3).Radius, fit.Arc.Radius, 1e-7);
    }

    [Fact]
    public void TryHeld_NearlyAFullTurn_KeepsItsSweep()
    {
        var t = new ArcGen.Truth(ArcGen.Site, 6, 0.7, 6.2, Turn.Right);
        var places = Enumerable.Range(0, 12).Select(i => t.At(i / 11.0, i is 0 or 11 ? 0 : 0.004 * (i % 3 - 1))).ToArray();
        Assert.True(ArcFitting.TryHeld(places, 0.01, out var fit, out _));
        Assert.Equal(6.2, fit.Arc.Sweep, 0.01);
        Assert.Equal(Turn.Right, fit.Arc.Turn);
        Assert.Equal(6, fit.Arc.Radius, 0.01);
    }

    [Fact]
    public void TryFit_WrongWeights_Throws()
    {
        Point2[] places = [ArcGen.Site, ArcGen.Site + new Step(1, 1), ArcGen.Site + new Step(2, 0)];
        Assert.Throws<ArgumentException>(() => ArcFitting.TryFree(places, 0, out _, out _, [1, 2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ArcFitting.TryHeld(places, 0, out _, out _, [1, 0, 1]));
    }

    private static double Sum(Point2[] places, Point2 centre, double radius) => places.Sum(p => Math.Pow(p.DistanceTo(centre) - radius, 2));

    private static Point2[] Scatter(ArcGen.Truth t, double[] wobble, double part) =>
        [.. wobble.Select((w, i) => t.At(i / (wobble.Length - 1.0), w * part * Math.Min(t.Sagitta, t.Radius)))];
}
