using System.Collections.Immutable;

namespace Aslaid.Geometry;

/// <summary>Measures of a path with their exact gradients by vertex.</summary>
/// <remarks>Arcs of one through-place answer as <see cref="ArcGradients"/> has it for three controls, of more as a best fit held
/// at its ends, full circles of more than three places as a free fit. The forms over a <see cref="PathSpan"/> add their
/// gradients to what the spans hold, vertex by vertex. An arc that fewer than three places carry (a circle read as start and
/// opposite place) answers to no shots: an <see cref="ArgumentException"/> says so.</remarks>
public static class PathMeasures
{
    private const int FewControls = 32; // more are put on the heap

    /// <summary>Metres in plan, grid.</summary>
    public static Measure PlanLength(Path path)
    {
        ArgumentNullException.ThrowIfNull(path);
        double[] east = new double[path.Vertices.Length], north = new double[east.Length];
        return Made(PlanLength(path.Span, east, north), east, north, []);
    }

    /// <summary>Metres on the slope; null where a height is missing.</summary>
    public static Measure? SlopeLength(Path path)
    {
        ArgumentNullException.ThrowIfNull(path);
        double[] east = new double[path.Vertices.Length], north = new double[east.Length], height = new double[east.Length];
        return SlopeLength(path.Span, east, north, height) is { } value ? Made(value, east, north, height) : null;
    }

    /// <summary>Square metres inside, anticlockwise positive.</summary>
    /// <exception cref="ArgumentException">The path is not closed.</exception>
    public static Measure Area(Path path)
    {
        ArgumentNullException.ThrowIfNull(path);
        double[] east = new double[path.Vertices.Length], north = new double[east.Length];
        return Made(Area(path.Span, east, north), east, north, []);
    }

    /// <summary>Metres, of one arc.</summary>
    /// <exception cref="ArgumentException">The piece is a straight.</exception>
    public static Measure Radius(Path path, int piece)
    {
        ArgumentNullException.ThrowIfNull(path);
        double[] east = new double[path.Vertices.Length], north = new double[east.Length];
        return Made(Radius(path.Span, piece, east, north), east, north, []);
    }

    /// <summary>Radians, of one arc, never signed.</summary>
    /// <exception cref="ArgumentException">The piece is a straight.</exception>
    public static Measure Sweep(Path path, int piece)
    {
        ArgumentNullException.ThrowIfNull(path);
        double[] east = new double[path.Vertices.Length], north = new double[east.Length];
        RequireArc(path.Span, piece);
        AddArc(path.Span, path.Pieces[piece], g => (g.SweepE, g.SweepN), east, north);
        return Made(path.Pieces[piece].Arc.Sweep, east, north, []);
    }

    /// <inheritdoc cref="PlanLength(Path)"/>
    public static double PlanLength(in PathSpan path, Span<double> east, Span<double> north)
    {
        var sum = 0.0;
        for (var i = 0; i < path.Pieces.Length; i++)
        {
            ref readonly var piece = ref path.Pieces[i];
            if (piece.Kind == PieceKind.Arc)
            {
                sum += piece.Arc.PlanLength;
                AddArc(path, piece, static g => (g.LengthE, g.LengthN), east, north);
            }
            else sum += AddStraight(path.Vertices, piece.First, piece.Last, 1, east, north);
        }
        return sum;
    }

    /// <inheritdoc cref="Area(Path)"/>
    public static double Area(in PathSpan path, Span<double> east, Span<double> north)
    {
        if (path.SignedArea is not { } area) throw new ArgumentException("Only a closed path has an area; this one does not end where it starts.", nameof(path));
        foreach (ref readonly var piece in path.Pieces)
        {
            // Half of a × b answers to a by half of −b turned left, to b by half of a turned left; the whole ring answers to no shift, so any origin serves.
            Point2 origin = path.Vertices[0].At;
            Step a = path.Vertices[piece.First].At - origin, b = path.Vertices[piece.Last].At - origin;
            east[piece.First] += b.North / 2;
            north[piece.First] -= b.East / 2;
            east[piece.Last] -= a.North / 2;
            north[piece.Last] += a.East / 2;
            if (piece.Kind == PieceKind.Arc) AddArc(path, piece, static g => (g.SegmentE, g.SegmentN), east, north);
        }
        return area;
    }

    /// <inheritdoc cref="Radius(Path, int)"/>
    public static double Radius(in PathSpan path, int piece, Span<double> east, Span<double> north)
    {
        RequireArc(path, piece);
        AddArc(path, path.Pieces[piece], static g => (g.RadiusE, g.RadiusN), east, north);
        return path.Pieces[piece].Arc.Radius;
    }

    /// <inheritdoc cref="SlopeLength(Path)"/>
    /// <remarks>A stretch √(s² + h²) answers to its plan length by s/l, to its climb by h/l. The chainage of a through-place on its arc
    /// is Rθ, θ the angle from the start to its foot: dθ = ±(t·(dP − dC)/ρ − t₀·(dP₀ − dC)/ρ₀).</remarks>
    public static double? SlopeLength(in PathSpan path, Span<double> east, Span<double> north, Span<double> height)
    {
        if (path.SlopeLength is not { } sum) return null;
        foreach (ref readonly var piece in path.Pieces)
        {
            if (piece.Kind == PieceKind.Straight) AddSlopeOfStraight(path.Vertices, piece.First, piece.Last, east, north, height);
            else AddSlopeOfArc(path, piece, east, north, height);
        }
        return sum;
    }

    private static double AddStraight(ReadOnlySpan<PathVertex> vertices, int first, int last, double factor, Span<double> east, Span<double> north)
    {
        var step = vertices[last].At - vertices[first].At;
        var length = step.Size;
        if (length == 0) return 0; // a dot grows whichever way it is drawn: no gradient
        var unit = factor / length * step;
        east[first] -= unit.East;
        north[first] -= unit.North;
        east[last] += unit.East;
        north[last] += unit.North;
        return length;
    }

    private static void AddSlopeOfStraight(ReadOnlySpan<PathVertex> vertices, int first, int last, Span<double> east, Span<double> north, Span<double> height)
    {
        var plan = vertices[first].At.DistanceTo(vertices[last].At);
        var climb = vertices[last].Height!.Value - vertices[first].Height!.Value;
        var slope = Math.Sqrt(plan * plan + climb * climb);
        if (slope == 0) return;
        AddStraight(vertices, first, last, plan / slope, east, north);
        height[first] -= climb / slope;
        height[last] += climb / slope;
    }

    private static void AddSlopeOfArc(in PathSpan path, in PathPiece piece, Span<double> east, Span<double> north, Span<double> height)
    {
        var count = piece.Last - piece.First + 1;
        Span<double> flat = count <= FewControls ? stackalloc double[count - 1] : new double[count - 1]; // s/l by stretch
        var done = 0.0;
        for (var i = 0; i < count - 1; i++)
        {
            var v = piece.First + i;
            var until = path.AlongPiece(piece, v + 1, done);
            double plan = until - done, climb = path.Vertices[v + 1].Height!.Value - path.Vertices[v].Height!.Value;
            var slope = Math.Sqrt(plan * plan + climb * climb);
            done = until;
            flat[i] = slope == 0 ? 0 : plan / slope;
            if (slope == 0) continue;
            height[v] -= climb / slope;
            height[v + 1] += climb / slope;
        }

        // Σ flatᵢ d(sᵢ₊₁ − sᵢ) = flat_last · d(length) + Σ over through-places of (flat before − flat after) · ds.
        var arc = piece.Arc;
        var controls = ControlsOf(piece);
        Span<ArcGradient> by = controls <= FewControls ? stackalloc ArcGradient[controls] : new ArcGradient[controls];
        Span<Point2> places = controls <= FewControls ? stackalloc Point2[controls] : new Point2[controls];
        Gradients(path, piece, places, by);
        var first = places[0] - arc.Centre;
        var startTurn = 1 / first.SizeSquared * first.Left; // dφ by a move of the start
        for (var c = 0; c < controls; c++)
        {
            east[piece.First + c] += flat[^1] * by[c].LengthE;
            north[piece.First + c] += flat[^1] * by[c].LengthN;
        }
        for (var i = 1; i < count - 1; i++)
        {
            var weight = flat[i - 1] - flat[i];
            if (weight == 0) continue;
            var outward = path.Vertices[piece.First + i].At - arc.Centre;
            var turn = 1 / outward.SizeSquared * outward.Left;
            var angle = arc.FootAngle(path.Vertices[piece.First + i].At);
            var between = turn - startTurn;
            for (var c = 0; c < controls; c++)
            {
                ref readonly var g = ref by[c];
                Step own = c == i ? turn : c == 0 ? -1 * startTurn : default;
                var angleE = arc.Sense * (own.East - between.Dot(new(g.CentreEastE, g.CentreNorthE)));
                var angleN = arc.Sense * (own.North - between.Dot(new(g.CentreEastN, g.CentreNorthN)));
                east[piece.First + c] += weight * (angle * g.RadiusE + arc.Radius * angleE);
                north[piece.First + c] += weight * (angle * g.RadiusN + arc.Radius * angleN);
            }
        }
    }

    private static void AddArc(in PathSpan path, in PathPiece piece, Func<ArcGradient, (double E, double N)> pick, Span<double> east, Span<double> north)
    {
        var controls = ControlsOf(piece);
        Span<ArcGradient> by = controls <= FewControls ? stackalloc ArcGradient[controls] : new ArcGradient[controls];
        Span<Point2> places = controls <= FewControls ? stackalloc Point2[controls] : new Point2[controls];
        Gradients(path, piece, places, by);
        for (var c = 0; c < controls; c++)
        {
            var (e, n) = pick(by[c]);
            east[piece.First + c] += e;
            north[piece.First + c] += n;
        }
    }

    private static int ControlsOf(in PathPiece piece) => piece.Last - piece.First + (piece.Arc.IsFullCircle ? 0 : 1);

    private static void Gradients(in PathSpan path, in PathPiece piece, Span<Point2> places, Span<ArcGradient> by)
    {
        for (var i = 0; i < places.Length; i++) places[i] = path.Vertices[piece.First + i].At;
        ArcGradients.Compute(piece.Arc, places, held: !piece.Arc.IsFullCircle, by);
    }

    private static void RequireArc(in PathSpan path, int piece)
    {
        if (path.Pieces[piece].Kind != PieceKind.Arc) throw new ArgumentException($"Piece {piece} is a straight and has neither radius nor sweep.", nameof(piece));
    }

    private static Measure Made(double value, ReadOnlySpan<double> east, ReadOnlySpan<double> north, ReadOnlySpan<double> height)
    {
        var terms = ImmutableArray.CreateBuilder<MeasureTerm>(east.Length);
        for (var i = 0; i < east.Length; i++)
        {
            var term = new MeasureTerm(i, east[i], north[i], height.IsEmpty ? 0 : height[i]);
            if (term.East != 0 || term.North != 0 || term.Height != 0) terms.Add(term);
        }
        return new(value, terms.DrainToImmutable());
    }
}
