using System.Collections.Immutable;

namespace Aslaid.Geometry;

/// <summary>
/// A transition curve whose curvature grows evenly along it (Euler's spiral), from any curvature to any other. Metres; curvature 1/m, left
/// (anticlockwise) positive. <c>default</c> is a dot.
/// </summary>
/// <param name="From">Its start.</param>
/// <param name="Start">The way it heads at its start.</param>
/// <param name="CurvatureFrom">Curvature at its start, 0 for a tangent.</param>
/// <param name="CurvatureTo">Curvature at its end.</param>
/// <param name="Length">Metres along it, 0 or more.</param>
/// <remarks>The integrals of Fresnel are taken by Gauss and Legendre's rule of ten points over stretches that turn by less than
/// half a radian: its error is below a nanometre for lengths of kilometres (tested against sixteen digits).</remarks>
public readonly record struct Clothoid(Point2 From, Bearing Start, double CurvatureFrom, double CurvatureTo, double Length)
{
    private static readonly double[] Nodes = [0.1488743389816312, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717];
    private static readonly double[] Weights = [0.2955242247147529, 0.2692667193099963, 0.2190863625159820, 0.1494513491505806, 0.0666713443086881];
    private const double MostTurn = 0.5; // radians over which the rule is taken at once

    /// <summary>Its end.</summary>
    public Point2 To => PointAt(Length);

    /// <summary>The way it heads at its end.</summary>
    public Bearing End => BearingAt(Length);

    /// <summary>The curvature at a chainage, 1/m, left positive.</summary>
    public double CurvatureAt(double along) => Length > 0 ? CurvatureFrom + (CurvatureTo - CurvatureFrom) * (along / Length) : CurvatureFrom;

    /// <summary>The way it heads at a chainage, metres from its start.</summary>
    public Bearing BearingAt(double along) => Bearing.FromRadians(Start.Radians - TurnAt(along));

    /// <summary>The place at a chainage, metres from its start.</summary>
    public Point2 PointAt(double along) => From + Step(0, along);

    /// <summary>
    /// The fewest equal stretches whose arcs, through both ends and the middle of each, leave the clothoid by no more than a tolerance.
    /// </summary>
    /// <param name="tolerance">Metres, above 0.</param>
    /// <remarks>Over a stretch h the angle off the arc is a parabola; it leaves the arc by at most √3/216 · k′h³, k′ the change of curvature per metre.</remarks>
    public int ArcsWithin(double tolerance)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tolerance);
        if (!(Length > 0)) return 1;
        var growth = Math.Abs(CurvatureTo - CurvatureFrom) / Length;
        var byShape = growth > 0 ? Length / Math.Cbrt(tolerance * 216 / (Math.Sqrt(3) * growth)) : 0;
        var byTurn = Math.Max(Math.Abs(CurvatureFrom), Math.Abs(CurvatureTo)) * Length / MostTurn;
        var count = Math.Ceiling(Math.Max(byShape, byTurn));
        if (!(count <= MostArcs)) throw new ArgumentOutOfRangeException(nameof(tolerance), tolerance, "So small a tolerance in metres needs more arcs than can be counted.");
        return Math.Max(1, (int)count);
    }

    /// <summary>Chainages of the ends of those arcs and of their middles, from 0 to the length: two a stretch and one.</summary>
    public ImmutableArray<double> StationsWithin(double tolerance)
    {
        var count = 2 * ArcsWithin(tolerance);
        var stations = ImmutableArray.CreateBuilder<double>(count + 1);
        for (var i = 0; i <= count; i++) stations.Add(Length * i / count);
        return stations.MoveToImmutable();
    }

    private const int MostArcs = 100_000;

    private double TurnAt(double along) => along * (CurvatureFrom + (Length > 0 ? (CurvatureTo - CurvatureFrom) * along / (2 * Length) : 0));

    private Step Step(double from, double to)
    {
        var most = Math.Max(Math.Abs(CurvatureFrom), Math.Abs(CurvatureTo));
        var parts = Math.Max(1, (int)Math.Min(1e6, Math.Ceiling(Math.Abs(to - from) * most / MostTurn)));
        var (east, north) = (0.0, 0.0);
        for (var part = 0; part < parts; part++)
        {
            double a = from + (to - from) * part / parts, b = from + (to - from) * (part + 1) / parts;
            double middle = (a + b) / 2, half = (b - a) / 2;
            for (var i = 0; i < Nodes.Length; i++)
            {
                foreach (var side in (ReadOnlySpan<double>)[-1, 1])
                {
                    var (sin, cos) = Math.SinCos(Start.Radians - TurnAt(middle + side * half * Nodes[i]));
                    east += Weights[i] * half * sin;
                    north += Weights[i] * half * cos;
                }
            }
        }

        return new(east, north);
    }

    /// <summary>Length and curvatures, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{From}, {Start}, {Length:0.0000} m, curvature {CurvatureFrom:G6} to {CurvatureTo:G6} 1/m");
}
