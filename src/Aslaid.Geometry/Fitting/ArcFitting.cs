namespace Aslaid.Geometry;

/// <summary>Arcs and circles of least squared distance from places, in order along the arc.</summary>
/// <remarks>Residual r = ρ − R, outside positive, ρ the distance from the centre. Newton's method, damped after Levenberg and
/// Marquardt; it settles when a step would move the arc by less than 1e-14 of the places' spread plus the rounding of the
/// radius, and gives up with <see cref="ArcFault.NotConverged"/> after 100 steps. Optional weights are 1/u², u the standard
/// uncertainty of a place across the arc in metres; none means 1. Spans for residuals may be empty.</remarks>
public static partial class ArcFitting
{
    private const int StepCap = 100;
    private const double Rounding = 2.220446049250313e-16; // the step of a double at 1

    /// <summary>The best arc, free of all places.</summary>
    /// <param name="flatness">Metres; a fit whose sagitta is no more is <see cref="ArcFault.Straight"/>.</param>
    /// <param name="weights">Per place, above 0.</param>
    /// <param name="residuals">Receives metres, per place.</param>
    /// <remarks>Seeds: the better of Kåsa's circle and the unit-norm circle.</remarks>
    public static bool TryFree(ReadOnlySpan<Point2> places, double flatness, out ArcFit fit, out ArcFault fault,
        ReadOnlySpan<double> weights = default, Span<double> residuals = default)
    {
        fit = default;
        if (!TrySettle(places, weights, out var circle, out fault)) return false;
        var turned = TotalTurn(places, circle.Centre, closed: false);
        var (from, to) = (circle.Foot(places[0]), circle.Foot(places[^1]));
        var turn = turned > 0 ? Turn.Left : Turn.Right;
        var sweep = Arc.FromParts(from, to, circle.Centre, circle.Radius, 0, turn).AngleTo(places[0] - circle.Centre, places[^1] - circle.Centre);
        fault = ArcFault.Coincident;
        if (sweep == 0) return false;
        var arc = Arc.FromParts(from, to, circle.Centre, circle.Radius, sweep, turn);
        fault = ArcFault.Straight;
        if (arc.Sagitta <= flatness) return false;
        return TryJudge(circle, places, weights, arc, residuals, out fit, out fault);
    }

    /// <summary>The best full circle, free of all places; it starts at the foot of the first and turns the way they are ordered.</summary>
    /// <param name="flatness">Metres; a circle whose diameter is no more is <see cref="ArcFault.Straight"/>.</param>
    /// <param name="weights">Per place, above 0.</param>
    /// <param name="residuals">Receives metres, per place.</param>
    public static bool TryCircle(ReadOnlySpan<Point2> places, double flatness, out ArcFit fit, out ArcFault fault,
        ReadOnlySpan<double> weights = default, Span<double> residuals = default)
    {
        fit = default;
        if (!TrySettle(places, weights, out var circle, out fault)) return false;
        fault = ArcFault.Straight;
        if (2 * circle.Radius <= flatness) return false;
        var turn = TotalTurn(places, circle.Centre, closed: true) >= 0 ? Turn.Left : Turn.Right;
        var start = circle.Foot(places[0]);
        return TryJudge(circle, places, weights, Arc.FromParts(start, start, circle.Centre, circle.Radius, double.Tau, turn), residuals, out fit, out fault);
    }

    /// <summary>Too few different places fit as well on many circles: the normal matrix tells.</summary>
    private static bool TryJudge(Circle circle, ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights, in Arc arc, Span<double> residuals, out ArcFit fit, out ArcFault fault)
    {
        var determined = circle.TryJudge(places, weights, arc, residuals, out fit);
        fault = determined ? ArcFault.None : ArcFault.Coincident;
        return determined;
    }

    /// <summary>Radians turned about a centre from place to place, left positive.</summary>
    private static double TotalTurn(ReadOnlySpan<Point2> places, Point2 centre, bool closed)
    {
        var sum = 0.0;
        for (var i = closed ? 0 : 1; i < places.Length; i++)
        {
            Step before = places[i > 0 ? i - 1 : places.Length - 1] - centre, here = places[i] - centre;
            sum += Math.Atan2(before.Cross(here), before.Dot(here));
        }
        return sum;
    }

    private static bool TrySettle(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights, out Circle circle, out ArcFault fault)
    {
        CheckWeights(places, weights);
        circle = default;
        fault = ArcFault.Coincident;
        if (places.Length < 3) return false;
        var mean = AlgebraicCircle.Mean(places);
        var spread = 0.0;
        foreach (var p in places) spread += (p - mean).SizeSquared;
        spread = Math.Sqrt(spread / places.Length);
        if (spread == 0) return false;

        fault = ArcFault.Straight;
        var kasa = AlgebraicCircle.TryKasa(places, out var a);
        var unit = AlgebraicCircle.TryUnitNorm(places, mean, spread, out var b);
        if (!kasa && !unit) return false;
        var first = new Circle(mean, a.Centre - mean, a.Radius);
        var second = new Circle(mean, b.Centre - mean, b.Radius);
        circle = !unit || (kasa && first.SumOfSquares(places, weights) <= second.SumOfSquares(places, weights)) ? first : second;

        var sum = circle.SumOfSquares(places, weights);
        var total = TotalWeight(places, weights);
        var damping = 0.0;
        for (var step = 0; step < StepCap; step++)
        {
            if (!(circle.Radius < 1e7 * spread)) return false; // straight to a hundred-millionth of its length
            var moved = circle.Newton(places, weights, damping, out var effect);
            if (effect <= 1e-14 * spread + 4 * Rounding * circle.Radius)
            {
                if (damping == 0)
                {
                    circle = moved;
                    fault = ArcFault.None;
                    return true;
                }
                damping = 0; // small because it was damped: ask again
                continue;
            }
            var after = moved.SumOfSquares(places, weights);
            if (moved.Radius > 0 && after <= sum + Slack(sum, total, spread + circle.Radius))
            {
                circle = moved;
                sum = after;
                damping = damping < 1e-8 ? 0 : damping / 10;
            }
            else damping = Math.Max(1e-6, 10 * damping);
        }
        fault = ArcFault.NotConverged;
        return false;
    }

    private static void CheckWeights(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights)
    {
        if (!weights.IsEmpty && weights.Length != places.Length)
            throw new ArgumentException($"There are {weights.Length} weights for {places.Length} places.", nameof(weights));
        foreach (var w in weights)
            if (!(w > 0 && double.IsFinite(w))) throw new ArgumentOutOfRangeException(nameof(weights), w, "A weight (1/m²) is above 0 and finite.");
    }

    /// <summary>How much of a rise in a sum of squares is only rounding, residuals being differences of numbers of a size. Near the least
    /// the sum cannot tell places nearer to it than the root of this, where Newton's step still can.</summary>
    private static double Slack(double sum, double totalWeight, double size)
    {
        var noise = 8 * Rounding * size * Math.Sqrt(totalWeight);
        return noise * Math.Sqrt(sum) + noise * noise;
    }

    private static double TotalWeight(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights)
    {
        var total = 0.0;
        for (var i = 0; i < places.Length; i++) total += WeightOf(weights, i);
        return total;
    }

    private static double WeightOf(ReadOnlySpan<double> weights, int i) => weights.IsEmpty ? 1 : weights[i];

    /// <summary>A circle in the settling: its centre reckoned from the places' mean.</summary>
    private readonly record struct Circle(Point2 Mean, Step FromMean, double Radius)
    {
        internal Point2 Centre => Mean + FromMean;

        internal Point2 Foot(Point2 place)
        {
            var outward = place - Centre;
            return Centre + Radius / outward.Size * outward;
        }

        internal double SumOfSquares(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights)
        {
            var sum = 0.0;
            for (var i = 0; i < places.Length; i++)
            {
                var r = (places[i] - Mean - FromMean).Size - Radius;
                sum += WeightOf(weights, i) * r * r;
            }
            return sum;
        }

        /// <summary>The way from the centre to the places; any way where they lie round it.</summary>
        internal Step Outward => FromMean.Size > 1e-3 * Radius ? -1 / FromMean.Size * FromMean : new(1, 0);

        /// <summary>One step. Unknowns are the arc's move outward at its middle, the centre's move sideways, and the centre's move
        /// outward with the middle held: on a flat arc these three are told apart where centre and radius are not.</summary>
        /// <param name="effect">Root mean square of the arc's moves at the places, metres.</param>
        internal Circle Newton(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights, double damping, out double effect)
        {
            Step u = Outward, v = u.Left;
            Symmetric3 gauss = default, full = default;
            double x = 0, y = 0, z = 0, total = 0;
            for (var i = 0; i < places.Length; i++)
            {
                var w = WeightOf(weights, i);
                var beam = Beam.Of(places[i] - Mean - FromMean, u, v);
                var r = beam.Reach - Radius;
                gauss.Add(w, -1, beam.Side, beam.Fall);
                full.Add(w, -1, beam.Side, beam.Fall);
                full.Add(w * r / beam.Reach, 0, beam.TangentV, beam.TangentU);
                x -= w * r;
                y += w * r * beam.Side;
                z += w * r * beam.Fall;
                total += w;
            }
            var used = full;
            Damp(ref used, gauss, damping);
            if (!used.TryInvert(out var inverse))
            {
                used = gauss;
                Damp(ref used, gauss, Math.Max(damping, 1e-12));
                if (!used.TryInvert(out inverse))
                {
                    effect = double.PositiveInfinity;
                    return this with { Radius = -1 }; // refused by the caller, who damps more
                }
            }
            var (outward, sideways, back) = inverse.Times(-x, -y, -z);
            var (px, py, pz) = gauss.Times(outward, sideways, back);
            effect = Math.Sqrt(Math.Max(0, outward * px + sideways * py + back * pz) / total);
            return new(Mean, FromMean + back * u + sideways * v, Radius + outward - back);

            static void Damp(ref Symmetric3 m, in Symmetric3 by, double factor)
            {
                m.A += factor * by.A;
                m.D += factor * by.D;
                m.F += factor * by.F;
            }
        }

        internal bool TryJudge(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights, in Arc arc, Span<double> residuals, out ArcFit fit)
        {
            fit = default;
            Step u = Outward, v = u.Left;
            Symmetric3 normal = default;
            double sum = 0, plain = 0;
            for (var i = 0; i < places.Length; i++)
            {
                var beam = Beam.Of(places[i] - Mean - FromMean, u, v);
                var r = beam.Reach - Radius;
                var w = WeightOf(weights, i);
                normal.Add(w, -1, beam.Side, beam.Fall);
                sum += w * r * r;
                plain += r * r;
                if (!residuals.IsEmpty) residuals[i] = r;
            }
            if (!normal.TryInvert(out var q)) return false;
            var freedom = places.Length - 3;
            var outlier = -1;
            double? largest = null;
            for (var i = 0; freedom > 0 && i < places.Length; i++)
            {
                var beam = Beam.Of(places[i] - Mean - FromMean, u, v);
                var (a, b, c) = q.Times(-1, beam.Side, beam.Fall);
                var own = 1 / WeightOf(weights, i);
                var cofactor = own - (-a + b * beam.Side + c * beam.Fall);
                if (!(cofactor > 1e-9 * own)) continue; // a place that no other checks
                var normalised = Math.Abs(beam.Reach - Radius) / Math.Sqrt(cofactor);
                if (normalised <= largest) continue;
                largest = normalised;
                outlier = i;
            }
            // Centre = back·u + sideways·v, radius = outward − back: rows of the map from the unknowns.
            var east = (X: 0.0, Y: v.East, Z: u.East);
            var north = (X: 0.0, Y: v.North, Z: u.North);
            var radius = (X: 1.0, Y: 0.0, Z: -1.0);
            var cofactors = new CircleCofactor(Through(east, east), Through(east, north), Through(east, radius),
                Through(north, north), Through(north, radius), Through(radius, radius));
            fit = new(arc, sum, Math.Sqrt(plain / places.Length), freedom, freedom > 0 ? Math.Sqrt(sum / freedom) : null, cofactors, outlier, largest);
            return true;

            double Through((double X, double Y, double Z) m, (double X, double Y, double Z) n)
            {
                var (a, b, c) = q.Times(n.X, n.Y, n.Z);
                return m.X * a + m.Y * b + m.Z * c;
            }
        }
    }
}
