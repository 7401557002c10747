namespace Aslaid.Geometry;

/// <summary>Exact derivatives of an arc's measures by its control places.</summary>
/// <remarks>
/// Three controls lie on the circle, so nᵢ·dPᵢ = nᵢ·dC + dR for each, nᵢ the unit step from centre to place (differentiate
/// |Pᵢ − C| = R): three linear equations, solved in closed form with differences nⱼ − nₖ = (Pⱼ − Pₖ)/R, which do not suffer
/// from a far centre. More controls: the fit makes F = ½ ∂(Σwr²)/∂x zero, and the implicit function theorem gives
/// dx = −(∂F/∂x)⁻¹ (∂F/∂P) dP, second derivatives of r included: exact also where residuals are not small.
/// Held, the unknown is k of <see cref="ArcFitting.TryHeld"/>; the ends move the frame.
/// Then dsweep = ±(dφ_end − dφ_start), dφ = t·(dP − dC)/ρ with t square to n; length Rθ; segment ½R²(θ − sin θ).
/// A full circle has a constant sweep. The sum over all controls is 0 for radius, sweep, length and segment, and 1 for the centre: a shift moves only that.
/// </remarks>
public static class ArcGradients
{
    /// <summary>Writes the gradient by each control.</summary>
    /// <param name="arc">The arc these controls made.</param>
    /// <param name="controls">In order along the arc. A full circle lists its start once.</param>
    /// <param name="held">True where the first and the last control lie on the arc exactly, as <see cref="ArcFitting.TryHeld"/> has it.</param>
    /// <param name="byControl">As long as the controls.</param>
    /// <param name="weights">Those of the fit; empty for unit weights.</param>
    public static void Compute(in Arc arc, ReadOnlySpan<Point2> controls, bool held, Span<ArcGradient> byControl, ReadOnlySpan<double> weights = default)
    {
        if (controls.Length < 3) throw new ArgumentException($"{controls.Length} places control no arc; expected three or more.", nameof(controls));
        if (byControl.Length < controls.Length) throw new ArgumentException($"{byControl.Length} gradients for {controls.Length} controls.", nameof(byControl));
        if (!weights.IsEmpty && weights.Length != controls.Length) throw new ArgumentException($"{weights.Length} weights for {controls.Length} controls.", nameof(weights));
        var ends = new Ends(arc, controls);
        if (controls.Length == 3) OfThree(arc, controls, ends, byControl);
        else if (held) OfHeld(arc, controls, ends, byControl, weights);
        else OfFree(arc, controls, ends, byControl, weights);
    }

    /// <summary>The circle's answer to a move of one control by 1 m one way.</summary>
    private readonly record struct Answer(Step Centre, double Radius);

    private static void OfThree(in Arc arc, ReadOnlySpan<Point2> controls, in Ends ends, Span<ArcGradient> by)
    {
        var twice = (controls[1] - controls[0]).Cross(controls[2] - controls[0]); // R² times the determinant of the rows (n, 1)
        for (var i = 0; i < 3; i++)
        {
            int j = (i + 1) % 3, k = (i + 2) % 3;
            var side = controls[k] - controls[j];
            var n = 1 / arc.Radius * (controls[i] - arc.Centre);
            var column = arc.Radius / twice * side.Left; // C's answer to a move of the place along n
            var radius = (controls[j] - arc.Centre).Cross(side) / twice;
            by[i] = ends.Gradient(i, new(n.East * column, n.East * radius), new(n.North * column, n.North * radius));
        }
    }

    private static void OfFree(in Arc arc, ReadOnlySpan<Point2> controls, in Ends ends, Span<ArcGradient> by, ReadOnlySpan<double> weights)
    {
        var mean = AlgebraicCircle.Mean(controls) - arc.Centre;
        var u = mean.Size > 1e-3 * arc.Radius ? 1 / mean.Size * mean : new Step(1, 0);
        var v = u.Left;
        Symmetric3 second = default;
        for (var i = 0; i < controls.Length; i++)
        {
            var w = weights.IsEmpty ? 1 : weights[i];
            var beam = Beam.Of(controls[i] - arc.Centre, u, v);
            second.Add(w, -1, beam.Side, beam.Fall);
            second.Add(w * (beam.Reach - arc.Radius) / beam.Reach, 0, beam.TangentV, beam.TangentU);
        }
        if (!second.TryInvert(out var inverse)) throw new ArgumentException("The controls do not determine the arc they are said to control.", nameof(controls));
        for (var i = 0; i < controls.Length; i++)
        {
            var w = weights.IsEmpty ? 1 : weights[i];
            var beam = Beam.Of(controls[i] - arc.Centre, u, v);
            var curl = (beam.Reach - arc.Radius) / beam.Reach;
            by[i] = ends.Gradient(i, By(new(1, 0)), By(new(0, 1)));

            Answer By(Step way)
            {
                double outward = w * beam.Unit.Dot(way), along = w * curl * beam.Unit.Left.Dot(way);
                var (out0, side, back) = inverse.Times(outward, -outward * beam.Side + along * beam.TangentV, -outward * beam.Fall + along * beam.TangentU);
                return new(back * u + side * v, out0 - back);
            }
        }
    }

    private static void OfHeld(in Arc arc, ReadOnlySpan<Point2> controls, in Ends ends, Span<ArcGradient> by, ReadOnlySpan<double> weights)
    {
        var last = controls.Length - 1;
        var chord = controls[last] - controls[0];
        var normal = chord.Left;
        var size = chord.Size;
        var half = 0.5 * chord;
        var k = arc.Sense / (2 * Math.Tan(arc.Sweep / 2));
        var q = Math.Sqrt(0.25 + k * k);
        double radius1 = size * k / q, radius2 = size / (4 * q * q * q);
        double curvature = 0, byFirstE = 0, byFirstN = 0, byLastE = 0, byLastN = 0;

        for (var i = 1; i < last; i++)
        {
            var w = weights.IsEmpty ? 1 : weights[i];
            var at = new Held(controls[i] - controls[0] - half, k, normal, size, size * q, radius1, radius2);
            curvature += w * (at.First * at.First + at.R * at.Second);
            byFirstE += w * at.Mixed(-1, new(1, 0), k, q, chord, normal, size);
            byFirstN += w * at.Mixed(-1, new(0, 1), k, q, chord, normal, size);
            byLastE += w * at.Mixed(+1, new(1, 0), k, q, chord, normal, size);
            byLastN += w * at.Mixed(+1, new(0, 1), k, q, chord, normal, size);
        }
        for (var i = 1; i < last; i++)
        {
            var w = weights.IsEmpty ? 1 : weights[i];
            var at = new Held(controls[i] - controls[0] - half, k, normal, size, size * q, radius1, radius2);
            by[i] = ends.Gradient(i, By(new(1, 0)), By(new(0, 1)));

            Answer By(Step way)
            {
                var bent = -at.T.Dot(way) * at.T.Dot(normal) / at.Reach; // ∂²r/∂k∂P
                var move = -w * (at.N.Dot(way) * at.First + at.R * bent) / curvature;
                return new(move * normal, move * radius1);
            }
        }
        by[0] = ends.Gradient(0, EndBy(-1, new(1, 0), byFirstE), EndBy(-1, new(0, 1), byFirstN));
        by[last] = ends.Gradient(last, EndBy(+1, new(1, 0), byLastE), EndBy(+1, new(0, 1), byLastN));

        Answer EndBy(int end, Step way, double force)
        {
            var move = -force / curvature;
            return new(0.5 * way + end * k * way.Left + move * normal, end * q * chord.Dot(way) / size + move * radius1);
        }
    }

    /// <summary>Residual of a place between held ends, with derivatives by k; see <see cref="ArcFitting.TryHeld"/>.</summary>
    private readonly struct Held
    {
        internal Held(Step p, double k, Step normal, double size, double radius, double radius1, double radius2)
        {
            var outward = p - k * normal;
            Reach = outward.Size;
            N = 1 / Reach * outward;
            T = N.Left;
            var both = Reach + radius;
            var side = p.Dot(normal);
            R = (p.SizeSquared - size * size / 4 - 2 * k * side) / both;
            var reach1 = -N.Dot(normal);
            var along = T.Dot(normal);
            First = (-2 * side - R * (reach1 + radius1)) / both;
            Second = (-2 * First * (reach1 + radius1) - R * (along * along / Reach + radius2)) / both;
        }

        internal double Reach { get; }

        internal Step N { get; }

        internal Step T { get; }

        internal double R { get; }

        internal double First { get; }

        internal double Second { get; }

        /// <summary>∂(r r′) by a move of the first (-1) or last (+1) place, k kept.</summary>
        internal double Mixed(int end, Step way, double k, double q, Step chord, Step normal, double size)
        {
            Step turned = end * way.Left, centre = 0.5 * way + k * turned;
            var longer = end * chord.Dot(way) / size;
            var r = -N.Dot(centre) - q * longer;
            var first = T.Dot(centre) * T.Dot(normal) / Reach - N.Dot(turned) - longer * k / q;
            return r * First + R * first;
        }
    }

    /// <summary>What turns an answer of the circle into one of sweep, length and segment.</summary>
    private readonly struct Ends
    {
        private readonly bool whole;
        private readonly int last;
        private readonly double sense, radius, sweep, lens;
        private readonly Step atStart, atEnd, between; // dφ by a move of the place: t/ρ

        internal Ends(in Arc arc, ReadOnlySpan<Point2> controls)
        {
            whole = arc.IsFullCircle;
            last = controls.Length - 1;
            sense = arc.Sense;
            radius = arc.Radius;
            sweep = arc.Sweep;
            lens = Angles.LessItsSine(sweep);
            Step first = controls[0] - arc.Centre, final = controls[last] - arc.Centre;
            atStart = 1 / first.SizeSquared * first.Left;
            atEnd = 1 / final.SizeSquared * final.Left;
            between = atEnd - atStart;
        }

        internal ArcGradient Gradient(int control, Answer east, Answer north)
        {
            double sweepE = Sweep(control, new(1, 0), east), sweepN = Sweep(control, new(0, 1), north);
            return new(east.Centre.East, north.Centre.East, east.Centre.North, north.Centre.North, east.Radius, north.Radius, sweepE, sweepN,
                sweep * east.Radius + radius * sweepE, sweep * north.Radius + radius * sweepN, Segment(east.Radius, sweepE), Segment(north.Radius, sweepN));
        }

        private double Sweep(int control, Step way, Answer answer)
        {
            if (whole) return 0;
            var turn = -between.Dot(answer.Centre);
            if (control == 0) turn -= atStart.Dot(way);
            if (control == last) turn += atEnd.Dot(way);
            return sense * turn;
        }

        private double Segment(double dRadius, double dSweep)
        {
            var half = Math.Sin(sweep / 2);
            return sense * (radius * lens * dRadius + radius * radius * half * half * dSweep);
        }
    }
}
