namespace Aslaid.Geometry;

public static partial class ArcFitting
{
    /// <summary>The best arc of those that pass exactly through the first and the last place.</summary>
    /// <param name="flatness">Metres; a fit whose sagitta is no more is <see cref="ArcFault.Straight"/>.</param>
    /// <param name="weights">Per place, above 0; those of the ends are not used.</param>
    /// <param name="residuals">Receives metres, per place; 0 at the ends.</param>
    /// <remarks>One unknown is left: the centre is k chords to the left of the chord's middle, R = c√(¼ + k²), and
    /// r(ρ + R) = |p|² − c²/4 − 2k p·N, p from the middle, N the chord turned left: no difference of large radii.
    /// Sought by the bulge b = tan(sweep/4), left positive, k = (1 − b²)/4b, which stays finite however flat the arc.</remarks>
    public static bool TryHeld(ReadOnlySpan<Point2> places, double flatness, out ArcFit fit, out ArcFault fault,
        ReadOnlySpan<double> weights = default, Span<double> residuals = default)
    {
        CheckWeights(places, weights);
        fit = default;
        fault = ArcFault.Coincident;
        if (places.Length < 3 || places[0] == places[^1]) return false;
        fault = ArcFault.Straight;
        var chord = new HeldChord(places, weights);
        if (!chord.TrySeed(out var bulge)) return false;

        var size = (places[^1] - places[0]).Size;
        var total = TotalWeight(places, weights);
        var here = chord.At(bulge);
        var settled = false;
        for (var step = 0; step < StepCap && !settled; step++)
        {
            if (Math.Abs(bulge) * size / 2 < 1e-12 * size) return false; // straight beyond rounding
            var stride = here.Slope / here.Curvature; // of k, against the sign
            var move = stride * (4 * bulge * bulge / (1 + bulge * bulge)); // over −dk/db
            move = Math.Clamp(move, -0.75 * Math.Abs(bulge), 3 * Math.Abs(bulge)); // stays on its side of the chord
            var radius = size * (bulge * bulge + 1) / (4 * Math.Abs(bulge));
            settled = Math.Abs(stride) * Math.Sqrt(here.Gauss / total) <= 1e-14 * size + 4 * Rounding * radius;
            var next = chord.At(bulge + move);
            for (var half = 0; half < 40 && !settled && next.Sum > here.Sum + Slack(here.Sum, total, size + radius); half++)
            {
                move /= 2;
                next = chord.At(bulge + move);
            }
            bulge += move;
            here = next;
        }
        fault = ArcFault.NotConverged;
        if (!settled || !double.IsFinite(bulge)) return false;
        fault = ArcFault.Straight;
        if (Math.Abs(bulge) * size / 2 <= flatness) return false;
        fault = ArcFault.None;
        fit = chord.Judge(bulge, residuals);
        return true;
    }

    private readonly ref struct HeldChord
    {
        private readonly ReadOnlySpan<Point2> places;
        private readonly ReadOnlySpan<double> weights;
        private readonly Step half; // to the middle of the chord, from its start: the middle itself would be rounded to the grid
        private readonly Step normal; // the chord turned left, of its length
        private readonly double size;

        internal HeldChord(ReadOnlySpan<Point2> places, ReadOnlySpan<double> weights)
        {
            this.places = places;
            this.weights = weights;
            var chord = places[^1] - places[0];
            half = 0.5 * chord;
            normal = chord.Left;
            size = chord.Size;
        }

        /// <summary>The linear fit of k to |p|² − c²/4 = 2k p·N, and the side on which the places lie.</summary>
        internal bool TrySeed(out double bulge)
        {
            double zy = 0, yy = 0, side = 0;
            for (var i = 1; i < places.Length - 1; i++)
            {
                var p = places[i] - places[0] - half;
                double w = WeightOf(weights, i), y = p.Dot(normal);
                zy += w * y * (p.SizeSquared - size * size / 4);
                yy += w * y * y;
                side += w * y;
            }
            bulge = 0;
            var k = zy / (2 * yy);
            if (side == 0 || !double.IsFinite(k)) return false;
            // b² + 4kb − 1 = 0; places to the right of the chord lie on a left turn. The sum without cancellation is inverted.
            var root = Math.Sqrt(4 * k * k + 1);
            bulge = side < 0
                ? (k > 0 ? 1 / (2 * k + root) : root - 2 * k)
                : (k < 0 ? 1 / (2 * k - root) : -root - 2 * k);
            return bulge != 0;
        }

        /// <summary>Σwr², and its half's first and second derivative by k (the second without the part that is not sure to be positive, where it would not be).</summary>
        internal (double Sum, double Slope, double Curvature, double Gauss) At(double bulge)
        {
            double sum = 0, slope = 0, gauss = 0, rest = 0;
            for (var i = 1; i < places.Length - 1; i++)
            {
                var w = WeightOf(weights, i);
                var (r, first, second) = Residual(i, bulge);
                sum += w * r * r;
                slope += w * r * first;
                gauss += w * first * first;
                rest += w * r * second;
            }
            return (sum, slope, gauss + rest > 0.25 * gauss ? gauss + rest : gauss, gauss);
        }

        private (double R, double First, double Second) Residual(int place, double bulge)
        {
            var k = (1 - bulge * bulge) / (4 * bulge);
            var q = (1 + bulge * bulge) / (4 * Math.Abs(bulge));
            var p = places[place] - places[0] - half;
            var outward = p - k * normal;
            double reach = outward.Size, radius = size * q, side = p.Dot(normal);
            var both = reach + radius;
            var r = (p.SizeSquared - size * size / 4 - 2 * k * side) / both;
            double reach1 = -outward.Dot(normal) / reach, radius1 = size * k / q;
            double reach2 = (size * size - reach1 * reach1) / reach, radius2 = size / (4 * q * q * q);
            var first = (-2 * side - r * (reach1 + radius1)) / both;
            return (r, first, (-2 * first * (reach1 + radius1) - r * (reach2 + radius2)) / both);
        }

        internal ArcFit Judge(double bulge, Span<double> residuals)
        {
            var k = (1 - bulge * bulge) / (4 * bulge);
            var q = (1 + bulge * bulge) / (4 * Math.Abs(bulge));
            var arc = Arc.FromParts(places[0], places[^1], places[0] + (half + k * normal), size * q, 4 * Math.Atan(Math.Abs(bulge)), bulge > 0 ? Turn.Left : Turn.Right);
            double sum = 0, plain = 0, gauss = 0;
            if (!residuals.IsEmpty) residuals[0] = residuals[places.Length - 1] = 0;
            for (var i = 1; i < places.Length - 1; i++)
            {
                var w = WeightOf(weights, i);
                var (r, first, _) = Residual(i, bulge);
                sum += w * r * r;
                plain += r * r;
                gauss += w * first * first;
                if (!residuals.IsEmpty) residuals[i] = r;
            }
            var freedom = places.Length - 3;
            var outlier = -1;
            double? largest = null;
            for (var i = 1; freedom > 0 && i < places.Length - 1; i++)
            {
                var (r, first, _) = Residual(i, bulge);
                var own = 1 / WeightOf(weights, i);
                var cofactor = own - first * first / gauss;
                if (!(cofactor > 1e-9 * own)) continue; // a place that no other checks
                var normalised = Math.Abs(r) / Math.Sqrt(cofactor);
                if (normalised <= largest) continue;
                largest = normalised;
                outlier = i;
            }
            var radius1 = size * k / q;
            var cofactors = new CircleCofactor(normal.East * normal.East / gauss, normal.East * normal.North / gauss, normal.East * radius1 / gauss,
                normal.North * normal.North / gauss, normal.North * radius1 / gauss, radius1 * radius1 / gauss);
            return new(arc, sum, Math.Sqrt(plain / places.Length), freedom, freedom > 0 ? Math.Sqrt(sum / freedom) : null, cofactors, outlier, largest);
        }
    }
}
