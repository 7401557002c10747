using System.Runtime.InteropServices;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Turns the members of runs into straights and true arcs.</summary>
internal sealed class RunPieces(CurrentShots shots, Settings settings, RunTableBuilder table)
{
    private readonly List<Point2> controls = [];

    /// <summary>How often its standard uncertainty a through-shot must stand off the chord before there is proof of an arc.</summary>
    private const double ProofFactor = 3;

    public void Add(RunMembers run)
    {
        var first = table.MemberShots.Count;
        table.Keys.Add(run.Key);
        table.Wholes.Add(run.Whole);
        table.Labels.Add(run.Label);
        table.CodeWords.Add(run.CodeWord);
        table.CodePlaces.Add(shots.Book.Find(shots.Codes[run.CodeWord]));
        table.FirstMembers.Add(first);
        table.FirstPieces.Add(table.PieceKinds.Count);
        table.MemberShots.AddRange(run.Shots);
        table.MemberThrough.AddRange(run.Through);
        var count = run.Shots.Count;
        table.Closed.Add(count > 3 && run.Shots[0] == run.Shots[^1]); // there and back encloses nothing

        for (var at = 0; at < count - 1;)
        {
            var next = at + 1;
            while (next < count - 1 && run.Through[next]) next++;
            if (next == at + 1 && !run.Through[next]) Straight(first + at, first + next);
            else if (run.Through[next]) // the last member is a through-shot: nothing follows it
            {
                Doubt(ArcDoubtKind.Unfinished, first + at, first + next, 0, 0);
                Straights(first + at, first + next);
            }
            else Arc(first + at, first + next);
            at = next;
        }
    }

    private void Arc(int from, int to)
    {
        var (a, c) = (At(from), At(to));
        var single = to - from == 2;
        var closes = table.MemberShots[from] == table.MemberShots[to];
        if (closes && single)
        {
            Fail(ArcDoubtKind.Coincident, 0, 0);
            return;
        }

        var (ordinate, uncertainty) = closes ? Ordinate(from, to - 1) : Ordinate(from, to);
        var flatness = ProofFactor * uncertainty;
        ArcFault fault;
        Arc arc;
        if (single) Geometry.Arc.TryThrough(a, At(from + 1), c, flatness, out arc, out fault);
        else if (closes && to - from == 3) Geometry.Arc.TryFullCircle(a, At(from + 1), At(from + 2), flatness, out arc, out fault);
        else if (ordinate < flatness) (arc, fault) = (default, ArcFault.Straight);
        else if (closes) fault = CircleFrom(from, to, flatness, out arc);
        else fault = Fitted(from, to, flatness, out arc);

        if (fault != ArcFault.None)
        {
            Fail(fault switch
            {
                ArcFault.Coincident => ArcDoubtKind.Coincident,
                ArcFault.Straight => ArcDoubtKind.NotProven,
                _ => ArcDoubtKind.NotConverged,
            }, ordinate, uncertainty);
            return;
        }

        table.PieceKinds.Add(PieceKind.Arc);
        table.PieceFirsts.Add(from);
        table.PieceLasts.Add(to);
        table.PieceArcs.Add(table.Arcs.Count);
        table.Arcs.Add(arc);

        void Fail(ArcDoubtKind kind, double measured, double u)
        {
            Doubt(kind, from, to, measured, u);
            Straights(from, to);
        }
    }

    private ArcFault Fitted(int from, int to, double flatness, out Arc arc)
    {
        Collect(from, to);
        var fitted = ArcFitting.TryHeld(CollectionsMarshal.AsSpan(controls), flatness, out var fit, out var fault);
        arc = fitted ? fit.Arc : default;
        return fault;
    }

    /// <summary>A full circle through more than three shots: best fit, begun and ended at the first shot's foot.</summary>
    private ArcFault CircleFrom(int from, int to, double flatness, out Arc arc)
    {
        Collect(from, to - 1);
        var fitted = ArcFitting.TryCircle(CollectionsMarshal.AsSpan(controls), flatness, out var fit, out var fault);
        arc = fitted ? fit.Arc : default;
        return fault;
    }

    private void Collect(int from, int to)
    {
        controls.Clear();
        for (var member = from; member <= to; member++) controls.Add(At(member));
    }

    /// <summary>The largest distance of a through-shot from the chord, and its standard uncertainty (independent shots).</summary>
    private (double Ordinate, double Uncertainty) Ordinate(int from, int to)
    {
        var (a, c) = (At(from), At(to));
        var (de, dn) = (c.East - a.East, c.North - a.North);
        var chord = double.Hypot(de, dn);
        var (best, uncertainty) = (-1.0, 0.0);
        for (var member = from + 1; member < to; member++)
        {
            var b = At(member);
            var (pe, pn) = (b.East - a.East, b.North - a.North);
            var (ordinate, t) = chord > 0
                ? (Math.Abs(de * pn - dn * pe) / chord, Math.Clamp((pe * de + pn * dn) / (chord * chord), 0, 1))
                : (double.Hypot(pe, pn), 0.0);
            if (ordinate <= best) continue;
            var (sa, sb, sc) = (Sigma(from), Sigma(member), Sigma(to));
            (best, uncertainty) = (ordinate, Math.Sqrt(sb * sb + (1 - t) * (1 - t) * sa * sa + t * t * sc * sc));
        }

        return (best, uncertainty);
    }

    private Point2 At(int member) => shots.At(table.MemberShots[member]);

    private double Sigma(int member)
    {
        var sigma = shots.SigmaPlan[table.MemberShots[member]];
        return double.IsNaN(sigma) ? settings.ArcProofUPlan : sigma;
    }

    private void Straights(int from, int to)
    {
        for (var member = from; member < to; member++) Straight(member, member + 1);
    }

    private void Straight(int from, int to)
    {
        table.PieceKinds.Add(PieceKind.Straight);
        table.PieceFirsts.Add(from);
        table.PieceLasts.Add(to);
        table.PieceArcs.Add(-1);
    }

    private void Doubt(ArcDoubtKind kind, int from, int to, double ordinate, double uncertainty) =>
        table.Doubts.Add(new(table.Keys.Count - 1, from, to, kind, ordinate, uncertainty));
}
