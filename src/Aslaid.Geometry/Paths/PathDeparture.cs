namespace Aslaid.Geometry;

/// <summary>How far a stretch of one path leaves another at most.</summary>
/// <param name="Distance">Metres from the place to the other path.</param>
/// <param name="Here">Chainage on the path asked, metres.</param>
/// <param name="Beside">Where that place lies beside the other path: chainage, offset right positive, foot.</param>
/// <param name="At">The place.</param>
public readonly record struct PathDeparture(double Distance, double Here, Locus Beside, Point2 At)
{
    /// <summary>Distance and place, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Distance:0.0000} m at {Here:0.0000} m");
}

public sealed partial class Path
{
    private const double Golden = 0.6180339887498949;

    /// <summary>The largest distance of one piece of this path from another path (a directed Hausdorff distance).</summary>
    /// <remarks>
    /// From a straight or an arc the distance of a place that runs along this piece is largest at the piece's ends, where it heads as the
    /// other does (square to a centre, or along the line of two), or where the nearest piece changes. The first are asked; between
    /// neighbours among them whose nearest pieces differ the largest is closed in on to 0.1 mm along the piece.
    /// </remarks>
    public PathDeparture Departure(int piece, Path other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var (start, length) = (starts[piece], starts[piece + 1] - starts[piece]);
        var asked = new List<(double Along, Locus Beside, int Piece)>();
        Ask(0);
        Ask(length);
        int first = Math.Min(asked[0].Piece, asked[1].Piece), last = Math.Max(asked[0].Piece, asked[1].Piece);
        for (var j = Math.Max(0, first - 1); j <= Math.Min(other.Pieces.Length - 1, last + 1); j++) AskAbout(j);
        asked.Sort(static (a, b) => a.Along.CompareTo(b.Along));
        for (var i = asked.Count - 1; i > 0; i--)
            if (asked[i].Piece != asked[i - 1].Piece) CloseIn(asked[i - 1].Along, asked[i].Along);
        var best = asked[0];
        foreach (var one in asked)
            if (one.Beside.Distance > best.Beside.Distance) best = one;
        return new(best.Beside.Distance, start + best.Along, best.Beside, AlongPiece(piece, best.Along));

        void Ask(double along)
        {
            var beside = other.Locate(AlongPiece(piece, along), out var nearest);
            asked.Add((along, beside, nearest));
        }

        void AskAbout(int theirs)
        {
            AskFoot(other.EndOf(theirs));
            if (other.Pieces[theirs].Kind == PieceKind.Arc) AskFoot(other.Pieces[theirs].Arc.Centre);
            if (Pieces[piece].Kind != PieceKind.Arc) return;
            var centre = Pieces[piece].Arc.Centre;
            var toward = other.Pieces[theirs].Kind == PieceKind.Arc ? other.Pieces[theirs].Arc.Centre - centre : (other.Span.StraightOf(theirs).To - other.Span.StraightOf(theirs).From).Left;
            AskFoot(centre + toward);
            AskFoot(centre + -1 * toward);
        }

        void AskFoot(Point2 place)
        {
            var along = Span.LocateOn(piece, place).Along;
            if (along > 0 && along < length) Ask(along);
        }

        void CloseIn(double from, double to)
        {
            while (to - from > 1e-4)
            {
                double a = to - Golden * (to - from), b = from + Golden * (to - from);
                if (other.Locate(AlongPiece(piece, a)).Distance >= other.Locate(AlongPiece(piece, b)).Distance) to = b;
                else from = a;
            }

            Ask((from + to) / 2);
        }
    }

    private Point2 AlongPiece(int piece, double along) =>
        Pieces[piece].Kind == PieceKind.Arc ? Pieces[piece].Arc.PointAt(along) : Span.StraightOf(piece).PointAt(along);
}
