namespace Aslaid.Geometry;

/// <summary>A straight, an arc and a straight that go over into each other without a break, fitted to places.</summary>
/// <param name="Start">First tangent point.</param>
/// <param name="Middle">Middle of the arc.</param>
/// <param name="End">Second tangent point.</param>
/// <param name="Radius">Metres.</param>
/// <param name="Turn">Which way it turns.</param>
/// <param name="Sweep">Radians, in (0, π).</param>
/// <param name="FirstStraight">How many places lie on the first straight.</param>
/// <param name="OnArc">How many on the arc.</param>
/// <param name="SumOfSquares">m², unweighted.</param>
/// <param name="DegreesOfFreedom">Places less five.</param>
/// <param name="SigmaZero">√(sum/freedom): the standard deviation of a place across the line, metres; null without freedom.</param>
/// <param name="Residuals">Metres per place, left of the line positive.</param>
/// <param name="ByPlace">How the three points and the radius answer to each place.</param>
public sealed record TangentFit(
    Point2 Start, Point2 Middle, Point2 End, double Radius, Turn Turn, double Sweep, int FirstStraight, int OnArc,
    double SumOfSquares, int DegreesOfFreedom, double? SigmaZero, double[] Residuals, TangentAnswer[] ByPlace)
{
    /// <summary>The arc.</summary>
    public Arc Arc => Arc.TryThrough(Start, Middle, End, 0, out var arc, out _) ? arc : default;

    /// <summary>Tangent points and radius, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Start} {Middle} {End}, radius {Radius:0.0000} m");
}

/// <summary>How a tangential fit answers to a move of one place square to the line, to its left: metres per metre.</summary>
/// <param name="Left">The unit step to the left there; along the line nothing answers.</param>
public readonly record struct TangentAnswer(Step Left, Step Start, Step Middle, Step End, double Radius)
{
    /// <summary>All of it, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"left {Left}: {Start} {Middle} {End} {Radius:0.0000}");
}

/// <summary>Why there is no tangential fit.</summary>
public enum TangentFault
{
    /// <summary>There is one.</summary>
    None,

    /// <summary>Fewer than five places, or no split of them with two on each straight and one on the arc.</summary>
    TooFew,

    /// <summary>They turn by less than a degree, or by more than 175°.</summary>
    NoBend,

    /// <summary>It did not settle.</summary>
    NotConverged,
}

/// <summary>
/// Least squares of straight, arc and straight in one, tangents in common: five unknowns (the vertex where the straights meet, both
/// bearings, the radius). A place counts by its distance from the part that it lies beside.
/// </summary>
/// <remarks>
/// Where two parts meet, distance and its derivatives are the same for both, so that a place may change over while the fit settles.
/// Newton's method after Gauss, damped after Levenberg and Marquardt, from the best of many splits. First-order derivatives of the result
/// by each place follow from the normal matrix: d(unknowns) = −(JᵀJ)⁻¹ Jᵀ d(distance).
/// </remarks>
public static class TangentFitting
{
    private const int StepCap = 200;
    private const int Splits = 10;

    /// <summary>Fits places in their order along the line.</summary>
    public static bool TryFit(ReadOnlySpan<Point2> places, out TangentFit? fit, out TangentFault fault)
    {
        (fit, fault) = (null, TangentFault.TooFew);
        if (places.Length < 5) return false;
        fault = TangentFault.NoBend;
        if (Seed(places) is not { } shape) return false;
        fault = TangentFault.NotConverged;
        if (!TrySettle(places, ref shape)) return false;
        fault = TangentFault.NoBend;
        if (!shape.IsBent) return false;
        var parts = Count(places, shape);
        fault = TangentFault.TooFew;
        if (parts.First < 2 || parts.Arc < 1 || places.Length - parts.First - parts.Arc < 2) return false;
        fit = Judge(places, shape, parts);
        fault = fit is null ? TangentFault.NoBend : TangentFault.None;
        return fit is not null;
    }

    private static (int First, int Arc) Count(ReadOnlySpan<Point2> places, in Shape shape)
    {
        var counts = (First: 0, Arc: 0);
        foreach (var place in places)
        {
            var part = shape.PartOf(place);
            if (part == 0) counts.First++;
            else if (part == 1) counts.Arc++;
        }

        return counts;
    }

    /// <summary>The best of many splits: lines through the places before and after, the radius by the places between.</summary>
    private static Shape? Seed(ReadOnlySpan<Point2> places)
    {
        Shape? best = null;
        var least = double.PositiveInfinity;
        var stride = Math.Max(1, places.Length / Splits);
        for (var first = 2; first + 3 <= places.Length; first += stride)
        {
            for (var last = places.Length - 2; last > first; last -= stride)
            {
                if (Shape.Through(places, first, last) is not { } shape || !shape.IsBent) continue;
                var sum = shape.SumOfSquares(places);
                if (sum < least) (best, least) = (shape, sum);
            }
        }

        return best;
    }

    private static bool TrySettle(ReadOnlySpan<Point2> places, ref Shape shape)
    {
        var (sum, damping, size) = (shape.SumOfSquares(places), 1e-4, (places[^1] - places[0]).Size);
        Span<double> row = stackalloc double[5];
        for (var step = 0; step < StepCap; step++)
        {
            var normal = new NormalMatrix(5);
            foreach (var place in places)
            {
                var distance = shape.Distance(place, row);
                normal.Add(1, row, -distance);
            }

            if (normal.Solve(damping) is not { } move)
            {
                damping = Math.Max(1e-6, 10 * damping);
                if (damping > 1e12) return false;
                continue;
            }

            var moved = shape.Moved(move);
            var effect = Math.Abs(move[0]) + Math.Abs(move[1]) + size * (Math.Abs(move[2]) + Math.Abs(move[3])) + Math.Abs(move[4]);
            var after = moved.IsBent ? moved.SumOfSquares(places) : double.PositiveInfinity;
            if (after <= sum * (1 + 1e-12) + 1e-24)
            {
                (shape, sum) = (moved, after);
                damping = damping < 1e-12 ? 0 : damping / 10;
                if (effect < 1e-10) return true;
            }
            else
            {
                if (effect < 1e-10) return true;
                damping = Math.Max(1e-8, 10 * damping);
            }
        }

        return false;
    }

    private static TangentFit? Judge(ReadOnlySpan<Point2> places, in Shape shape, (int First, int Arc) parts)
    {
        var normal = new NormalMatrix(5);
        var (rows, residuals) = (new double[places.Length][], new double[places.Length]);
        for (var i = 0; i < places.Length; i++)
        {
            rows[i] = new double[5];
            residuals[i] = shape.Distance(places[i], rows[i]);
            normal.Add(1, rows[i], residuals[i]);
        }

        if (normal.Invert() is not { } inverse) return null;
        var points = shape.Points(out var byUnknown);
        var answers = new TangentAnswer[places.Length];
        Span<double> unknowns = stackalloc double[5];
        for (var i = 0; i < places.Length; i++)
        {
            unknowns.Clear();
            for (var a = 0; a < 5; a++)
                for (var b = 0; b < 5; b++) unknowns[a] -= inverse[a, b] * rows[i][b];
            answers[i] = new(shape.LeftAt(places[i]), Answer(unknowns, byUnknown, 0), Answer(unknowns, byUnknown, 1), Answer(unknowns, byUnknown, 2), unknowns[4]);
        }

        var sum = 0.0;
        foreach (var residual in residuals) sum += residual * residual;
        var freedom = places.Length - 5;
        return new(points[0], points[1], points[2], shape.Radius, shape.Turn, shape.Sweep, parts.First, parts.Arc, sum, freedom,
            freedom > 0 ? Math.Sqrt(sum / freedom) : null, residuals, answers);

        static Step Answer(ReadOnlySpan<double> unknowns, Step[,] byUnknown, int point)
        {
            var step = default(Step);
            for (var a = 0; a < 5; a++) step += unknowns[a] * byUnknown[point, a];
            return step;
        }
    }

    /// <summary>The five unknowns: the vertex reckoned from a place, the bearings of both straights in radians, the radius.</summary>
    private readonly record struct Shape(Point2 Origin, Step Vertex, double First, double Second, double Radius)
    {
        private Step Way1 => new(Math.Sin(First), Math.Cos(First));

        private Step Way2 => new(Math.Sin(Second), Math.Cos(Second));

        /// <summary>Turn from the first straight to the second, radians, right positive.</summary>
        private double Bend => Math.IEEERemainder(Second - First, double.Tau);

        public double Sweep => Math.Abs(Bend);

        public Turn Turn => Bend > 0 ? Turn.Right : Turn.Left;

        /// <summary>Left 1, right −1.</summary>
        private int Sense => Bend > 0 ? -1 : 1;

        private double TangentLength => Radius * Math.Tan(Sweep / 2);

        public bool IsBent => Sweep is > 0.0174 and < 3.054 && Radius > 0 && double.IsFinite(Radius);

        /// <summary>From the vertex to the centre: R to the inner side of both straights.</summary>
        private Step ToCentre => -TangentLength * Way1 + Sense * Radius * Way1.Left;

        public static Shape? Through(ReadOnlySpan<Point2> places, int first, int last)
        {
            if (Line(places[..first]) is not { } one || Line(places[last..]) is not { } two) return null;
            var sine = one.Way.Cross(two.Way);
            if (Math.Abs(sine) < 0.005) return null;
            var vertex = one.At + (two.At - one.At).Cross(two.Way) / sine * one.Way;
            var shape = new Shape(places[0], vertex - places[0], Bearing.Of(one.Way).Radians, Bearing.Of(two.Way).Radians, 1);
            if (!shape.IsBent) return null;
            var unit = shape.ToCentre; // the centre lies this many metres away for each metre of radius
            var radii = new List<double>();
            foreach (var place in places[first..last])
            {
                // |q − R·unit| = R: of both circles that touch the straights the larger passes the place on its near side.
                var q = place - vertex;
                double a = unit.SizeSquared - 1, b = q.Dot(unit), c = q.SizeSquared;
                var root = b * b - a * c;
                if (root >= 0 && a > 0 && b + Math.Sqrt(root) > 0) radii.Add((b + Math.Sqrt(root)) / a);
            }

            if (radii.Count == 0) return null;
            radii.Sort();
            return shape with { Radius = radii[radii.Count / 2] };
        }

        /// <summary>The line of least squared distance, headed from the first place to the last.</summary>
        private static (Point2 At, Step Way)? Line(ReadOnlySpan<Point2> places)
        {
            var mean = AlgebraicCircle.Mean(places);
            double ee = 0, en = 0, nn = 0;
            foreach (var place in places)
            {
                var d = place - mean;
                (ee, en, nn) = (ee + d.East * d.East, en + d.East * d.North, nn + d.North * d.North);
            }

            if (ee + nn == 0) return null;
            var angle = Math.Atan2(2 * en, ee - nn) / 2;
            var way = new Step(Math.Cos(angle), Math.Sin(angle));
            return (mean, way.Dot(places[^1] - places[0]) < 0 ? -1 * way : way);
        }

        public Shape Moved(double[] move) =>
            new(Origin, new(Vertex.East + move[0], Vertex.North + move[1]), First + move[2], Second + move[3], Radius + move[4]);

        /// <summary>0 on the first straight, 1 on the arc, 2 on the second straight.</summary>
        public int PartOf(Point2 place)
        {
            var (q, t) = (place - Origin - Vertex, TangentLength);
            var (before, after) = (q.Dot(Way1) < -t, q.Dot(Way2) > t);
            if (before && after) return Math.Abs(Way1.Cross(q)) <= Math.Abs(Way2.Cross(q)) ? 0 : 2;
            return before ? 0 : after ? 2 : 1;
        }

        public Step LeftAt(Point2 place)
        {
            switch (PartOf(place))
            {
                case 0: return Way1.Left;
                case 2: return Way2.Left;
                default:
                    var outward = place - Origin - Vertex - ToCentre;
                    return -Sense / outward.Size * outward;
            }
        }

        public double SumOfSquares(ReadOnlySpan<Point2> places)
        {
            var sum = 0.0;
            Span<double> row = stackalloc double[5];
            foreach (var place in places)
            {
                var r = Distance(place, row);
                sum += r * r;
            }

            return sum;
        }

        /// <summary>Distance from the line, left positive, and its derivatives by the five unknowns.</summary>
        public double Distance(Point2 place, Span<double> by)
        {
            var q = place - Origin - Vertex;
            by.Clear();
            switch (PartOf(place))
            {
                case 0:
                    (by[0], by[1], by[2]) = (-Way1.Left.East, -Way1.Left.North, Way1.Dot(q));
                    return Way1.Left.Dot(q);
                case 2:
                    (by[0], by[1], by[3]) = (-Way2.Left.East, -Way2.Left.North, Way2.Dot(q));
                    return Way2.Left.Dot(q);
                default:
                    var from = q - ToCentre;
                    var reach = from.Size;
                    var outward = Sense / reach * from; // the distance shrinks as the centre moves that way; sense makes it left positive
                    (by[0], by[1]) = (outward.East, outward.North);
                    var centre = CentreBy();
                    for (var unknown = 2; unknown < 5; unknown++) by[unknown] = outward.Dot(centre[unknown - 2]);
                    by[4] += Sense;
                    return Sense * (Radius - reach);
            }
        }

        /// <summary>How the centre moves from the vertex by first bearing, second bearing and radius: it stays R off both straights.</summary>
        private Step[] CentreBy()
        {
            Step n1 = Way1.Left, n2 = Way2.Left;
            var (t, det) = (TangentLength, n1.Cross(n2));
            // n1·move = Sense·dR + t·d(first), n2·move = Sense·dR − t·d(second)
            return [Solve(t, 0), Solve(0, -t), Solve(Sense, Sense)];

            Step Solve(double one, double two) => 1 / det * new Step(one * n2.North - two * n1.North, two * n1.East - one * n2.East);
        }

        /// <summary>Tangent point, middle, tangent point, and how each answers to the five unknowns.</summary>
        public Point2[] Points(out Step[,] byUnknown)
        {
            byUnknown = new Step[3, 5];
            var centre = CentreBy();
            Step[] radial = [-Sense * Radius * Way1.Left, default, -Sense * Radius * Way2.Left];
            var middle = Bearing.FromRadians(First + Bend / 2).Unit;
            radial[1] = -Sense * Radius * middle.Left;
            for (var point = 0; point < 3; point++)
            {
                (byUnknown[point, 0], byUnknown[point, 1]) = (new(1, 0), new(0, 1));
                // A bearing that grows turns the step from the centre clockwise: its derivative is the step turned right.
                double[] shares = point switch { 0 => [1, 0], 1 => [0.5, 0.5], _ => [0, 1] };
                byUnknown[point, 2] = centre[0] - shares[0] * radial[point].Left;
                byUnknown[point, 3] = centre[1] - shares[1] * radial[point].Left;
                byUnknown[point, 4] = centre[2] + 1 / Radius * radial[point];
            }

            var c = ToCentre;
            var vertex = Origin + Vertex;
            return [vertex + (c + radial[0]), vertex + (c + radial[1]), vertex + (c + radial[2])];
        }
    }
}
