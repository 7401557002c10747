using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Corners of services that turn more sharply than the thing can lie: the bend itself was not shot.</summary>
internal sealed class BendNotShot : ICheck
{
    /// <summary>A bend that passes its corner at more than this many times the limit is plainly missing (DEFAULT).</summary>
    private const double Plainly = 4;

    /// <summary>What needs a larger radius than this is stiff and turns at fittings, metres (DEFAULT): never more than a look.</summary>
    private const double StiffFrom = 5;

    /// <summary>A chamber, valve or other point that the code ends on is at the corner within this, metres (DEFAULT).</summary>
    private const double AtFitting = 0.3;

    private const double Coverage = 2;

    public string Name => "bend-not-shot";

    public string Title => "A bend of which only the corner was shot";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var often = AlarmBudget.Sigmas(site.Runs.PieceCount);
        PlaceGrid? points = null;
        var near = new List<int>();
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { Service: not null, RadiusMin: { } least and > 0, SagittaMax: { } limit } entry) continue;
            for (var i = 0; i + 1 < run.PieceCount; i++)
            {
                var piece = run.Piece(i);
                if (piece.Kind != PieceKind.Straight || run.Piece(i + 1).Kind != PieceKind.Straight || run.Through[piece.Last]) continue;
                var corner = Corner.At(site, run, piece.Last);
                var passes = Passes(corner, Math.Abs(corner.Turn) - often * corner.UTurn, least);
                if (passes <= limit || IsOther(site, run, piece.Last)) continue;
                points ??= new(site.Shots, site.Points.AsSpan(), 1);
                if (HasFitting(site, entry, run.Members[piece.Last], points, near)) continue;
                Add(site, run, piece.Last, corner, passes, least, limit, found);
            }
        }
    }

    /// <summary>How far from the corner a bend passes that turns by so much, metres: T tan(θ/4), T the tangent length R tan(θ/2), no longer than a leg.</summary>
    private static double Passes(Corner corner, double turn, double radius)
    {
        if (turn <= 0) return 0;
        var tangent = turn < Math.PI ? radius * Math.Tan(turn / 2) : double.PositiveInfinity;
        return Math.Min(tangent, Math.Min(corner.Before, corner.After)) * Math.Tan(turn / 4); // R(sec(θ/2) − 1) where the legs are long enough
    }

    private static void Add(Site site, Run run, int member, Corner corner, double surely, double least, double limit, Findings found)
    {
        var shot = run.Members[member];
        var known = !double.IsNaN(site.Shots.SigmaPlan[run.Members[member - 1]] + site.Shots.SigmaPlan[shot] + site.Shots.SigmaPlan[run.Members[member + 1]]);
        // Pipes have elbows that no file marks; cables and their ducts have none.
        var plainly = known && run.Entry is { NeedsProof: true, Service: "power" or "telecom" } && least <= StiffFrom && surely > Plainly * limit;
        var (from, to) = RunRange.About(run, member, member);
        found.Add(plainly ? Severity.Stop : Severity.Look, [shot], site.Shots.At(shot), site.Shots.HeightOf(shot), run.Number, from, to,
            Passes(corner, Math.Abs(corner.Turn), least), limit, figures: [Math.Abs(corner.Turn), known ? corner.UTurn : double.NaN, least, run.Chainages[member]]);
    }

    /// <summary>Whether the corner is another check's: a wrong code, a wrong order, a curve by chords; or a node of another thing.</summary>
    private static bool IsOther(Site site, Run run, int member)
    {
        var shot = run.Members[member];
        return site.RunBreaks.Touches(run.Number, member) || site.RunBreaks.Touches(run.Number, member + 1)
            || site.LateStretches.Explains(run.Number, member) || site.LateStretches.Explains(run.Number, member + 1)
            || site.ChordCurves.Has(run.Number, member) || NeighboursExchanged.Has(site, run, member)
            || site.Membership.IsShared(shot) || site.Shots.CodeColumn[shot] != run.Table.CodeWords[run.Number];
    }

    private static bool HasFitting(Site site, CodeEntry entry, int shot, PlaceGrid points, List<int> near)
    {
        if (entry.EndsOn.IsEmpty) return false;
        near.Clear();
        points.Near(site.Shots.At(shot), AtFitting, near);
        foreach (var point in near)
            if (entry.EndsOn.Contains(site.Shots.CodeOf(point))) return true;
        return false;
    }

    public string Message(Finding finding)
    {
        var u = finding.Figure(1);
        var doubt = double.IsNaN(u) ? "accuracy not given" : $"± {Degrees(Coverage * u)}";
        return $"{finding.RunLabel()} turns by {Degrees(finding.Figure(0))} {doubt} at {finding.Shot(0)} ({CheckText.Number(finding.Figure(3), "0.0")} m) without an arc:"
            + $" a bend of the least radius {CheckText.Metres(finding.Figure(2))} passes {CheckText.Metres(finding.Measured)} from it, limit {CheckText.Metres(finding.Allowed)}.";
    }

    private static string Degrees(double radians) => CheckText.Number(double.RadiansToDegrees(radians), "0.0") + "°";

    public string Cure(Finding finding) =>
        $"Shoot where the bend at {finding.Shot(0)} begins, a through-shot on it, and where it ends; if it is a fitting, shoot that as a point.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
