using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class CircularNormalTests
{
    [Fact]
    public void Within_AboutTheCentre_IsTheInverseOfRadius() =>
        Gen.Double[0, 0.999999].Sample(p => Assert.Equal(p, CircularNormal.Within(3 * CircularNormal.Radius(p), 0, 3), 1e-9));

    [Fact]
    public void Within_AnyCircle_IsTheIntegralOverIt() => Gen.Select(Gen.Double[0.05, 60], Gen.Double[-9, 9]).Sample(
        (radius, off) =>
        {
            var distance = Math.Max(0, radius + off);
            Assert.Equal(Over(radius, distance), CircularNormal.Within(radius, distance, 1), radius > 25 ? 1.1e-4 : 1e-6);
        }, iter: 300);

    [Fact]
    public void Within_AnyUnit_IsTheSame() => Gen.Select(Gen.Double[0.01, 0.1], Gen.Double[0, 0.1], Gen.Double[0.001, 0.05]).Sample((radius, distance, sigma) =>
        Assert.Equal(CircularNormal.Within(radius, distance, sigma), CircularNormal.Within(1000 * radius, 1000 * distance, 1000 * sigma), 1e-9));

    [Theory]
    [InlineData(0.05, 9, 1)]
    [InlineData(1e-9, 0, 1)]
    [InlineData(0, 0, 1)]
    [InlineData(-1, 0, 1)]
    [InlineData(1, 1e6, 1)]
    public void Within_FarOutOrNoCircle_IsNothing(double radius, double distance, double sigma) =>
        Assert.Equal(0, CircularNormal.Within(radius, distance, sigma), 1e-12);

    [Fact]
    public void Within_LargeCircle_IsAll() => Assert.Equal(1, CircularNormal.Within(1e6, 10, 1));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Radius_NoProbability_IsRefused(double p) => Assert.Throws<ArgumentOutOfRangeException>(() => CircularNormal.Radius(p));

    /// <summary>Strips across the circle, of unit standard deviation; east = radius sin t smooths its edges.</summary>
    private static double Over(double radius, double distance) => Integral.Of(
        t =>
        {
            var (east, half) = (radius * Math.Sin(t), radius * Math.Cos(t));
            return Math.Exp(-(east - distance) * (east - distance) / 2) / Math.Sqrt(double.Tau) * (2 * Normal.Below(half) - 1) * half;
        }, -Math.PI / 2, Math.PI / 2, 3000);
}
