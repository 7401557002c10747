using System.Collections.Immutable;

namespace Aslaid.Geometry;

public sealed partial class Path
{
    /// <summary>Where this path and another meet, by chainage here, then there; a place within the tolerance of one already found, on both paths, is not repeated.</summary>
    /// <param name="tolerance">Metres; see <see cref="Meet"/>.</param>
    public ImmutableArray<PathMeeting> Intersections(Path other, double tolerance)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (!Box.Grow(tolerance).Intersects(other.Box)) return [];
        var found = new List<PathMeeting>();
        var near = new List<int>();
        Span<Point2> at = stackalloc Point2[Meet.Most];
        for (var i = 0; i < Pieces.Length; i++)
        {
            near.Clear();
            other.PieceIndex().Query(Span.BoxOf(i).Grow(tolerance), near);
            foreach (var j in near)
            {
                var count = Meetings(i, other, j, tolerance, at);
                for (var k = 0; k < count; k++)
                    found.Add(new(at[k], starts[i] + Span.LocateOn(i, at[k]).Along, other.starts[j] + other.Span.LocateOn(j, at[k]).Along));
            }
        }
        found.Sort(static (a, b) => a.Here != b.Here ? a.Here.CompareTo(b.Here) : a.There.CompareTo(b.There));
        var kept = ImmutableArray.CreateBuilder<PathMeeting>(found.Count);
        foreach (var meeting in found)
        {
            var known = false;
            for (var k = kept.Count - 1; k >= 0 && !known && meeting.Here - kept[k].Here <= tolerance; k--)
                known = Math.Abs(meeting.There - kept[k].There) <= tolerance;
            if (!known) kept.Add(meeting);
        }
        return kept.DrainToImmutable();
    }

    /// <summary>Where this path and another come nearest in plan; of equals, that of the first pieces.</summary>
    public PathNearness Nearest(Path other)
    {
        ArgumentNullException.ThrowIfNull(other);
        // A first guess from the ends, then only what may be nearer.
        Locus start = other.Locate(Vertices[0].At, out var thereAtStart), end = other.Locate(Vertices[^1].At, out var thereAtEnd);
        var first = start.Distance <= end.Distance;
        var guess = first ? start : end;
        var best = new Nearness(guess.Distance, Vertices[first ? 0 : ^1].At, guess.Foot);
        int here = first ? 0 : Pieces.Length - 1, there = first ? thereAtStart : thereAtEnd;
        var near = new List<int>();
        for (var i = 0; i < Pieces.Length && best.Distance > 0; i++)
        {
            near.Clear();
            var box = Span.BoxOf(i);
            if (!(box.SquaredDistanceTo(other.Box) <= best.Distance * best.Distance)) continue;
            other.PieceIndex().Query(box.Grow(best.Distance), near);
            foreach (var j in near)
            {
                var nearness = NearestOf(i, other, j);
                if (!(nearness.Distance < best.Distance)) continue;
                best = nearness;
                here = i;
                there = j;
            }
        }
        return new(best.Distance, best.First, best.Second,
            starts[here] + Span.LocateOn(here, best.First).Along, other.starts[there] + other.Span.LocateOn(there, best.Second).Along);
    }

    private int Meetings(int piece, Path other, int theirs, double tolerance, Span<Point2> at) =>
        (Pieces[piece].Kind, other.Pieces[theirs].Kind) switch
        {
            (PieceKind.Straight, PieceKind.Straight) => Meet.Intersect(Span.StraightOf(piece), other.Span.StraightOf(theirs), tolerance, at),
            (PieceKind.Straight, _) => Meet.Intersect(Span.StraightOf(piece), other.Pieces[theirs].Arc, tolerance, at),
            (_, PieceKind.Straight) => Meet.Intersect(Pieces[piece].Arc, other.Span.StraightOf(theirs), tolerance, at),
            _ => Meet.Intersect(Pieces[piece].Arc, other.Pieces[theirs].Arc, tolerance, at),
        };

    private Nearness NearestOf(int piece, Path other, int theirs) =>
        (Pieces[piece].Kind, other.Pieces[theirs].Kind) switch
        {
            (PieceKind.Straight, PieceKind.Straight) => Meet.Nearest(Span.StraightOf(piece), other.Span.StraightOf(theirs)),
            (PieceKind.Straight, _) => Meet.Nearest(Span.StraightOf(piece), other.Pieces[theirs].Arc),
            (_, PieceKind.Straight) => Meet.Nearest(Pieces[piece].Arc, other.Span.StraightOf(theirs)),
            _ => Meet.Nearest(Pieces[piece].Arc, other.Pieces[theirs].Arc),
        };
}
