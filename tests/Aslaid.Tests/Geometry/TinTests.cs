using CsCheck;

namespace Aslaid.Tests;

public class TinTests
{
    private static readonly Point2 Somewhere = new(512_000, 6_243_000);

    private static Tin Made(IEnumerable<SurfacePoint> points, params int[] triangles) => Tin.TryOf([.. points], triangles, out var tin, out var fault) ? tin : throw new InvalidOperationException(fault);

    /// <summary>A field of squares in two triangles each, heights by a function of the step from <see cref="Somewhere"/>.</summary>
    private static Tin Field(int columns, int rows, double step, Func<double, double, double> height, params int[] without)
    {
        var points = new List<SurfacePoint>();
        for (var r = 0; r <= rows; r++)
            for (var c = 0; c <= columns; c++) points.Add(new(Somewhere + new Step(step * c, step * r), height(step * c, step * r)));
        var triangles = new List<int>();
        for (var r = 0; r < rows; r++)
            for (var c = 0; c < columns; c++)
            {
                if (without.Contains(r * columns + c)) continue;
                var a = r * (columns + 1) + c;
                triangles.AddRange([a, a + 1, a + columns + 2, a, a + columns + 2, a + columns + 1]);
            }

        return Made(points, [.. triangles]);
    }

    public static TheoryData<string, string> Cases => Reference.Cases("08_tin.json", "interpolate_z");

    [Theory]
    [MemberData(nameof(Cases))]
    public void HeightAt_PublishedTriangles_AgreesWithThem(string id, string source)
    {
        Assert.NotEmpty(source);
        var published = Reference.Case("08_tin.json", "interpolate_z", id);
        var corners = published.GetProperty("triangle_xyz").EnumerateArray().Select(corner => new SurfacePoint(corner.Point(), corner[2].GetDouble()));
        Assert.Equal(published.Number("published_z"), Made(corners, 0, 1, 2).HeightAt(published.GetProperty("point_xy").Point())!.Value, published.Number("tolerance"));
    }

    [Fact]
    public void HeightAt_OnAPlane_IsThePlane()
    {
        var tin = Field(30, 20, 5, (e, n) => 6 + 0.02 * e - 0.03 * n);
        Gen.Select(Gen.Double[0, 150], Gen.Double[0, 100]).Sample((e, n) =>
        {
            Assert.Equal(6 + 0.02 * e - 0.03 * n, tin.HeightAt(Somewhere + new Step(e, n))!.Value, 1e-8);
            var slope = tin.SlopeAt(Somewhere + new Step(e, n))!.Value;
            Assert.Equal((0.02, -0.03), (Math.Round(slope.East, 6), Math.Round(slope.North, 6)));
        });
    }

    [Fact]
    public void HeightAt_EveryTriangle_IsFoundByItsMiddle()
    {
        var numbers = new Random(5);
        var tin = Field(40, 30, 3, (_, _) => numbers.NextDouble());
        for (var t = 0; t < tin.TriangleCount; t++)
        {
            var (a, b, c) = (tin.Corner(t, 0), tin.Corner(t, 1), tin.Corner(t, 2));
            Assert.Equal(t, tin.TriangleAt(a.At + 1.0 / 3 * ((b.At - a.At) + (c.At - a.At))));
            Assert.NotNull(tin.HeightAt(a.At));
        }
    }

    [Fact]
    public void HeightAt_OutsideAndInAVoid_IsNull()
    {
        var tin = Field(4, 4, 10, (_, _) => 5, 5);
        Assert.Null(tin.HeightAt(Somewhere + new Step(15, 15)));
        Assert.Null(tin.HeightAt(Somewhere + new Step(-1, 15)));
        Assert.Equal(5, tin.HeightAt(Somewhere + new Step(25, 15)));
    }

    [Fact]
    public void Section_AcrossTheField_IsEvenBetweenItsPlaces()
    {
        var numbers = new Random(7);
        var tin = Field(20, 20, 5, (_, _) => 5 + numbers.NextDouble());
        Assert.True(Path.TryBuild([new(Somewhere + new Step(3, 7), null, false), new(Somewhere + new Step(60, 30), null, false), new(Somewhere + new Step(80, 60), null, true), new(Somewhere + new Step(50, 90), null, false)], 0, out var path, out _));
        var section = tin.Section(path);
        for (var chainage = 0.0; chainage < path.PlanLength; chainage += 0.37)
        {
            var after = section.ToList().FindIndex(point => point.Chainage >= chainage);
            var (low, high) = (section[Math.Max(0, after - 1)], section[after]);
            var even = high.Chainage > low.Chainage ? low.Height!.Value + (high.Height!.Value - low.Height.Value) * (chainage - low.Chainage) / (high.Chainage - low.Chainage) : low.Height!.Value;
            Assert.Equal(tin.HeightAt(path.PointAt(chainage))!.Value, even, 2e-3); // chords of 1 mm sagitta
        }
    }

    [Fact]
    public void Section_OverAVoid_SaysSo()
    {
        var tin = Field(3, 1, 10, (_, _) => 5, 1);
        Assert.True(Path.TryBuild([new(Somewhere + new Step(1, 5), null, false), new(Somewhere + new Step(29, 5), null, false)], 0, out var path, out _));
        var section = tin.Section(path);
        Assert.Contains(section, point => point.Height is null && point.Chainage is > 9 and < 19);
        Assert.Equal(5, section[^1].Height);
        Assert.Contains(section, point => point.Height == 5 && Math.Abs(point.Chainage - 9) < 1e-6); // its rim
    }

    [Fact]
    public void TryOf_NothingWithAnArea_SaysSo()
    {
        Assert.False(Tin.TryOf([new(new(0, 0), 1), new(new(1, 0), 1), new(new(2, 0), 1)], [0, 1, 2], out _, out var fault));
        Assert.Equal("the surface has no triangle with an area", fault);
        Assert.False(Tin.TryOf([new(new(0, 0), 1)], [0, 1, 2], out _, out fault));
        Assert.Equal("triangle 1 names a point that is not there", fault);
        Assert.False(Tin.TryOf([new(new(0, 0), double.NaN), new(new(1, 0), 1), new(new(2, 1), 1)], [0, 1, 2], out _, out fault));
        Assert.Equal("triangle 1 has a corner that is not finite", fault);
    }
}
