namespace Aslaid.Tests;

/// <summary>Arcs as crews meet them, at a real distance from the grid's origin.</summary>
internal static class ArcGen
{
    internal static readonly Point2 Site = new(512_000, 6_243_000);

    /// <summary>An arc known by its making, from which places are taken.</summary>
    internal readonly record struct Truth(Point2 Centre, double Radius, double Start, double Sweep, Turn Turn)
    {
        internal double Sense => Turn == Turn.Left ? 1 : -1;

        /// <summary>The place at a fraction of the sweep, moved outward by some metres.</summary>
        internal Point2 At(double fraction, double outward = 0)
        {
            var (sin, cos) = Math.SinCos(Start + Sense * fraction * Sweep);
            return Centre + (Radius + outward) * new Step(cos, sin);
        }

        internal Arc Arc => Arc.Through(At(0), At(0.5), At(1), 1e-6);

        internal double Sagitta => 2 * Radius * Math.Pow(Math.Sin(Sweep / 4), 2);
    }

    internal static Gen<Point2> Place(double reach) => Gen.Select(Gen.Double[-reach, reach], Gen.Double[-reach, reach], (e, n) => Site + new Step(e, n));

    /// <summary>Radius 0.5 m to 3 km, sweep 2° to 330°, either turn.</summary>
    internal static readonly Gen<Truth> Truths = Gen.Select(Place(500), Gen.Double[Math.Log(0.5), Math.Log(3000)], Gen.Double[0, double.Tau], Gen.Double[0.035, 5.76], Gen.Bool,
        (centre, logRadius, start, sweep, left) => new Truth(centre, Math.Exp(logRadius), start, sweep, left ? Turn.Left : Turn.Right));

    /// <summary>The same, radius to 60 m: nothing about it is nearly straight.</summary>
    internal static readonly Gen<Truth> Round = Gen.Select(Place(500), Gen.Double[2, 60], Gen.Double[0, double.Tau], Gen.Double[0.3, 5.5], Gen.Bool,
        (centre, radius, start, sweep, left) => new Truth(centre, radius, start, sweep, left ? Turn.Left : Turn.Right));
}
