using Aslaid.Exchange;

namespace Aslaid.Tests;

/// <summary>Curves of the invented site, made from the truth: centres, radii and angles.</summary>
internal static class CurveGen
{
    /// <summary>An arc by what it was made from. Angles in radians, anticlockwise from east; the sweep's sign is its sense.</summary>
    public sealed record TrueArc(double CentreEast, double CentreNorth, double Radius, double From, double Sweep)
    {
        public double Length => Radius * Math.Abs(Sweep);

        public CurveVertex At(double share, bool onArc) => new(
            CentreEast + Radius * Math.Cos(From + Sweep * share), CentreNorth + Radius * Math.Sin(From + Sweep * share), 5 + share, share * Length, onArc);

        public CurveVertex[] Vertices => [At(0, false), At(0.5, true), At(1, false)];
    }

    private static readonly Gen<double> Share = Gen.Double[0, 1];

    public static Gen<TrueArc> Arc { get; } = Gen.Select(Gen.Double[-500, 500], Gen.Double[-500, 500], Gen.Double[0, 3], Gen.Double[0, Math.Tau], Gen.Double[0.05, 6.0], Gen.Bool)
        .Select(x => new TrueArc(512_000 + x.Item1, 6_243_000 + x.Item2, Math.Pow(10, x.Item3), x.Item4, x.Item6 ? x.Item5 : -x.Item5));

    /// <summary>Any valid sequence of straights and arcs, the geometry of the arcs left to chance.</summary>
    public static Gen<CurveVertex[]> Any { get; } = Gen.Select(Share, Share, Share, Share, Gen.Bool).Array[3, 40].Select(all =>
    {
        var vertices = all.Select(x => new CurveVertex(512_000 + 100 * x.Item1, 6_243_000 + 100 * x.Item2, 4 + 4 * x.Item3, 100 * x.Item4, x.Item5)).ToArray();
        for (var i = 0; i < vertices.Length; i++)
            if (vertices[i].OnArc && (i == 0 || i == vertices.Length - 1 || vertices[i - 1].OnArc)) vertices[i] = vertices[i] with { OnArc = false };
        return vertices;
    });
}
