namespace Aslaid.Tests;

/// <summary>Exact gradients against central differences of the very thing they belong to.</summary>
public sealed class GradientTests
{
    private delegate bool Fit(ReadOnlySpan<Point2> places, out Arc arc);

    private static readonly Gen<double[]> Wobble = Gen.Double[-1, 1].Array[8];

    [Fact]
    public void Compute_ThreePlaces_AgreesWithDifferences() => Gen.Select(ArcGen.Truths, Gen.Double[0.25, 0.75]).Sample((t, f) =>
        Agree([t.At(0), t.At(f), t.At(1)], held: false, 1e-5, static (p, out arc) => Arc.TryThrough(p[0], p[1], p[2], 0, out arc, out _)));

    [Fact]
    public void Compute_FullCircleOfThree_AgreesWithDifferences() => Gen.Select(ArcGen.Round, Gen.Double[0.2, 0.5]).Sample((t, f) =>
    {
        var whole = t with { Sweep = double.Tau };
        Agree([whole.At(0), whole.At(f), whole.At(f + 0.3)], held: false, 1e-5, static (p, out arc) => Arc.TryFullCircle(p[0], p[1], p[2], 0, out arc, out _));
    });

    [Fact]
    public void Compute_HeldFit_AgreesWithDifferences() => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
        Agree(Places(t, wobble, 0.05 * Math.Min(t.Sagitta, t.Radius)), held: true, 1e-4,
            static (p, out arc) => { var made = ArcFitting.TryHeld(p, 0, out var fit, out _); arc = fit.Arc; return made; }));

    [Fact]
    public void Compute_FreeFit_AgreesWithDifferences() => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
        Agree(Places(t, wobble, 0.05 * Math.Min(t.Sagitta, t.Radius)), held: false, 1e-4,
            static (p, out arc) => { var made = ArcFitting.TryFree(p, 0, out var fit, out _); arc = fit.Arc; return made; }));

    [Fact]
    public void Compute_CircleFit_AgreesWithDifferences() => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
        Agree(Places(t with { Sweep = double.Tau * 7 / 8 }, wobble, 0.05 * t.Radius), held: false, 1e-4,
            static (p, out arc) => { var made = ArcFitting.TryCircle(p, 0, out var fit, out _); arc = fit.Arc; return made; }));

    [Fact]
    public void Compute_WeightedHeldFit_AgreesWithDifferences() => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
        Agree(Places(t, wobble, 0.05 * Math.Min(t.Sagitta, t.Radius)), held: true, 1e-4,
            static (p, out arc) => { var made = ArcFitting.TryHeld(p, 0, out var fit, out _, Weights); arc = fit.Arc; return made; }, Weights));

    [Fact]
    public void Compute_WeightedFreeFit_AgreesWithDifferences() => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
        Agree(Places(t, wobble, 0.05 * Math.Min(t.Sagitta, t.Radius)), held: false, 1e-4,
            static (p, out arc) => { var made = ArcFitting.TryFree(p, 0, out var fit, out _, Weights); arc = fit.Arc; return made; }, Weights));

    [Fact]
    public void Compute_FitWithoutResiduals_AgreesWithThreePlacesWhereOneMoves() => ArcGen.Round.Sample(t =>
    {
        // Without residuals a held fit through one place between is that arc: both routes must give one gradient.
        Point2[] three = [t.At(0), t.At(0.5), t.At(1)], four = [three[0], three[1], three[1], three[2]];
        ArcGradient[] a = new ArcGradient[3], b = new ArcGradient[4];
        ArcGradients.Compute(t.Arc, three, true, a);
        ArcGradients.Compute(t.Arc, four, true, b);
        Assert.Equal(a[1].RadiusE, b[1].RadiusE + b[2].RadiusE, 1e-6 * (1 + Math.Abs(a[1].RadiusE)));
        Assert.Equal(a[0].LengthN, b[0].LengthN, 1e-6 * (1 + Math.Abs(a[0].LengthN)));
        Assert.Equal(a[2].SegmentE, b[3].SegmentE, 1e-6 * (1 + Math.Abs(a[2].SegmentE)));
    });

    [Theory]
    [InlineData(Kind.Plan)]
    [InlineData(Kind.Slope)]
    [InlineData(Kind.Area)]
    public void Measures_OfAMixedPath_AgreeWithDifferencesAndAnswerToNoShift(Kind kind) => Gen.Select(ArcGen.Round, Wobble).Sample((t, wobble) =>
    {
        var vertices = Mixed(t, wobble, closed: kind == Kind.Area);
        Assert.True(Path.TryBuild(vertices, 1e-9, out var path, out var notes));
        Assert.Empty(notes);
        var measure = Of(path)!;
        Assert.Equal(kind switch { Kind.Plan => path.PlanLength, Kind.Slope => path.SlopeLength!.Value, _ => path.SignedArea!.Value }, measure.Value, 1e-12 * t.Radius * t.Radius + 1e-12);
        var scale = kind == Kind.Area ? t.Radius : 1;
        Assert.Equal(0, measure.Gradient.Sum(g => g.East), 1e-6 * scale);
        Assert.Equal(0, measure.Gradient.Sum(g => g.North), 1e-6 * scale);
        Assert.Equal(0, measure.Gradient.Sum(g => g.Height), 1e-9);
        var last = vertices.Length - 1;
        for (var v = 0; v < vertices.Length; v++)
        {
            if (kind == Kind.Area && v == last) continue; // the first again: moved with it
            var both = kind == Kind.Area && v == 0;
            double Term(Func<MeasureTerm, double> pick) => measure.Gradient.Where(g => g.Vertex == v || (both && g.Vertex == last)).Sum(pick);
            Check(Term(g => g.East), v, both, new(1, 0), 0);
            Check(Term(g => g.North), v, both, new(0, 1), 0);
            Check(Term(g => g.Height), v, both, default, 1);
        }

        void Check(double derivative, int vertex, bool both, Step way, double up)
        {
            var h = 1e-4 * Math.Min(t.Radius, t.Sagitta);
            Point2 plus = vertices[vertex].At + h * way, minus = vertices[vertex].At + -h * way;
            var run = up * 2 * h + (plus - minus).Size;
            var difference = (Moved(plus, up * h) - Moved(minus, -up * h)) / run;
            Assert.Equal(difference, derivative, 3e-4 * (scale + Math.Abs(derivative)));

            double Moved(Point2 at, double rise)
            {
                var moved = vertices.ToArray();
                moved[vertex] = moved[vertex] with { At = at, Height = moved[vertex].Height + rise };
                if (both) moved[last] = moved[last] with { At = at, Height = moved[last].Height + rise };
                Assert.True(Path.TryBuild(moved, 1e-9, out var other, out _));
                return Of(other)!.Value;
            }
        }

        Measure? Of(Path p) => kind switch { Kind.Plan => PathMeasures.PlanLength(p), Kind.Slope => PathMeasures.SlopeLength(p), _ => PathMeasures.Area(p) };
    }, iter: 50);

    [Fact]
    public void Radius_OfAFullCircle_IsThatOfItsArc()
    {
        var t = new ArcGen.Truth(ArcGen.Site, 5, 0, double.Tau, Turn.Left);
        PathVertex[] vertices = [new(t.At(0), 4, false), new(t.At(0.3), 4, true), new(t.At(0.6), 4, true), new(t.At(0), 4, false)];
        Assert.True(Path.TryBuild(vertices, 1e-4, out var path, out _));
        var measure = PathMeasures.Radius(path, 0);
        Assert.Equal(5, measure.Value, 1e-8);
        Assert.Equal(0, measure.Gradient.Sum(g => g.East), 1e-9);
        Assert.Equal(double.Tau * measure.Value, PathMeasures.PlanLength(path).Value, 1e-9);
        Assert.Equal(Math.PI * 25, PathMeasures.Area(path).Value, 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => ArcFitting.TryCircle([t.At(0), t.At(0.1), t.At(0.2)], 0, out _, out _, [1, 1, -1]));
    }

    [Fact]
    public void Measures_OverASpan_AddToWhatTheSpansHold()
    {
        var t = new ArcGen.Truth(ArcGen.Site, 5, 0, 2, Turn.Left);
        Assert.True(Path.TryBuild([new(t.At(0), 4, false), new(t.At(0.5), 5, true), new(t.At(1), 4, false)], 1e-4, out var path, out _));
        double[] east = [1, 2, 3], north = [4, 5, 6], height = [7, 8, 9];
        Assert.Equal(path.SlopeLength, PathMeasures.SlopeLength(path.Span, east, north, height));
        foreach (var term in PathMeasures.SlopeLength(path)!.Gradient)
        {
            Assert.Equal(1 + term.Vertex + term.East, east[term.Vertex], 1e-12);
            Assert.Equal(4 + term.Vertex + term.North, north[term.Vertex], 1e-12);
            Assert.Equal(7 + term.Vertex + term.Height, height[term.Vertex], 1e-12);
        }
        PathMeasures.Area(Closed().Span, new double[4], new double[4]);
        Assert.Throws<ArgumentException>(() => PathMeasures.Area(path.Span, new double[3], new double[3]));

        Path Closed()
        {
            Assert.True(Path.TryBuild([.. path.Vertices, path.Vertices[0]], 1e-4, out var closed, out _));
            return closed;
        }
    }

    public enum Kind { Plan, Slope, Area }

    private static readonly double[] Weights = [1, 4, 0.5, 2, 1, 3, 1, 2];

    private static Point2[] Places(ArcGen.Truth t, double[] wobble, double size) =>
        [.. wobble.Select((w, i) => t.At(i / (wobble.Length - 1.0), w * size))];

    /// <summary>A straight, an arc of one through-place, an arc fitted to three, and, closed, two straights home.</summary>
    private static PathVertex[] Mixed(ArcGen.Truth t, double[] wobble, bool closed)
    {
        var half = t with { Sweep = Math.Min(t.Sweep, 2.5) };
        var noise = 0.03 * half.Sagitta;
        List<PathVertex> v =
        [
            new(half.At(0, 3 + t.Radius), 5, false),
            new(half.At(0), 5.5, false),
            new(half.At(0.5), 5.9, true),
            new(half.At(1), 5.2, false),
        ];
        var next = new ArcGen.Truth(half.At(1) + (half.At(1) - half.Centre), half.Radius, half.Start + half.Sense * half.Sweep + Math.PI, half.Sweep, half.Turn == Turn.Left ? Turn.Right : Turn.Left);
        v.Add(new(next.At(0.25, wobble[0] * noise), 5.0 + wobble[3], true));
        v.Add(new(next.At(0.5, wobble[1] * noise), 4.4, true));
        v.Add(new(next.At(0.7, wobble[2] * noise), 4.4 + wobble[4], true));
        v.Add(new(next.At(1), 4, false));
        if (closed)
        {
            v.Add(new(next.At(1, t.Radius), 4.2, false));
            v.Add(v[0]);
        }
        return [.. v];
    }

    private static void Agree(Point2[] places, bool held, double relative, Fit fit, double[]? weights = null)
    {
        Assert.True(fit(places, out var arc));
        var gradients = new ArcGradient[places.Length];
        ArcGradients.Compute(arc, places, held, gradients, weights);

        // A shift moves the centre with it and nothing else.
        var size = gradients.Max(g => Math.Max(Math.Abs(g.RadiusE), Math.Abs(g.RadiusN)));
        Assert.Equal(1, gradients.Sum(g => g.CentreEastE), 1e-9 * (1 + size));
        Assert.Equal(0, gradients.Sum(g => g.CentreNorthE), 1e-9 * (1 + size));
        Assert.Equal(1, gradients.Sum(g => g.CentreNorthN), 1e-9 * (1 + size));
        Assert.Equal(0, gradients.Sum(g => g.RadiusE), 1e-9 * (1 + size));
        Assert.Equal(0, gradients.Sum(g => g.SweepN), 1e-9 * (1 + size));
        Assert.Equal(0, gradients.Sum(g => g.LengthE), 1e-8 * (1 + size));
        Assert.Equal(0, gradients.Sum(g => g.SegmentN), 1e-8 * (1 + size) * arc.Radius);

        var h = 1e-4 * Math.Min(arc.Sagitta, arc.Radius);
        for (var i = 0; i < places.Length; i++)
        {
            var g = gradients[i];
            Check(i, new(h, 0), (g.CentreEastE, g.CentreNorthE, g.RadiusE, g.SweepE, g.LengthE, g.SegmentE));
            Check(i, new(0, h), (g.CentreEastN, g.CentreNorthN, g.RadiusN, g.SweepN, g.LengthN, g.SegmentN));
        }

        void Check(int place, Step step, (double East, double North, double Radius, double Sweep, double Length, double Segment) g)
        {
            Point2 plus = places[place] + step, minus = places[place] + -1 * step;
            var run = (plus - minus).Size;
            Point2[] a = [.. places], b = [.. places];
            a[place] = plus;
            b[place] = minus;
            Assert.True(fit(a, out var up));
            Assert.True(fit(b, out var down));
            var rounding = 4e-9 / run; // the centre is kept to 1 nm
            Near((up.Centre - down.Centre).East / run, g.East, size, rounding);
            Near((up.Centre - down.Centre).North / run, g.North, size, rounding);
            Near((up.Radius - down.Radius) / run, g.Radius, size, 0);
            Near((up.Sweep - down.Sweep) / run, g.Sweep, size / arc.Radius, 0);
            Near((up.PlanLength - down.PlanLength) / run, g.Length, 1, 0);
            Near((up.SegmentArea - down.SegmentArea) / run, g.Segment, arc.Radius, 0);
        }

        void Near(double difference, double derivative, double scale, double rounding) =>
            Assert.Equal(difference, derivative, relative * (1 + scale + Math.Abs(derivative)) + rounding);
    }
}
