using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Check shots that miss their control point by more than both can be uncertain.</summary>
internal sealed class ControlMissed : ICheck
{
    /// <summary>A shot this near to another control point may have been taken on that one, metres (DEFAULT).</summary>
    private const double OtherPoint = 0.05;

    /// <summary>So many other points met in the session speak for the session and against the point (BFR Verm 5.4: two proven unchanged).</summary>
    private const int EnoughOthers = 2;

    /// <summary>Between the ids of the point named and the point hit, in a finding's word.</summary>
    private const char Separator = '\n';

    public string Name => "control-missed";

    public string Title => "Check shots that miss their control point";

    public string Unit => "m";

    public bool HoldsSession => true;

    /// <summary>A miss stays in the uncertainty of its session; and of two points one may have moved.</summary>
    public ImmutableArray<string> Explains => ["scale-off", "setup-rotated", "accuracy-over-limit", "method-unfit", "off-design", "cover-too-small", "too-close", "reference-unclear", "pole-height-by-design", "face-for-back"];

    /// <summary>Rounding explains a miss no larger than itself.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) => CoordinatesRounded.Allows(leader, finding.Measured);

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        var misfits = site.SessionChecks.Misfits;
        var sessions = Sessions(site);
        for (var i = 0; i < misfits.Length; i++)
        {
            if (!misfits[i].Missed || site.BatchPlaces.Explains(site.CheckShots[i].Row)) continue;
            var (check, misfit) = (site.CheckShots[i], misfits[i]);
            var (known, other, agree) = (site.Control[check.Point], Other(site, check), OthersMet(site, misfits, sessions, i));
            var severity = !misfit.IsBeyondChance ? Severity.Note : agree >= EnoughOthers || !misfit.IsBeyondDoubt ? Severity.Look : Severity.Stop;
            found.Add(severity, [check.Row], site.Shots.At(check.Row), site.Shots.HeightOf(check.Row),
                measured: misfit.LeadsInPlan ? misfit.Plan : misfit.Height, allowed: misfit.LeadsInPlan ? misfit.PlanLimit : misfit.HeightLimit,
                word: other < 0 ? known.Id : known.Id + Separator + site.Control[other].Id,
                figures: [check.East, check.North, check.Height ?? double.NaN, misfit.LeadsInPlan ? 0 : 1, other, agree, misfit.IsBeyondDoubt ? 0 : misfit.LeadsInPlan ? misfit.PlanSure : misfit.HeightSure]);
        }
    }

    /// <summary>Rows of the check shots that it makes a stop of.</summary>
    internal static HashSet<int> Stops(Site site)
    {
        var (rows, misfits) = (new HashSet<int>(), site.SessionChecks.Misfits);
        var sessions = Sessions(site);
        for (var i = 0; i < misfits.Length; i++)
            if (misfits[i] is { Missed: true, IsBeyondDoubt: true } && !site.BatchPlaces.Explains(site.CheckShots[i].Row) && OthersMet(site, misfits, sessions, i) < EnoughOthers) rows.Add(site.CheckShots[i].Row);
        return rows;
    }

    private static Dictionary<int, ImmutableArray<int>> Sessions(Site site) => site.SessionChecks.All.ToDictionary(session => site.Shots.SessionColumn[site.CheckShots[session[0]].Row]);

    /// <summary>How many other points the same session met and never missed; 0 where it met this one at another time.</summary>
    private static int OthersMet(Site site, ImmutableArray<Misfit> misfits, Dictionary<int, ImmutableArray<int>> sessions, int at)
    {
        var point = site.CheckShots[at].Point;
        var (met, missed) = (new HashSet<int>(), new HashSet<int>());
        foreach (var i in sessions[site.Shots.SessionColumn[site.CheckShots[at].Row]]) (misfits[i].Missed ? missed : met).Add(site.CheckShots[i].Point);
        if (met.Contains(point)) return 0;
        met.ExceptWith(missed);
        return met.Count;
    }

    /// <summary>Place of the control point that the shot lies on, when it is not the one named; else −1.</summary>
    private static int Other(Site site, CheckShot check)
    {
        var at = site.Shots.At(check.Row);
        for (var place = 0; place < site.Control.Length; place++)
            if (place != check.Point && at.DistanceTo(site.Control[place].At) <= OtherPoint) return place;
        return -1;
    }

    public string Message(Finding finding)
    {
        var height = double.IsNaN(finding.Figure(2)) ? "" : $", H {CheckText.Signed(finding.Figure(2))}";
        var text = $"Check shot {finding.Shot(0)} misses {Point(finding)} by {CheckText.Metres(finding.Measured)} in {(finding.Figure(3) > 0 ? "height" : "plan")}"
            + $" (E {CheckText.Signed(finding.Figure(0))}, N {CheckText.Signed(finding.Figure(1))}{height} m), limit {CheckText.Metres(finding.Allowed)}.";
        if (finding.Severity == Severity.Note) return text + " The limit is half the tightest tolerance of the session; a good check shot may be so far off by chance.";
        if (finding.Figure(5) < EnoughOthers && finding.Figure(6) > 0)
            text += $" With what a session may have in common it may be {CheckText.Metres(finding.Figure(6))} off.";
        if (finding.Severity == Severity.Look && finding.Figure(5) >= EnoughOthers) text += $" {CheckText.Number(finding.Figure(5), "0")} other points agree with the session: {Point(finding)} itself may have moved.";
        return finding.Figure(4) < 0 ? text : text + $" It lies on {finding.Word!.Split(Separator)[1]}: that may be the point occupied.";
    }

    private static string Point(Finding finding) => finding.Word!.Split(Separator)[0];

    public string Cure(Finding finding) => finding.Severity == Severity.Note
        ? "Shoot what has so tight a tolerance with a better instrument, and check shoot for longer."
        : finding.Figure(4) < 0 && finding.Severity == Severity.Look && finding.Figure(5) < EnoughOthers
        ? "Check shoot again, for longer and on another point: either it passes, or the set-up is shifted."
        : finding.Figure(4) < 0
        ? finding.Severity == Severity.Look
            ? $"Leave {Point(finding)} unused until it is measured from two points that agree."
            : $"Check {Point(finding)} from another control point; shift nothing before the cause is known, and shoot the session's points again if it is the set-up."
        : "Say in its note which point was occupied, and shoot the right one.";

    /// <summary>A mark that two others contradict is put right at the desk; nothing is to be shot again.</summary>
    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open
        : finding.Severity == Severity.Note || finding.Figure(5) >= EnoughOthers ? Reshoot.None : Reshoot.Any;
}
