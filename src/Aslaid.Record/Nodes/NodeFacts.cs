using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>What the record itself tells of an end of a run at a node.</summary>
public static class NodeFacts
{
    /// <summary>Direction from the node along the run, hours of a clock with 12 towards grid north, in [0, 12); null for a run of one place.</summary>
    public static double? Clock(Run run, RunEnd end)
    {
        if (run.PieceCount == 0) return null;
        var piece = run.Piece(end == RunEnd.Start ? 0 : run.PieceCount - 1);
        var way = piece.Kind == PieceKind.Arc ? piece.Arc.BearingAt(end == RunEnd.Start ? 0 : piece.PlanLength) : piece.Straight.Bearing;
        var away = end == RunEnd.Start ? way : way.Reverse;
        var hours = away.Degrees / 30;
        return hours < 12 ? hours : 0;
    }

    /// <summary>Whether the run flows out of its end's node: by its attribute flow, else from the higher end to the lower where that is beyond doubt; null where nobody knows.</summary>
    public static bool? FlowsOut(CurrentShots shots, Run run, RunEnd end)
    {
        if (run.Facts.Flow != FlowSense.Unknown) return run.Facts.Flow == FlowSense.Along == (end == RunEnd.Start);
        var (first, last) = (run.Members[0], run.Members[^1]);
        var fall = Measures.HeightDifference(shots, last, first);
        if (fall?.U(shots) is not { } u || Math.Abs(fall.Value) <= 3 * u || shots.CodeColumn[first] != run.Table.CodeWords[run.Number] || shots.CodeColumn[last] != run.Table.CodeWords[run.Number]) return null;
        return fall.Value > 0 == (end == RunEnd.Start);
    }

    /// <summary>The connection as the record has it: invert and size from the run's end shot and sizes, direction from its first piece.</summary>
    public static ConnectionSet Ready(Site site, Node node, NodeEnd end)
    {
        var run = site.Runs[end.Run];
        var levels = new LevelsOfRuns(site).Of(run, end.End == RunEnd.Start ? 0 : run.MemberCount - 1);
        var inside = run.Entry is { OutsideDiameter: { } outside, Wall: { } wall } ? outside - 2 * wall : (double?)null;
        return new(site.Shots.Raw.Key(node.Row), run.Label, levels.Invert, inside, Clock(run, end.End), run.Key, end.End);
    }
}
