using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>The turn between an arc and the piece beside it, against <c>tangent_break_max_deg</c>.</summary>
internal sealed class BreakOfTangents : IRequirement
{
    public string Name => "tangent-break";

    public string Title => "Turn where an arc begins or ends";

    public string Unit => "deg";

    public void Judge(Site site, ICollection<Judged> into)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { TangentBreakMaxDegrees: { } most }) continue;
            for (var i = 0; i < run.PieceCount; i++)
            {
                var next = Measures.Next(run, i);
                if (next < 0 || (run.Piece(i).Kind == PieceKind.Straight && run.Piece(next).Kind == PieceKind.Straight)) continue;
                if (Measures.TangentBreak(run, i) is not { } turn) continue;
                var (member, u) = (run.Piece(i).Last, turn.U(site.Shots));
                into.Add(new(this, run.Code, run, run.Members[member], run.Chainages[member], run.Chainages[member],
                    Judgement.OfTolerance(Degrees(turn.Value), Degrees(u), new(-most, most), site.Settings.GuardBand)));
            }
        }
    }

    private static double? Degrees(double? radians) => radians is { } known ? double.RadiansToDegrees(known) : null;
}
