using Aslaid.Geometry;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

public class ArcGradientsBenchmarks
{
    private readonly Point2[][] shots = new Point2[Drawn.Operands][];
    private readonly Arc[] arcs = new Arc[Drawn.Operands];
    private ArcGradient[] gradients = [];

    /// <summary>Three make the arc; more are fitted, held at both ends.</summary>
    [Params(3, 7, 20)]
    public int Shots { get; set; }

    [GlobalSetup]
    public void Draw()
    {
        var random = new Random(3);
        gradients = new ArcGradient[Shots];
        for (var i = 0; i < Drawn.Operands; i++)
        {
            shots[i] = Drawn.AlongArc(random, Shots);
            if (!ArcFitting.TryHeld(shots[i], Drawn.Flatness, out var fit, out var fault)) throw new InvalidOperationException($"No arc was drawn: {fault}.");
            arcs[i] = fit.Arc;
        }
    }

    [Benchmark(OperationsPerInvoke = Drawn.Operands)]
    public double Compute()
    {
        var sum = 0.0;
        for (var i = 0; i < Drawn.Operands; i++)
        {
            ArcGradients.Compute(arcs[i], shots[i], held: true, gradients);
            sum += gradients[1].RadiusE;
        }

        return sum;
    }
}
