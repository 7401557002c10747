using Aslaid.Geometry;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>Searches cost per search, at the same density whatever the size.</summary>
public class BoxIndexBenchmarks
{
    private readonly List<int> found = [];
    private Point2[] asked = [];
    private Box2[] boxes = [];
    private BoxIndex index = BoxIndex.Of([]);

    [Params(10_000, 100_000, 1_000_000)]
    public int Boxes { get; set; }

    [GlobalSetup]
    public void Draw()
    {
        var random = new Random(5);
        boxes = [.. Drawn.Scattered(random, Boxes).Select(place => Box2.Of(place, place + new Step(5 * random.NextDouble(), 5 * random.NextDouble())))];
        asked = Drawn.Scattered(random, Boxes)[..Drawn.Operands];
        index = BoxIndex.Of(boxes);
    }

    [Benchmark]
    public BoxIndex Of() => BoxIndex.Of(boxes);

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public int QueryTenMetresSquare()
    {
        found.Clear();
        foreach (var place in asked) index.Query(Box2.Of(place, place + new Step(10, 10)), found);
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
