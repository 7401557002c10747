using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>What is propagated is what happens: 100 000 draws of the shots, every measure taken anew from each (JCGM 101:2008).</summary>
public sealed class MeasureMonteCarloTests
{
    private const double Within = 0.02;
    private const double MiddleOfBend = 1.0 / 3;

    /// <summary>Rows by id, through-shots by their id behind a dash.</summary>
    private static readonly Dictionary<string, int> Rows =
        MeasureScene.Ids.SelectMany(id => new[] { id, "-" + id }).ToDictionary(id => id, id => MeasureScene.Row(id.TrimStart('-')));

    /// <summary>A draw: the paths built anew through the shots as drawn.</summary>
    private sealed class Drawn(MonteCarlo shots)
    {
        public MonteCarlo Shots => shots;

        public Path A { get; } = Built(shots, "a0", "a1", "a2", "-a3", "a4", "a5", "-a6", "-a7", "a8", "a9");

        public Path G { get; } = Built(shots, "g0", "g1", "-g2", "g3", "g4", "g0");

        public double Height(string id) => shots.Height[Rows[id]];

        public Point2 At(string id) => shots.At(Rows[id]);

        public Straight Line(string from, string to) => new(At(from), At(to));

        public double Fall(int from, int to) => (A.Vertices[from].Height!.Value - A.Vertices[to].Height!.Value) / (A.Chainages[to] - A.Chainages[from]);

        private static Path Built(MonteCarlo shots, params ReadOnlySpan<string> ids)
        {
            var vertices = new PathVertex[ids.Length];
            for (var i = 0; i < ids.Length; i++) vertices[i] = shots.Vertex(Rows[ids[i]], ids[i][0] == '-');
            Path.TryBuild(vertices, 0, out var path, out _);
            return path!;
        }
    }

    /// <summary>How a measure is taken from a draw, by its name in <see cref="MeasureScene.Measures"/>.</summary>
    private static readonly Dictionary<string, Func<Drawn, double>> Taken = new()
    {
        ["height difference"] = drawn => drawn.Height("b1") - drawn.Height("a0"),
        ["plan distance"] = drawn => drawn.At("a0").DistanceTo(drawn.At("b1")),
        ["slope distance"] = drawn => double.Hypot(drawn.At("a0").DistanceTo(drawn.At("p0")), drawn.Height("p0") - drawn.Height("a0")),
        ["length in plan"] = drawn => drawn.A.PlanLength,
        ["length on the slope"] = drawn => drawn.A.SlopeLength!.Value,
        ["area"] = drawn => drawn.G.SignedArea!.Value,
        ["fall of a straight leg"] = drawn => drawn.Fall(0, 1),
        ["fall between through-shots"] = drawn => drawn.Fall(3, 7),
        ["fall of the run"] = drawn => drawn.Fall(0, 9),
        ["change of fall at a shot"] = drawn => drawn.Fall(1, 2) - drawn.Fall(0, 1),
        ["break into an arc"] = drawn => drawn.A.Span.StraightOf(1).Bearing.To(drawn.A.Pieces[2].Arc.BearingAt(0)),
        ["break out of a best-fit arc"] = drawn => drawn.A.Pieces[4].Arc.BearingAt(drawn.A.Pieces[4].Arc.PlanLength).To(drawn.A.Span.StraightOf(5).Bearing),
        ["radius"] = drawn => drawn.A.Pieces[2].Arc.Radius,
        ["radius of a best fit"] = drawn => drawn.A.Pieces[4].Arc.Radius,
        ["offset from a straight"] = drawn => drawn.A.Locate(drawn.At("p0")).Offset,
        ["offset from a best-fit arc"] = drawn => drawn.A.Locate(drawn.At("p2")).Offset,
        ["chainage on an arc"] = drawn => drawn.A.Locate(drawn.At("p1")).Along,
        ["height above an arc"] = drawn => drawn.Height("p1") - drawn.A.HeightAt(drawn.A.Locate(drawn.At("p1")).Along)!.Value,
        ["cover below three shots"] = Cover,
        ["separation at an arc"] = drawn => Meet.Nearest(drawn.A.Pieces[4].Arc, drawn.Line("e0", "e1")).Distance - 0.2,
        ["gap of straights"] = Gap,
    };

    [Fact]
    public void U_OfEveryMeasure_IsTheSpreadOfItsDraws()
    {
        var record = MeasureScene.AsDrawn;
        var shots = new MonteCarlo(record, 20260310);
        shots.Still();
        var names = Taken.Keys.ToArray();
        var measures = names.Select(name => MeasureScene.Measures[name](record)!).ToArray();
        var still = new Drawn(shots);
        for (var i = 0; i < names.Length; i++) Assert.True(Math.Abs(Taken[names[i]](still) - measures[i].Value) < 1e-8, $"{names[i]} is {measures[i].Value}, taken {Taken[names[i]](still)}");

        var (sum, squares) = (new double[names.Length], new double[names.Length]);
        var take = names.Select(name => Taken[name]).ToArray();
        for (var draw = 0; draw < MonteCarlo.Draws; draw++)
        {
            shots.Draw();
            var drawn = new Drawn(shots);
            for (var i = 0; i < take.Length; i++)
            {
                var off = take[i](drawn) - measures[i].Value;
                sum[i] += off;
                squares[i] += off * off;
            }
        }

        for (var i = 0; i < names.Length; i++)
        {
            var mean = sum[i] / MonteCarlo.Draws;
            var (spread, u) = (Math.Sqrt(squares[i] / MonteCarlo.Draws - mean * mean), measures[i].U(record.Shots)!.Value);
            TestContext.Current.SendDiagnosticMessage($"{names[i]}: u {u:G5}, spread {spread:G5}, ratio {spread / u:0.0000}");
            Assert.True(Math.Abs(spread / u - 1) < Within, $"{names[i]}: u {u:G5}, its draws spread by {spread:G5}");
        }
    }

    /// <summary>The plane through three surface shots, above the place at its share of the arc.</summary>
    private static double Cover(Drawn drawn)
    {
        var arc = drawn.A.Pieces[2].Arc;
        var (along, origin) = (MiddleOfBend * arc.PlanLength, drawn.At("s0"));
        var (place, first, second) = (arc.PointAt(along) - origin, drawn.At("s1") - origin, drawn.At("s2") - origin);
        var (low, rise1, rise2) = (drawn.Height("s0"), drawn.Height("s1") - drawn.Height("s0"), drawn.Height("s2") - drawn.Height("s0"));
        var surface = low + (place.Cross(second) * rise1 + first.Cross(place) * rise2) / first.Cross(second);
        return surface - drawn.A.HeightAt(drawn.A.Chainages[2] + along)!.Value - 0.11;
    }

    private static double Gap(Drawn drawn)
    {
        Span<Point2> at = stackalloc Point2[Meet.Most];
        var (upper, lower) = (drawn.A.Span.StraightOf(1), drawn.Line("b1", "b2"));
        Meet.Intersect(upper, lower, 1e-6, at);
        return Height("a1", "a2", upper.Locate(at[0]).Along / upper.PlanLength) - Height("b1", "b2", lower.Locate(at[0]).Along / lower.PlanLength) - 0.3;

        double Height(string from, string to, double share) => drawn.Height(from) + share * (drawn.Height(to) - drawn.Height(from));
    }
}
