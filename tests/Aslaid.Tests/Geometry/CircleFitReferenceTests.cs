namespace Aslaid.Tests;

public sealed class CircleFitReferenceTests
{
    private const string Cases = "01_circle_fit.json";

    public static TheoryData<string, string> Fits => Reference.Cases(Cases, "fits");

    public static TheoryData<string, string> ThreePoints => Reference.Cases(Cases, "three_point");

    [Theory, MemberData(nameof(Fits))]
    public void Circle_PublishedFit_GivesPublishedNumbers(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "fits", id);
        var places = c.GetProperty("points_xy").Points();
        var published = c.GetProperty("published");
        var recomputed = c.GetProperty("recomputed");
        var tolerance = c.Number("tolerance");

        Assert.True(ArcFitting.TryCircle(places, 0, out var fit, out _));
        Assert.True(AlgebraicCircle.TryKasa(places, out var kasa));
        Assert.True(AlgebraicCircle.TryUnitNorm(places, default, out var unit));
        foreach (var (numbers, within) in new[] { (published, tolerance), (recomputed, 1e-8) })
        {
            if (numbers.Has("geometric", out var g))
            {
                Agree(g, fit.Arc.Centre, fit.Arc.Radius, within);
                if (g.Has("sum_of_squares", out var sum)) Assert.Equal(sum.GetDouble(), fit.SumOfSquares, within);
                if (g.Has("rms_residual", out var rms)) Assert.Equal(rms.GetDouble(), fit.RmsResidual, within);
                if (g.Has("std_of_radii", out var std)) Assert.Equal(std.GetDouble(), fit.RmsResidual, within);
                if (g.Has("s0_dof_n_minus_3", out var s0)) Assert.Equal(s0.GetDouble(), fit.SigmaZero!.Value, within);
            }
            if (numbers.Has("algebraic_kasa", out var k))
            {
                Agree(k, kasa.Centre, kasa.Radius, within);
                if (k.Has("residuals", out var residuals))
                    foreach (var (place, residual) in places.Zip(residuals.EnumerateArray()))
                        Assert.Equal(residual.GetDouble(), place.DistanceTo(kasa.Centre) - kasa.Radius, within);
            }
            if (numbers.Has("algebraic_unit_norm", out var u)) Agree(u, unit.Centre, unit.Radius, within);
            if (numbers.Has("algebraic_centre_then_mean_radius", out var m)) Agree(m, kasa.Centre, places.Average(p => p.DistanceTo(kasa.Centre)), within);
        }
    }

    [Theory, MemberData(nameof(ThreePoints))]
    public void Through_PublishedPoints_GivesPublishedCentre(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "three_point", id);
        Point2 a = c.GetProperty("p0").Point(), b = c.GetProperty("p1").Point(), end = c.GetProperty("p2").Point();
        var made = Arc.TryThrough(a, b, end, flatness: 0, out var arc, out var fault);
        if (!c.Has("centre", out var centre))
        {
            Assert.False(made);
            Assert.Equal(ArcFault.Straight, fault);
            return;
        }
        if (a == end)
        {
            Assert.Equal(ArcFault.Coincident, fault);
            arc = Arc.FullCircle(a, b, Turn.Left);
        }
        else Assert.True(made);
        var tolerance = c.Number("tol");
        Assert.InRange(arc.Centre.DistanceTo(centre.Point()), 0, tolerance);
        Assert.InRange(arc.Centre.DistanceTo(c.GetProperty("recomputed_centre").Point()), 0, 2e-9); // m: two steps of a double at 7 000 000 m
        Assert.Equal(c.Number("recomputed_radius"), arc.Radius, 1e-9);
        if (c.Has("radius", out var radius)) Assert.Equal(radius.GetDouble(), arc.Radius, tolerance);
    }

    private static void Agree(System.Text.Json.JsonElement expected, Point2 centre, double radius, double within)
    {
        Assert.Equal(expected.Number("xc"), centre.East, within);
        Assert.Equal(expected.Number("yc"), centre.North, within);
        Assert.Equal(expected.Number("r"), radius, within);
    }
}
