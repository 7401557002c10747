using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>A straight or an arc of less than a full turn, for formats that know no circle within a chain.</summary>
/// <param name="Arc">The arc; null for a straight.</param>
internal readonly record struct PlanSegment(Point2 From, Point2 To, Arc? Arc);

/// <summary>A path in plan as a chain without gaps.</summary>
internal static class PlanSegments
{
    /// <summary>Full circles come as two halves. Where a best-fit circle does not begin on its shot, a straight leads to it. Straights of no length go.</summary>
    public static IReadOnlyList<PlanSegment> Of(Path path)
    {
        var chain = new List<PlanSegment>(path.Pieces.Length + 1);
        foreach (var piece in path.Pieces)
        {
            if (piece.Kind == PieceKind.Straight)
            {
                Straight(path.Vertices[piece.First].At, path.Vertices[piece.Last].At);
                continue;
            }

            var arc = piece.Arc;
            if (chain.Count > 0) Straight(chain[^1].To, arc.From);
            if (arc.IsFullCircle)
            {
                var opposite = arc.Centre + (arc.Centre - arc.From);
                Bend(Arc.FromParts(arc.From, opposite, arc.Centre, arc.Radius, Math.PI, arc.Turn));
                Bend(Arc.FromParts(opposite, arc.To, arc.Centre, arc.Radius, Math.PI, arc.Turn));
            }
            else Bend(arc);
        }

        return chain;

        void Straight(Point2 from, Point2 to)
        {
            if (chain.Count > 0 && chain[^1].To is var end && end != from) from = end; // after a best-fit circle
            if (from != to) chain.Add(new(from, to, null));
        }

        void Bend(Arc arc) => chain.Add(new(arc.From, arc.To, arc));
    }
}
