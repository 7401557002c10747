using Aslaid.Geometry;
using CsCheck;

namespace Aslaid.Tests;

public class TangentFittingTests
{
    private sealed record Truth(Point2 Start, Point2 Middle, Point2 End, double Radius, Point2[] Places);

    /// <summary>By dead reckoning: a straight, an arc, a straight.</summary>
    /// <param name="turn">Radians, right positive.</param>
    private static Truth Lay(double bearing, double radius, double turn, double before, double after, int onFirst, int onArc, int onSecond)
    {
        var start = new Point2(512_300, 6_243_100);
        var way = Bearing.FromRadians(bearing);
        var inward = (turn > 0 ? -1 : 1) * way.Unit.Left;
        var centre = start + radius * inward;
        var places = new List<Point2>();
        for (var i = 0; i < onFirst; i++) places.Add(start + -(before * (onFirst - i) / onFirst) * way.Unit);
        for (var i = 1; i <= onArc; i++) places.Add(OnArc(turn * i / (onArc + 1)));
        var (end, on) = (OnArc(turn), Bearing.FromRadians(bearing + turn).Unit);
        for (var i = 1; i <= onSecond; i++) places.Add(end + after * i / onSecond * on);
        return new(start, OnArc(turn / 2), end, radius, [.. places]);

        Point2 OnArc(double angle) => centre + -radius * Turned(inward, angle);
        static Step Turned(Step step, double clockwise) => Bearing.FromRadians(Bearing.Of(step).Radians + clockwise).Unit;
    }

    [Fact]
    public void Fit_ExactPlaces_GivesTheTangentPoints() => Gen.Select(
        Gen.Double[0, 6.28], Gen.Double[4, 80], Gen.Double[0.15, 2.6], Gen.Bool, Gen.Int[2, 8], Gen.Int[2, 12], Gen.Int[2, 8]).Sample(drawn =>
    {
        var (bearing, radius, turn, right, first, arc, second) = drawn;
        var truth = Lay(bearing, radius, right ? turn : -turn, 6 * first, 6 * second, first, arc, second);
        Assert.True(TangentFitting.TryFit(truth.Places, out var fit, out var fault), $"{fault}");
        Assert.Equal(0, (fit!.Start - truth.Start).Size, 2e-5);
        Assert.Equal(0, (fit.Middle - truth.Middle).Size, 2e-5);
        Assert.Equal(0, (fit.End - truth.End).Size, 2e-5);
        Assert.Equal(radius, fit.Radius, 1e-4);
        Assert.Equal(right ? Turn.Right : Turn.Left, fit.Turn);
        Assert.Equal((first, arc), (fit.FirstStraight, fit.OnArc));
    }, iter: 400);

    [Theory]
    [InlineData(25, 1.2)]
    [InlineData(60, -0.7)]
    public void Fit_NoisyPlaces_ScatterAsPropagated(double radius, double turn)
    {
        const double sigma = 0.01;
        const int draws = 10_000;
        var truth = Lay(0.4, radius, turn, 40, 40, 9, 13, 9);
        Assert.True(TangentFitting.TryFit(truth.Places, out var exact, out _));
        var random = new Random(7);
        var sums = new double[7];
        for (var draw = 0; draw < draws; draw++)
        {
            var places = Array.ConvertAll(truth.Places, place => place + new Step(sigma * Normal(random), sigma * Normal(random)));
            Assert.True(TangentFitting.TryFit(places, out var fit, out _));
            double[] off = [.. new[] { fit!.Start - exact!.Start, fit.Middle - exact.Middle, fit.End - exact.End }.SelectMany(step => new[] { step.East, step.North }), fit.Radius - exact.Radius];
            for (var i = 0; i < off.Length; i++) sums[i] += off[i] * off[i];
        }

        // Each place answers to noise square to the line only, which is normal with the same sigma.
        double[] propagated = new double[7];
        foreach (var answer in exact!.ByPlace)
        {
            double[] terms = [answer.Start.East, answer.Start.North, answer.Middle.East, answer.Middle.North, answer.End.East, answer.End.North, answer.Radius];
            for (var i = 0; i < terms.Length; i++) propagated[i] += sigma * sigma * terms[i] * terms[i];
        }

        for (var i = 0; i < sums.Length; i++) Assert.Equal(1, Math.Sqrt(sums[i] / draws) / Math.Sqrt(propagated[i]), 0.02);
    }

    [Fact]
    public void Fit_Residuals_AndSigmaZero_AreThoseOfTheNoise()
    {
        var truth = Lay(1, 30, 1, 60, 60, 40, 40, 40);
        var random = new Random(3);
        var places = Array.ConvertAll(truth.Places, place => place + new Step(0.01 * Normal(random), 0.01 * Normal(random)));
        Assert.True(TangentFitting.TryFit(places, out var fit, out _));
        Assert.Equal(115, fit!.DegreesOfFreedom);
        Assert.Equal(0.01, fit.SigmaZero!.Value, 0.0015);
        Assert.Equal(fit.SumOfSquares, fit.Residuals.Sum(residual => residual * residual), 1e-12);
    }

    [Fact]
    public void Fit_StraightOrTooFew_IsTold()
    {
        Assert.False(TangentFitting.TryFit([.. Enumerable.Range(0, 12).Select(i => new Point2(512_000 + 5 * i, 6_243_000))], out _, out var fault));
        Assert.Equal(TangentFault.NoBend, fault);
        Assert.False(TangentFitting.TryFit([new(0, 0), new(1, 0), new(2, 1), new(2, 2)], out _, out fault));
        Assert.Equal(TangentFault.TooFew, fault);
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble());
}
