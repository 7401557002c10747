using Aslaid.Geometry;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

public class ArcFittingBenchmarks
{
    private readonly Point2[][] shots = new Point2[Drawn.Operands][];

    [Params(4, 7, 20)]
    public int Shots { get; set; }

    [GlobalSetup]
    public void Draw()
    {
        var random = new Random(2);
        for (var i = 0; i < Drawn.Operands; i++) shots[i] = Drawn.AlongArc(random, Shots);
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double TryHeld()
    {
        var sum = 0.0;
        foreach (var places in shots)
            if (ArcFitting.TryHeld(places, Drawn.Flatness, out var fit, out _)) sum += fit.RmsResidual;
        return sum;
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double TryFree()
    {
        var sum = 0.0;
        foreach (var places in shots)
            if (ArcFitting.TryFree(places, Drawn.Flatness, out var fit, out _)) sum += fit.RmsResidual;
        return sum;
    }
}
