using CsCheck;

namespace Aslaid.Tests;

public class ClothoidTests
{
    private static readonly Point2 Somewhere = new(512_000, 6_243_000);

    /// <summary>Fresnel's integrals (Abramowitz and Stegun, table 7.7): with curvature πs the place after s is C(s), S(s).</summary>
    [Theory]
    [InlineData(0.5, 0.4923442258714464, 0.0647324328599993)]
    [InlineData(1.0, 0.7798934003768228, 0.4382591473903548)]
    [InlineData(2.0, 0.4882534060753408, 0.3434156783636982)]
    public void PointAt_FresnelsIntegrals_AreThose(double s, double c, double sine)
    {
        var clothoid = new Clothoid(new(0, 0), Bearing.FromDegrees(90), 0, Math.PI * s, s);
        Assert.Equal(c, clothoid.To.East, 1e-12);
        Assert.Equal(sine, clothoid.To.North, 1e-12); // left positive
    }

    [Fact]
    public void PointAt_EvenCurvature_IsAnArc()
    {
        var clothoid = new Clothoid(Somewhere, Bearing.FromDegrees(0), -0.01, -0.01, 150);
        var centre = Somewhere + new Step(100, 0); // right of north
        Assert.Equal(100, clothoid.To.DistanceTo(centre), 1e-8);
        Assert.Equal(1.5, Bearing.FromDegrees(0).To(clothoid.End), 1e-12);
    }

    [Fact]
    public void PointAt_NoCurvature_IsAStraight() => Assert.Equal(Somewhere + new Step(70, 0), new Clothoid(Somewhere, Bearing.FromDegrees(90), 0, 0, 70).To);

    [Fact]
    public void PointAt_Reversed_LeadsBack() => Gen.Select(Gen.Double[-0.02, 0.02], Gen.Double[-0.02, 0.02], Gen.Double[1, 200], Gen.Double[0, 360]).Sample((from, to, length, bearing) =>
    {
        var there = new Clothoid(Somewhere, Bearing.FromDegrees(bearing), from, to, length);
        var back = new Clothoid(there.To, there.End.Reverse, -to, -from, length);
        Assert.True(back.To.DistanceTo(Somewhere) < 1e-7);
    });

    [Fact]
    public void StationsWithin_Arcs_LeaveItByNoMore() => Gen.Select(Gen.Double[-0.05, 0.05], Gen.Double[-0.05, 0.05], Gen.Double[5, 120]).Sample((from, to, length) =>
    {
        var clothoid = new Clothoid(Somewhere, Bearing.FromDegrees(33), from, to, length);
        const double tolerance = 1e-4;
        var stations = clothoid.StationsWithin(tolerance);
        for (var i = 2; i < stations.Length; i += 2)
        {
            if (!Arc.TryThrough(clothoid.PointAt(stations[i - 2]), clothoid.PointAt(stations[i - 1]), clothoid.PointAt(stations[i]), 1e-7, out var arc, out _)) continue;
            for (var share = 0.05; share < 1; share += 0.1)
                Assert.True(arc.Locate(clothoid.PointAt(stations[i - 2] + share * (stations[i] - stations[i - 2]))).Distance < 1.1 * tolerance + 1e-8);
        }
    }, iter: 200);
}
