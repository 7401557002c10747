using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Joins of an arc with the piece beside it at which the line turns by more than its code allows.</summary>
internal sealed class TangentBreak : ICheck
{
    public string Name => "tangent-break";

    public string Title => "Arcs that do not run on from their neighbours";

    public string Unit => "deg";

    /// <summary>Degrees: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    public void Look(Site site, Findings found)
    {
        var joins = 0;
        foreach (var piece in ArcPosition.Arcs(site.Runs))
            if (piece.Run.Entry?.TangentBreakMaxDegrees is not null) joins += 2;
        if (joins == 0) return;
        var sigmas = AlarmBudget.Sigmas(joins);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { TangentBreakMaxDegrees: { } limit } entry) continue;
            for (var i = 0; i < run.PieceCount; i++) LookAt(site, run, entry, limit, i, sigmas, found);
        }
    }

    private static void LookAt(Site site, Run run, CodeEntry entry, double limit, int at, double sigmas, Findings found)
    {
        var next = Measures.Next(run, at);
        if (next < 0) return;
        var (into, onward) = (run.Piece(at), run.Piece(next));
        if (into.Kind != PieceKind.Arc && onward.Kind != PieceKind.Arc) return;
        var degrees = Math.Abs(double.RadiansToDegrees(Measures.Turn(run, at) ?? 0));
        if (degrees <= limit + Same) return;
        if (ArcPosition.IsNearEnd(into) || ArcPosition.IsNearEnd(onward)) return; // the through-shot's place is the mistake that leads
        var turn = Measures.TangentBreak(run, at)!;
        var u = turn.U(site.Shots) is { } known ? double.RadiansToDegrees(known) : double.NaN;
        if (degrees - sigmas * u <= limit || IsOfAnother(site, into) || IsOfAnother(site, onward)) return;
        var member = into.Last;
        var shot = run.Members[member];
        var certain = !double.IsNaN(u);
        found.Add(certain && entry.NeedsProof ? Severity.Stop : Severity.Look, [shot, run.Members[member - 1], run.Members[onward.First + 1]],
            site.Shots.At(shot), site.Shots.HeightOf(shot), run.Number, run.Chainages[member], run.Chainages[member], degrees, limit,
            figures: [u, Math.Sign(turn.Value)]);
    }

    /// <summary>Whether another check leads: the piece goes straight for want of a proven arc, or does not belong where it is.</summary>
    private static bool IsOfAnother(Site site, Piece piece)
    {
        var (run, member) = (piece.Run, piece.Run.FirstMember + piece.First);
        if (site.RunBreaks.Touches(run.Number, piece.First + 1) || site.RunBreaks.Touches(run.Number, piece.Last)) return true;
        var (low, high) = (0, site.Runs.Doubts.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (site.Runs.Doubts[middle].LastMember <= member) low = middle + 1;
            else high = middle;
        }

        return low < site.Runs.Doubts.Length && site.Runs.Doubts[low].FirstMember <= member;
    }

    public string Message(Finding finding)
    {
        var (u, side) = (finding.Figure(0), finding.Figure(1) > 0 ? "right" : "left");
        var doubt = double.IsNaN(u) ? "°, accuracy not given," : $" ± {CheckText.Number(Normal.Within95 * u, "0.0")}°";
        return $"{finding.RunLabel()} turns {side} by {CheckText.Number(finding.Measured, "0.0")}{doubt} where an arc begins or ends at {finding.Shot(0)}, "
            + $"{CheckText.Along(finding)}, limit {CheckText.Number(finding.Allowed, "0.0")}° (between {finding.Shot(1)} and {finding.Shot(2)}).";
    }

    public string Cure(Finding finding) => $"Shoot the tangent point, where bend and straight really meet near {finding.Shot(0)}; if it was built as a corner, have it accepted.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
