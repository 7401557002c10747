using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class SimilarityFitTests
{
    private const string Cases = "06_helmert_estimation.json";

    public static TheoryData<string, string> Published => Reference.Cases(Cases, "cases");

    private static readonly Gen<(Point2[] Places, double[] Weights)> Site = Gen.Select(
        Gen.Select(Gen.Double[0, 300], Gen.Double[0, 300]).Array[3, 8], Gen.Double[1e3, 1e5].Array[8],
        (places, weights) => (Array.ConvertAll(places, p => new Point2(512_000 + p.Item1, 6_243_000 + p.Item2)), weights));

    /// <summary>Misfits made by a shift, a scale and a turn give just these back.</summary>
    [Fact]
    public void Of_ShiftScaleAndTurn_AreFoundAgain() => Gen.Select(Site, Gen.Double[-0.001, 0.001], Gen.Double[-0.001, 0.001], Gen.Double[-1, 1]).Sample((site, scale, turn, shift) =>
    {
        var origin = new Point2(512_100, 6_243_100);
        var misfits = Array.ConvertAll(site.Places, p => new Step(shift, -shift) + scale * (p - origin) + turn * (p - origin).Left);
        var fit = SimilarityFit.Of(site.Places, misfits, site.Weights.AsSpan(0, misfits.Length))!;
        Assert.Equal(scale, fit.A, 1e-8 / Extent(site.Places));
        Assert.Equal(turn, fit.B, 1e-8 / Extent(site.Places));
        Assert.InRange(fit.Squares, 0, 1e-6);
    });

    /// <summary>What it gives at a place does not depend on where the grid's origin lies.</summary>
    [Fact]
    public void Of_OtherOrigin_SameParameters() => Site.Sample(site =>
    {
        var values = site.Places.Select((p, i) => new Step(0.01 * Math.Sin(7 * i), 0.01 * Math.Cos(5 * i))).ToArray();
        var weights = site.Weights.AsSpan(0, values.Length);
        if (!(Extent(site.Places) > 1) || SimilarityFit.Of(site.Places, values, weights) is not { } here) return; // all in one place
        var there = SimilarityFit.Of(Array.ConvertAll(site.Places, p => p + new Step(-512_000, -6_243_000)), values, weights)!;
        Assert.Equal(here.A, there.A, 1e-8 / Extent(site.Places));
        Assert.Equal(here.B, there.B, 1e-8 / Extent(site.Places));
    });

    /// <summary>
    /// C. D. Ghilani, Adjustment Computations, two-dimensional conformal transformation (chapter 18): data, parameters and points as
    /// read in public reimplementations of the example; residuals, S₀ and sigmas recomputed with an independent script.
    /// </summary>
    [Theory, MemberData(nameof(Published))]
    public void Of_PublishedControl_GivesPublishedNumbers(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "cases", id);
        var control = c.GetProperty("control").EnumerateArray().ToArray();
        var (published, recomputed, tolerance) = (c.GetProperty("published"), c.GetProperty("recomputed"), c.GetProperty("tolerance"));
        var places = Array.ConvertAll(control, p => new Point2(p.Number("x"), p.Number("y")));
        var fit = SimilarityFit.Of(places, Array.ConvertAll(control, p => new Step(p.Number("E"), p.Number("N"))), [1, 1, 1])!;
        var origin = fit.At(default);
        foreach (var (numbers, ab, shift) in new[] { (published, tolerance.Number("a_b"), tolerance.Number("translation")), (recomputed, 1e-9, 1e-6) })
        {
            Assert.Equal(numbers.Number("a"), fit.A, ab);
            Assert.Equal(numbers.Number("b"), fit.B, ab); // this form turns left positive; EPSG 9621 has the other sine
            Assert.Equal(numbers.Number("Te"), origin.East, shift);
            Assert.Equal(numbers.Number("Tn"), origin.North, shift);
        }

        foreach (var p in c.GetProperty("transform").EnumerateArray())
        {
            var (wanted, given) = (published.GetProperty("points").GetProperty(p.GetProperty("id").GetString()!).Point(), fit.At(new Point2(p.Number("x"), p.Number("y"))));
            Assert.Equal(wanted.East, given.East, tolerance.Number("points"));
            Assert.Equal(wanted.North, given.North, tolerance.Number("points"));
        }

        var s0 = Math.Sqrt(fit.Squares / fit.Freedom);
        Assert.Equal(recomputed.Number("degrees_of_freedom"), fit.Freedom);
        Assert.Equal(recomputed.Number("S0"), s0, 1e-7);
        Assert.Equal(recomputed.Number("sigma_a"), s0 * fit.U, 1e-9);
        Assert.Equal(recomputed.Number("sigma_Te"), s0 * fit.UOrigin, 1e-7);
        for (var i = 0; i < control.Length; i++)
        {
            var residual = recomputed.GetProperty("residuals_computed_minus_given").GetProperty(control[i].GetProperty("id").GetString()!).Point();
            var left = fit.At(places[i]) - new Step(control[i].Number("E"), control[i].Number("N"));
            Assert.Equal(residual.East, left.East, 1e-6);
            Assert.Equal(residual.North, left.North, 1e-6);
        }
    }

    [Fact]
    public void Of_OnePlace_IsNone() => Assert.Null(SimilarityFit.Of([new(1, 2), new(1, 2)], [default, default], [1, 1]));

    /// <summary>Metres, never so small that rounding of the coordinates matters.</summary>
    private static double Extent(Point2[] places) => Math.Max(1e-3, places.Max(p => p.DistanceTo(places[0])));
}
