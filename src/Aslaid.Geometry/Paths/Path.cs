using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Geometry;

/// <summary>A line of straights and true arcs through vertices, some with heights. At least one piece; never changed.</summary>
/// <remarks>Chainages are metres in plan from the start. A chainage outside the path counts as the nearer end.</remarks>
public sealed partial class Path
{
    private readonly double[] starts; // of each piece, then the whole length
    private double[]? chainages;
    private BoxIndex? index;

    private Path(ImmutableArray<PathVertex> vertices, ImmutableArray<PathPiece> pieces)
    {
        Vertices = vertices;
        Pieces = pieces;
        starts = new double[pieces.Length + 1];
        var span = Span;
        for (var i = 0; i < pieces.Length; i++) starts[i + 1] = starts[i] + span.LengthOf(i);
        Box = span.Box;
    }

    /// <summary>The places, in order; a closed path lists its first again as its last.</summary>
    public ImmutableArray<PathVertex> Vertices { get; }

    /// <summary>The pieces, in order, covering all vertices.</summary>
    public ImmutableArray<PathPiece> Pieces { get; }

    /// <summary>The same, for measuring in place.</summary>
    public PathSpan Span => new(Vertices.AsSpan(), Pieces.AsSpan());

    /// <inheritdoc cref="PathSpan.IsClosed"/>
    public bool IsClosed => Span.IsClosed;

    /// <summary>The smallest box over all pieces.</summary>
    public Box2 Box { get; }

    /// <summary>Metres in plan, grid.</summary>
    public double PlanLength => starts[^1];

    /// <inheritdoc cref="PathSpan.SlopeLength"/>
    public double? SlopeLength => Span.SlopeLength;

    /// <inheritdoc cref="PathSpan.SignedArea"/>
    public double? SignedArea => Span.SignedArea;

    /// <summary>The chainage of every vertex, metres; that of a through-place is its foot's on the arc.</summary>
    public ReadOnlySpan<double> Chainages => VertexChainages();

    /// <summary>A path from pieces that join.</summary>
    /// <exception cref="ArgumentException">They do not: the message names the piece.</exception>
    public static Path Of(ImmutableArray<PathVertex> vertices, ImmutableArray<PathPiece> pieces)
    {
        if (pieces.IsDefaultOrEmpty) throw new ArgumentException("A path has at least one piece.", nameof(pieces));
        var at = 0;
        for (var i = 0; i < pieces.Length; i++)
        {
            var p = pieces[i];
            if (p.First != at || p.Last <= p.First || p.Last >= vertices.Length)
                throw Broken(i, $"runs from vertex {p.First} to {p.Last}; expected a start at {at} and an end after it, below {vertices.Length}");
            if (p.Kind == PieceKind.Straight && p.Last != p.First + 1)
                throw Broken(i, "is a straight over more than two vertices");
            if (p.Kind == PieceKind.Arc && !p.Arc.IsFullCircle && (p.Arc.From != vertices[p.First].At || p.Arc.To != vertices[p.Last].At))
                throw Broken(i, "is an arc that does not start and end at its vertices");
            at = p.Last;
        }
        if (at != vertices.Length - 1) throw Broken(pieces.Length - 1, $"ends at vertex {at} of {vertices.Length}");
        return new(vertices, pieces);

        ArgumentException Broken(int piece, string what) =>
            new(string.Create(CultureInfo.InvariantCulture, $"Piece {piece} {what}."), nameof(pieces));
    }

    /// <summary>The chainage at which a piece starts, metres; that of the number of pieces is the whole length.</summary>
    public double StartOf(int piece) => starts[piece];

    /// <summary>The piece at a chainage; where two meet, the later.</summary>
    public int PieceAt(double chainage)
    {
        var found = Array.BinarySearch(starts, chainage);
        if (found < 0) found = ~found - 1;
        while (found + 1 < Pieces.Length && starts[found + 1] == chainage) found++; // past pieces without length
        return Math.Clamp(found, 0, Pieces.Length - 1);
    }

    /// <summary>The place at a chainage, metres. The ends of pieces come back bit for bit.</summary>
    public Point2 PointAt(double chainage)
    {
        var piece = PieceAt(chainage);
        if (chainage >= starts[piece + 1]) return EndOf(piece);
        var along = Math.Max(0, chainage - starts[piece]);
        return Pieces[piece].Kind == PieceKind.Arc ? Pieces[piece].Arc.PointAt(along) : Span.StraightOf(piece).PointAt(along);
    }

    /// <summary>The way the path heads at a chainage; where two pieces meet, that of the later.</summary>
    public Bearing BearingAt(double chainage)
    {
        var piece = PieceAt(chainage);
        return Pieces[piece].Kind == PieceKind.Arc
            ? Pieces[piece].Arc.BearingAt(Math.Clamp(chainage, starts[piece], starts[piece + 1]) - starts[piece])
            : Span.StraightOf(piece).Bearing;
    }

    /// <summary>The height at a chainage, running evenly between vertices that carry one; null before the first and after the last of them.</summary>
    public double? HeightAt(double chainage) => HeightAndGradeAt(chainage)?.Height;

    /// <summary>The height at a chainage and its rise per metre along the path, 0 at a single vertex; null as for <see cref="HeightAt"/>.</summary>
    public (double Height, double Grade)? HeightAndGradeAt(double chainage)
    {
        var at = VertexChainages();
        chainage = Math.Clamp(chainage, 0, PlanLength);
        var after = Array.BinarySearch(at, chainage);
        if (after < 0) after = ~after;
        var before = Math.Min(after, at.Length - 1);
        while (before >= 0 && (at[before] > chainage || Vertices[before].Height is null)) before--;
        while (after < at.Length && Vertices[after].Height is null) after++;
        if (before < 0 || after >= at.Length) return null;
        double low = Vertices[before].Height!.Value, high = Vertices[after].Height!.Value;
        var run = at[after] - at[before];
        return run > 0 ? (low + (high - low) * ((chainage - at[before]) / run), (high - low) / run) : (low, 0);
    }

    /// <inheritdoc cref="PathSpan.Locate"/>
    public Locus Locate(Point2 place) => Locate(place, out _);

    /// <summary>The nearest point of the whole path; of equally near pieces the first. Long paths are searched through an index.</summary>
    /// <param name="piece">The piece it lies on.</param>
    public Locus Locate(Point2 place, out int piece)
    {
        if (Pieces.Length <= FewPieces) return Span.Locate(place, out piece);
        piece = PieceIndex().Nearest(place, new ToPiece(this, place), out _);
        var found = Span.LocateOn(piece, place);
        found = found with { Along = starts[piece] + found.Along };
        return found with { Offset = Span.OffsetAtCorner(place, piece, found) };
    }

    /// <summary>The same line, followed from its end to its start.</summary>
    public Path Reverse()
    {
        var last = Vertices.Length - 1;
        var vertices = ImmutableArray.CreateBuilder<PathVertex>(Vertices.Length);
        for (var i = last; i >= 0; i--) vertices.Add(Vertices[i]);
        var pieces = ImmutableArray.CreateBuilder<PathPiece>(Pieces.Length);
        for (var i = Pieces.Length - 1; i >= 0; i--)
        {
            var p = Pieces[i];
            pieces.Add(new(p.Kind, last - p.Last, last - p.First, p.Kind == PieceKind.Arc ? p.Arc.Reverse() : default));
        }
        return new(vertices.MoveToImmutable(), pieces.MoveToImmutable());
    }

    /// <summary>Places along the path whose chords leave it by no more than a stated sagitta, for formats without arcs.</summary>
    /// <param name="sagitta">Metres, above 0.</param>
    /// <remarks>All vertices are kept, a through-place as its foot on the arc, so that the heights keep their breaks.</remarks>
    public ImmutableArray<PathPoint> Chords(double sagitta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sagitta);
        var at = VertexChainages();
        var points = ImmutableArray.CreateBuilder<PathPoint>(Vertices.Length);
        points.Add(new(PointAt(0), 0, Vertices[0].Height));
        for (var i = 0; i < Pieces.Length; i++)
        {
            var piece = Pieces[i];
            for (var v = piece.First; v < piece.Last; v++)
            {
                var run = at[v + 1] - at[v];
                var parts = piece.Kind == PieceKind.Arc ? Aslaid.Geometry.Chords.Count(piece.Arc.Radius, run / piece.Arc.Radius, sagitta) : 1;
                for (var part = 1; part < parts; part++)
                {
                    var chainage = at[v] + run * part / parts;
                    points.Add(new(piece.Arc.PointAt(chainage - starts[i]), chainage, HeightAt(chainage)));
                }
                var foot = v + 1 == piece.Last ? EndOf(i) : piece.Arc.PointAt(at[v + 1] - starts[i]);
                points.Add(new(foot, at[v + 1], HeightAt(at[v + 1])));
            }
        }
        return points.ToImmutable();
    }

    /// <summary>Length, pieces and ends, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Pieces.Length} pieces, {PlanLength:0.0000} m, {Vertices[0].At} to {Vertices[^1].At}");

    private Point2 EndOf(int piece) => Pieces[piece].Kind == PieceKind.Arc ? Pieces[piece].Arc.To : Vertices[Pieces[piece].Last].At;

    private double[] VertexChainages()
    {
        if (chainages is { } known) return known;
        var made = new double[Vertices.Length];
        Span.Chainages(made);
        return chainages = made; // two threads may both make it; it is the same
    }

    private BoxIndex PieceIndex()
    {
        if (index is { } known) return known;
        var boxes = new Box2[Pieces.Length];
        for (var i = 0; i < boxes.Length; i++) boxes[i] = Span.BoxOf(i);
        return index = BoxIndex.Of(boxes);
    }

    private const int FewPieces = 16; // below this, looking at all is as quick as an index

    private readonly struct ToPiece(Path path, Point2 place) : IDistanceTo
    {
        public double To(int piece) => path.Span.LocateOn(piece, place).Distance;
    }
}
