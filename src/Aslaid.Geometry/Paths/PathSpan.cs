namespace Aslaid.Geometry;

/// <summary>A path seen in place: for measuring by the hundred thousand without allocating. Trusts that the pieces join;
/// <see cref="Path.Of"/> checks.</summary>
/// <param name="vertices">The places, in order.</param>
/// <param name="pieces">The pieces, in order, covering all vertices.</param>
public readonly ref struct PathSpan(ReadOnlySpan<PathVertex> vertices, ReadOnlySpan<PathPiece> pieces)
{
    /// <summary>The places, in order.</summary>
    public ReadOnlySpan<PathVertex> Vertices { get; } = vertices;

    /// <summary>The pieces, in order.</summary>
    public ReadOnlySpan<PathPiece> Pieces { get; } = pieces;

    /// <summary>True where the path ends where it started, to the bit, and is more than there and back by one straight.</summary>
    public bool IsClosed => !Pieces.IsEmpty && Vertices[0].At == Vertices[^1].At && Pieces.Length switch
    {
        1 => Pieces[0].Arc.IsFullCircle,
        2 => Pieces[0].Kind == PieceKind.Arc || Pieces[1].Kind == PieceKind.Arc,
        _ => true,
    };

    /// <summary>The smallest box over all pieces.</summary>
    public Box2 Box
    {
        get
        {
            var box = Box2.Empty;
            for (var i = 0; i < Pieces.Length; i++) box = box.Union(BoxOf(i));
            return box;
        }
    }

    /// <summary>Metres in plan, grid.</summary>
    public double PlanLength
    {
        get
        {
            var sum = 0.0;
            for (var i = 0; i < Pieces.Length; i++) sum += LengthOf(i);
            return sum;
        }
    }

    /// <summary>Metres on the slope, each stretch between neighbouring vertices climbing evenly; null where a height is missing.</summary>
    /// <remarks>√(plan² + climb²) is exact for an even climb along any plan curve: the developed cylinder is flat.</remarks>
    public double? SlopeLength
    {
        get
        {
            var sum = 0.0;
            foreach (ref readonly var piece in Pieces)
            {
                var done = 0.0;
                for (var v = piece.First; v < piece.Last; v++)
                {
                    if (Vertices[v].Height is not { } low || Vertices[v + 1].Height is not { } high) return null;
                    var until = AlongPiece(piece, v + 1, done);
                    sum += Math.Sqrt((until - done) * (until - done) + (high - low) * (high - low));
                    done = until;
                }
            }
            return sum;
        }
    }

    /// <summary>Square metres inside, anticlockwise positive; null where the path is not closed.</summary>
    public double? SignedArea
    {
        get
        {
            if (!IsClosed) return null;
            var origin = Vertices[0].At;
            var twice = 0.0;
            var segments = 0.0;
            foreach (ref readonly var piece in Pieces)
            {
                twice += (Vertices[piece.First].At - origin).Cross(Vertices[piece.Last].At - origin);
                segments += piece.Arc.SegmentArea;
            }
            return twice / 2 + segments;
        }
    }

    /// <summary>Metres in plan of one piece.</summary>
    public double LengthOf(int piece)
    {
        ref readonly var p = ref Pieces[piece];
        return p.Kind == PieceKind.Arc ? p.Arc.PlanLength : Vertices[p.First].At.DistanceTo(Vertices[p.Last].At);
    }

    /// <summary>The smallest box over one piece.</summary>
    public Box2 BoxOf(int piece)
    {
        ref readonly var p = ref Pieces[piece];
        return p.Kind == PieceKind.Arc ? p.Arc.Box : Box2.Of(Vertices[p.First].At, Vertices[p.Last].At);
    }

    /// <summary>The straight a piece runs along; for an arc, its chord.</summary>
    public Straight StraightOf(int piece) => new(Vertices[Pieces[piece].First].At, Vertices[Pieces[piece].Last].At);

    /// <summary>The nearest point of one piece; chainage from the piece's start.</summary>
    public Locus LocateOn(int piece, Point2 place) =>
        Pieces[piece].Kind == PieceKind.Arc ? Pieces[piece].Arc.Locate(place) : StraightOf(piece).Locate(place);

    /// <summary>Writes the chainage of every vertex, metres; that of a through-place is its foot's on the arc.</summary>
    /// <param name="into">As long as the vertices; never falling along the path.</param>
    public void Chainages(Span<double> into)
    {
        if (into.Length > 0) into[0] = 0;
        var start = 0.0;
        for (var i = 0; i < Pieces.Length; i++)
        {
            ref readonly var piece = ref Pieces[i];
            var done = 0.0;
            for (var v = piece.First + 1; v < piece.Last; v++) into[v] = start + (done = AlongPiece(piece, v, done));
            into[piece.Last] = start += LengthOf(i);
        }
    }

    /// <summary>The nearest point of the whole path; of equally near pieces the first. Looks at every piece.</summary>
    /// <param name="piece">The piece it lies on.</param>
    /// <remarks>At a corner between pieces the offset is the distance, signed by the side.</remarks>
    public Locus Locate(Point2 place, out int piece)
    {
        var best = new Locus(0, 0, double.PositiveInfinity, default);
        var start = 0.0;
        piece = 0;
        for (var i = 0; i < Pieces.Length; i++)
        {
            var length = LengthOf(i);
            if (BoxOf(i).SquaredDistanceTo(place) <= best.Distance * best.Distance)
            {
                var here = LocateOn(i, place);
                if (here.Distance < best.Distance)
                {
                    best = here with { Along = start + here.Along };
                    piece = i;
                }
            }
            start += length;
        }
        return best with { Offset = OffsetAtCorner(place, piece, best) };
    }

    internal double OffsetAtCorner(Point2 place, int piece, Locus found)
    {
        int other;
        if (found.Foot == Vertices[Pieces[piece].Last].At && (piece + 1 < Pieces.Length || IsClosed)) other = (piece + 1) % Pieces.Length;
        else if (found.Foot == Vertices[Pieces[piece].First].At && (piece > 0 || IsClosed)) other = (piece + Pieces.Length - 1) % Pieces.Length;
        else return found.Offset;
        if (other == piece) return found.Offset;
        // Outside a corner sharper than a right angle the place may be on the wrong side of one piece produced, never of the one it is more nearly square to.
        var beside = LocateOn(other, place);
        var telling = Math.Abs(beside.Offset) > Math.Abs(found.Offset) ? beside.Offset : found.Offset;
        return Math.CopySign(found.Distance, telling);
    }

    /// <summary>Chainage of a vertex from its piece's start, not before <paramref name="after"/>.</summary>
    internal double AlongPiece(in PathPiece piece, int vertex, double after)
    {
        if (vertex == piece.Last) return piece.Kind == PieceKind.Arc ? piece.Arc.PlanLength : Vertices[piece.First].At.DistanceTo(Vertices[piece.Last].At);
        return Math.Max(after, piece.Arc.Radius * piece.Arc.FootAngle(Vertices[vertex].At));
    }
}
