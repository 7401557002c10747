using Aslaid.Geometry;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

public class ArcBenchmarks
{
    private readonly Point2[][] shots = new Point2[Drawn.Operands][];
    private readonly Arc[] arcs = new Arc[Drawn.Operands];
    private readonly Point2[] beside = new Point2[Drawn.Operands];

    [GlobalSetup]
    public void Draw()
    {
        var random = new Random(1);
        for (var i = 0; i < Drawn.Operands; i++)
        {
            shots[i] = Drawn.AlongArc(random, 3);
            arcs[i] = Arc.Through(shots[i][0], shots[i][1], shots[i][2], Drawn.Flatness);
            beside[i] = shots[i][1] + new Step(random.NextDouble(), random.NextDouble());
        }
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double TryThrough()
    {
        var sum = 0.0;
        foreach (var three in shots)
            if (Arc.TryThrough(three[0], three[1], three[2], Drawn.Flatness, out var arc, out _)) sum += arc.Radius;
        return sum;
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double Locate()
    {
        var sum = 0.0;
        for (var i = 0; i < Drawn.Operands; i++) sum += arcs[i].Locate(beside[i]).Offset;
        return sum;
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double Box()
    {
        var sum = 0.0;
        foreach (var arc in arcs) sum += arc.Box.MaxEast;
        return sum;
    }
}
