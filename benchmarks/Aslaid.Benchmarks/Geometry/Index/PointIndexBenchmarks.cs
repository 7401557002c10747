using Aslaid.Geometry;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>Searches cost per search, at the same density whatever the size.</summary>
public class PointIndexBenchmarks
{
    private readonly List<int> found = [];
    private Point2[] asked = [];
    private double[] east = [];
    private double[] north = [];
    private PointIndex index = PointIndex.Of([], []);

    [Params(10_000, 100_000, 1_000_000)]
    public int Points { get; set; }

    [GlobalSetup]
    public void Draw()
    {
        var random = new Random(4);
        var places = Drawn.Scattered(random, Points);
        (east, north) = ([.. places.Select(place => place.East)], [.. places.Select(place => place.North)]);
        asked = Drawn.Scattered(random, Points)[..Drawn.Operands];
        index = PointIndex.Of(east, north);
    }

    [Benchmark]
    public PointIndex Of() => PointIndex.Of(east, north);

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public int NearWithinFiveMetres()
    {
        found.Clear();
        foreach (var place in asked) index.Near(place, 5, found);
        return found.Count;
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double Nearest()
    {
        var sum = 0.0;
        foreach (var place in asked)
        {
            index.Nearest(place, out var distance);
            sum += distance;
        }

        return sum;
    }
}
