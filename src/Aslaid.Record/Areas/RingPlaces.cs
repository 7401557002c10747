using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Whether places lie inside a closed run, arcs included.</summary>
internal static class RingPlaces
{
    /// <summary>By how often the ring turns about the place (winding number); a place on the ring may be either.</summary>
    public static bool IsInside(Run ring, Point2 place)
    {
        if (!ring.Box.Contains(place)) return false;
        var turned = 0.0;
        for (var number = 0; number < ring.PieceCount; number++)
        {
            var piece = ring.Piece(number);
            if (piece.Kind == PieceKind.Straight)
            {
                turned += Angle(piece.From - place, piece.To - place);
                continue;
            }

            // Steps of an arc under 15° see less than half a turn from any place that is not on it.
            var steps = Math.Max(2, (int)Math.Ceiling(piece.Arc.Sweep / 0.26));
            var before = piece.Arc.From - place;
            for (var step = 1; step <= steps; step++)
            {
                var here = piece.Arc.PointAt(piece.Arc.PlanLength * step / steps) - place;
                turned += Angle(before, here);
                before = here;
            }
        }

        return Math.Abs(turned) > Math.PI;
    }

    /// <summary>Whether all vertices of one ring lie inside another, and the middles of its pieces.</summary>
    public static bool IsInside(Run ring, Run inner)
    {
        if (ring.Number == inner.Number || !Within(ring.Box, inner.Box)) return false;
        for (var number = 0; number < inner.PieceCount; number++)
        {
            var piece = inner.Piece(number);
            var middle = piece.Kind == PieceKind.Arc ? piece.Arc.MidPoint : piece.Straight.PointAt(piece.PlanLength / 2);
            if (!IsInside(ring, piece.From) || !IsInside(ring, middle)) return false;
        }

        return inner.PieceCount > 0;
    }

    private static bool Within(Box2 outer, Box2 inner) =>
        outer.MinEast <= inner.MinEast && outer.MaxEast >= inner.MaxEast && outer.MinNorth <= inner.MinNorth && outer.MaxNorth >= inner.MaxNorth;

    private static double Angle(Step from, Step to) => Math.Atan2(from.Cross(to), from.Dot(to));
}
