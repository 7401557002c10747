using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Sessions whose check shots all miss by one vector: wrong base, set-up or site fit.</summary>
internal sealed class SessionShifted : ICheck
{
    /// <summary>How near the vector must come to the step between two control points to be taken for it, metres (DEFAULT).</summary>
    private const double SameStep = 0.05;

    /// <summary>A shift in height alone that a pole of another length might also make, metres (DEFAULT).</summary>
    private const double PoleStep = 1;

    /// <summary>Between the ids of the point taken and the point meant, in a finding's word.</summary>
    private const char Separator = '\n';

    public string Name => "session-shifted";

    public string Title => "Sessions that are shifted as a whole";

    public string Unit => "m";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => ["control-missed", "control-drift", "accuracy-over-limit", "accuracy-optimistic", "measured-twice", "method-unfit", "off-design", "cover-too-small", "too-close", "reference-unclear", "pole-height-by-design", "face-for-back", "on-other-design", "design-bend-missed", "design-curve-cut"];

    /// <summary>Rounding explains an effect no larger than itself.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) => CoordinatesRounded.Allows(leader, finding.Measured);

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        (double East, int Point)[]? byEast = null;
        foreach (var checks in site.SessionChecks.All)
        {
            var shift = SessionShift.Of(site, checks);
            if (!shift.InPlan && !shift.InHeight) continue;
            var leads = shift.InPlan && !(shift.InHeight && Math.Abs(shift.Height) / shift.HeightLimit > shift.Plan.Size / shift.PlanLimit);
            var rows = checks.Select(check => site.CheckShots[check].Row).ToArray();
            byEast ??= [.. site.Control.Select((point, place) => (point.At.East, place)).Order()];
            var (taken, meant) = shift.InPlan ? Swap(site.Control, byEast, shift.Plan) : (-1, -1);
            found.Add(shift.IsBeyondDoubt ? Severity.Stop : Severity.Look, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]),
                measured: leads ? shift.Plan.Size : Math.Abs(shift.Height), allowed: leads ? shift.PlanLimit : shift.HeightLimit,
                word: taken < 0 ? null : site.Control[taken].Id + Separator + site.Control[meant].Id,
                figures: [shift.Plan.East, shift.Plan.North, shift.Height, shift.UPlan, shift.UHeight, shift.Points, shift.InPlan ? 1 : 0, leads ? 1 : 0]);
        }
    }

    /// <summary>The two points whose step is the shift: set up on one as if it were the other, everything lies by the step from the one to the other too far.</summary>
    private static (int Taken, int Meant) Swap(ImmutableArray<ControlPoint> control, (double East, int Point)[] byEast, Step shift)
    {
        var (best, apart) = ((-1, -1), SameStep);
        if (shift.Size <= 2 * SameStep) return best;
        for (var meant = 0; meant < control.Length; meant++)
        {
            var wanted = control[meant].At + -1 * shift;
            var (low, high) = (0, byEast.Length);
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (byEast[middle].East < wanted.East - SameStep) low = middle + 1;
                else high = middle;
            }

            for (; low < byEast.Length && byEast[low].East <= wanted.East + SameStep; low++)
                if (byEast[low].Point != meant && control[byEast[low].Point].At.DistanceTo(wanted) is var distance && distance <= apart) (best, apart) = ((byEast[low].Point, meant), distance);
        }

        return best;
    }

    public string Message(Finding finding)
    {
        var height = double.IsNaN(finding.Figure(2)) ? "" : $", H {CheckText.Signed(finding.Figure(2))} (± {CheckText.Metres(Normal.Within95 * finding.Figure(4))})";
        var text = $"All check shots of the session of {finding.Session()} miss by one vector: E {CheckText.Signed(finding.Figure(0))}, N {CheckText.Signed(finding.Figure(1))}"
            + $" (± {CheckText.Metres(Normal.Circle95 * finding.Figure(3))}){height} at 95 %, {CheckText.Count(finding.Shots.Length, "shot")} on {CheckText.Count(finding.Figure(5), "point")};"
            + $" {CheckText.Metres(finding.Measured)} in {(finding.Figure(7) > 0 ? "plan" : "height")}, limit {CheckText.Metres(finding.Allowed)}.";
        if (finding.Word?.Split(Separator) is [var taken, var meant]) return text + $" That is the step from {taken} to {meant}: set up on {taken} as if it were {meant}.";
        return OnlyHeight(finding) && Math.Abs(finding.Figure(2)) < PoleStep ? text + " Plan fits: the height of the set-up or base, or the length of the pole." : text;
    }

    private static bool OnlyHeight(Finding finding) => finding.Figure(6) == 0;

    public string Cure(Finding finding) => finding.Word?.Split(Separator) is [var taken, _]
        ? $"Confirm that the set-up stood on {taken}, and compute the session again from there; check it on control."
        : OnlyHeight(finding)
            ? "Compare the height of the set-up and the pole with the field notes; correct the one that was wrong, or shoot the session's points again, and check them on control."
            : "Find out whether base, set-up or site fit was wrong; compute the session again or shoot its points again, and check them on control. Shift nothing by the vector alone.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
