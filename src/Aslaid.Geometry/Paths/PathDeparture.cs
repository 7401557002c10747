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
    /// <summary>The largest distance of one piece of this path from another path (a directed Hausdorff distance).</summary>
    /// <remarks>
    /// From a straight or an arc the distance of a place that runs along this piece is largest at the piece's ends, where it heads as the
    /// other does (square to a centre, along the line of two), where it is farthest from a corner, or where the nearest piece changes. The first are asked, and where
    /// the nearest piece is another at neighbours among them, the changes are closed in on to a micrometre.
    /// </remarks>
    public PathDeparture Departure(int piece, Path other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var (start, length) = (starts[piece], starts[piece + 1] - starts[piece]);
        var asked = new List<(double Along, Locus Beside, int Piece)>();
        for (var i = 0; i <= Parts; i++) Ask(length * i / Parts);
        int first = other.Pieces.Length, last = 0;
        foreach (var one in asked) (first, last) = (Math.Min(first, one.Piece), Math.Max(last, one.Piece));
        for (var j = Math.Max(0, first - 1); j <= Math.Min(other.Pieces.Length - 1, last + 1); j++) AskAbout(j);
        asked.Sort(static (a, b) => a.Along.CompareTo(b.Along));
        for (var i = asked.Count - 1; i > 0; i--) AskSwitches(asked[i - 1], asked[i]);
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
            AskBoth(other.EndOf(theirs));
            AskBoth(other.Vertices[other.Pieces[theirs].First].At);
            if (other.Pieces[theirs].Kind == PieceKind.Arc) AskFoot(other.Pieces[theirs].Arc.Centre);
            if (Pieces[piece].Kind != PieceKind.Arc) return;
            var centre = Pieces[piece].Arc.Centre;
            var toward = other.Pieces[theirs].Kind == PieceKind.Arc ? other.Pieces[theirs].Arc.Centre - centre : (other.Span.StraightOf(theirs).To - other.Span.StraightOf(theirs).From).Left;
            AskFoot(centre + toward);
            AskFoot(centre + -1 * toward);
        }

        void AskBoth(Point2 corner)
        {
            AskFoot(corner);
            if (Pieces[piece].Kind == PieceKind.Arc) AskFoot(Pieces[piece].Arc.Centre + (Pieces[piece].Arc.Centre - corner)); // farthest from it
        }

        void AskFoot(Point2 place)
        {
            var along = Span.LocateOn(piece, place).Along;
            if (along > 0 && along < length) Ask(along);
        }

        // Wherever the nearest piece changes between two places asked.
        void AskSwitches((double Along, Locus Beside, int Piece) from, (double Along, Locus Beside, int Piece) to)
        {
            while (from.Piece != to.Piece && to.Along - from.Along > Closest)
            {
                var (low, high) = (from, to);
                while (high.Along - low.Along > Closest)
                {
                    var middle = (low.Along + high.Along) / 2;
                    var beside = other.Locate(AlongPiece(piece, middle), out var nearest);
                    if (nearest == from.Piece) low = (middle, beside, nearest);
                    else high = (middle, beside, nearest);
                }

                asked.Add(low);
                asked.Add(high);
                from = high;
            }
        }
    }

    private const int Parts = 8; // even stretches of the piece in which a change is looked for
    private const double Closest = 1e-6; // m

    private Point2 AlongPiece(int piece, double along) =>
        Pieces[piece].Kind == PieceKind.Arc ? Pieces[piece].Arc.PointAt(along) : Span.StraightOf(piece).PointAt(along);
}
