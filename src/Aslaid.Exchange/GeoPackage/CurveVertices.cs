using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>A run's path as vertices for well-known binary; measure is chainage, a missing height is NaN.</summary>
internal static class CurveVertices
{
    /// <summary>
    /// True arcs: an arc through one shot keeps that shot as its middle point; a best-fit arc gets its midpoint; a full circle
    /// start, opposite, start.
    /// </summary>
    public static void True(Run run, List<CurveVertex> into)
    {
        into.Clear();
        for (var number = 0; number < run.PieceCount; number++)
        {
            var piece = run.Piece(number);
            var circle = piece.Kind == PieceKind.Arc && piece.Arc.IsFullCircle;
            if (number == 0) into.Add(circle ? At(run, piece.Arc.From, 0) : Vertex(run, piece.First));
            if (piece.Kind == PieceKind.Arc)
            {
                var start = run.Chainages[piece.First];
                into.Add(!circle && piece.Last - piece.First == 2
                    ? Vertex(run, piece.First + 1) with { OnArc = true }
                    : At(run, piece.Arc.MidPoint, start + piece.Arc.PlanLength / 2) with { OnArc = true });
            }

            into.Add(circle ? into[0] with { Measure = run.Chainages[piece.Last] } : Vertex(run, piece.Last));
        }
    }

    /// <summary>True arcs of a path that is no run: each arc by its ends and its midpoint.</summary>
    public static void True(Path path, List<CurveVertex> into)
    {
        into.Clear();
        var along = 0.0;
        foreach (var piece in path.Pieces)
        {
            var arc = piece.Kind == PieceKind.Arc;
            Point2 from = arc ? piece.Arc.From : path.Vertices[piece.First].At, to = arc ? piece.Arc.To : path.Vertices[piece.Last].At;
            var length = arc ? piece.Arc.PlanLength : from.DistanceTo(to);
            if (into.Count == 0) into.Add(At(from, 0));
            if (arc) into.Add(At(piece.Arc.MidPoint, along + length / 2) with { OnArc = true });
            along += length;
            into.Add(At(to, along));
        }

        CurveVertex At(Point2 at, double chainage) => new(at.East, at.North, path.HeightAt(chainage) ?? double.NaN, chainage, false);
    }

    /// <summary>Arcs as chords within a sagitta; a ring closes bit for bit.</summary>
    public static void Chorded(Run run, double sagitta, List<CurveVertex> into)
    {
        into.Clear();
        foreach (var point in run.Path.Chords(sagitta))
            into.Add(new(point.At.East, point.At.North, point.Height ?? double.NaN, point.Chainage, false));
        if (run.IsClosed) into[^1] = into[0] with { Measure = into[^1].Measure };
    }

    private static CurveVertex Vertex(Run run, int member)
    {
        var shot = run.Members[member];
        var at = run.Table.Shots.At(shot);
        return new(at.East, at.North, run.Table.Shots.Heights[shot], run.Chainages[member], false);
    }

    private static CurveVertex At(Run run, Point2 at, double chainage) =>
        new(at.East, at.North, RunHeights.At(run, chainage) ?? double.NaN, chainage, false);
}

/// <summary>Heights along a run, linear between members; null where either neighbour lacks one.</summary>
internal static class RunHeights
{
    public static double? At(Run run, double chainage)
    {
        var member = Math.Min(run.MemberAt(chainage), run.MemberCount - 2);
        var (low, high) = (run.Table.Shots.HeightOf(run.Members[member]), run.Table.Shots.HeightOf(run.Members[member + 1]));
        var (from, to) = (run.Chainages[member], run.Chainages[member + 1]);
        return to > from ? low + (high - low) * Math.Clamp((chainage - from) / (to - from), 0, 1) : low;
    }
}
