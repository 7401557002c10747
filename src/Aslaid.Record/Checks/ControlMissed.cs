namespace Aslaid.Record;

/// <summary>Check shots that miss their control point by more than both can be uncertain.</summary>
internal sealed class ControlMissed : ICheck
{
    /// <summary>How often the combined standard uncertainty a misfit may be: three, since six perfect checks judged at two would alarm on every fourth day.</summary>
    private const double Often = 3;

    /// <summary>Misfits never over this share of the tightest tolerance measured in the session.</summary>
    private const double ShareOfTolerance = 0.5;

    /// <summary>A shot this near to another control point may have been taken on that one, metres (DEFAULT).</summary>
    private const double OtherPoint = 0.05;

    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    /// <summary>So many other points met in the session speak for the session and against the point (BFR Verm 5.4: two proven unchanged).</summary>
    private const int EnoughOthers = 2;

    /// <summary>Between the ids of the point named and the point hit, in a finding's word.</summary>
    private const char Separator = '\n';

    public string Name => "control-missed";

    public string Title => "Check shots that miss their control point";

    public string Unit => "m";

    public bool HoldsSession => true;

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        var misfits = Misfits(site);
        for (var i = 0; i < misfits.Length; i++)
        {
            if (!misfits[i].Missed || site.BatchPlaces.Explains(site.CheckShots[i].Row)) continue;
            var (check, misfit) = (site.CheckShots[i], misfits[i]);
            var (known, other, agree) = (site.Control[check.Point], Other(site, check), OthersMet(site, misfits, i));
            found.Add(agree >= EnoughOthers ? Severity.Look : Severity.Stop, [check.Row], site.Shots.At(check.Row), site.Shots.HeightOf(check.Row),
                measured: misfit.InPlan ? misfit.Plan : misfit.Height, allowed: misfit.InPlan ? misfit.PlanLimit : misfit.HeightLimit,
                word: other < 0 ? known.Id : known.Id + Separator + site.Control[other].Id,
                figures: [check.East, check.North, check.Height ?? double.NaN, misfit.InPlan ? 0 : 1, other, agree]);
        }
    }

    private readonly record struct Misfit(double Plan, double PlanLimit, double Height, double HeightLimit)
    {
        public bool Missed => Plan > PlanLimit + Same || Height > HeightLimit + Same;

        public bool InPlan => Plan / PlanLimit >= Height / HeightLimit;
    }

    private static Misfit[] Misfits(Site site)
    {
        var tightest = Tightest(site);
        var misfits = new Misfit[site.CheckShots.Length];
        for (var i = 0; i < misfits.Length; i++)
        {
            var check = site.CheckShots[i];
            var (shots, known) = (site.Shots, site.Control[check.Point]);
            var (tolerancePlan, toleranceHeight) = tightest[shots.SessionColumn[check.Row]];
            var uPlan = Math.Sqrt(2) * shots.SigmaPlan[check.Row]; // radial, as control states it
            misfits[i] = new(
                check.Plan, Limit(known.UPlan, uPlan, tolerancePlan, site.Settings.ControlPlanMax),
                Math.Abs(check.Height ?? 0), Limit(known.UHeight, shots.SigmaHeight[check.Row], toleranceHeight, site.Settings.ControlHeightMax));
        }

        return misfits;
    }

    /// <summary>How many other points the same session met and never missed; 0 where it met this one at another time.</summary>
    private static int OthersMet(Site site, Misfit[] misfits, int at)
    {
        var (session, point) = (site.Shots.SessionColumn[site.CheckShots[at].Row], site.CheckShots[at].Point);
        var (met, missed) = (new HashSet<int>(), new HashSet<int>());
        for (var i = 0; i < misfits.Length; i++)
            if (site.Shots.SessionColumn[site.CheckShots[i].Row] == session) (misfits[i].Missed ? missed : met).Add(site.CheckShots[i].Point);
        if (met.Contains(point)) return 0;
        met.ExceptWith(missed);
        return met.Count;
    }

    /// <summary>min(3√(u_control² + u_shot²), half the tightest tolerance, ceiling). Accuracy that nobody stated widens nothing.</summary>
    private static double Limit(double? uControl, double uShot, double tolerance, double ceiling)
    {
        var limit = Math.Min(ceiling, ShareOfTolerance * tolerance);
        return double.IsNaN(uShot) ? limit : Math.Min(limit, Often * double.Hypot(uControl ?? 0, uShot));
    }

    /// <summary>The tightest tolerance of the codes shot in each session, plan and height; infinite where there is none.</summary>
    private static (double Plan, double Height)[] Tightest(Site site)
    {
        var codes = site.Shots.Book.Entries.Length;
        var ofCode = new (double Plan, double Height)[codes];
        for (var place = 0; place < codes; place++)
        {
            var entry = site.Shots.Book.Entries[place];
            ofCode[place] = (Above0(entry.TolerancePlan), Math.Min(Above0(entry.ToleranceHeight), Math.Min(Above0(entry.ToleranceHigh), Above0(entry.ToleranceLow))));
        }

        var sessions = new (double Plan, double Height)[site.Shots.SessionCount];
        sessions.AsSpan().Fill((double.PositiveInfinity, double.PositiveInfinity));
        foreach (var row in site.ShotRows)
        {
            if (site.Shots.PlaceColumn[row] < 0) continue;
            ref var session = ref sessions[site.Shots.SessionColumn[row]];
            var (plan, height) = ofCode[site.Shots.PlaceColumn[row]];
            session = (Math.Min(session.Plan, plan), Math.Min(session.Height, height));
        }

        return sessions;

        static double Above0(double? tolerance) => tolerance > 0 ? tolerance.Value : double.PositiveInfinity; // one-sided tolerances have a 0
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
        var height = double.IsNaN(finding.Figure(2)) ? "" : $", H {Signed(finding.Figure(2))}";
        var text = $"Check shot {finding.Shot(0)} misses {Point(finding)} by {CheckText.Metres(finding.Measured)} in {(finding.Figure(3) > 0 ? "height" : "plan")}"
            + $" (E {Signed(finding.Figure(0))}, N {Signed(finding.Figure(1))}{height} m), limit {CheckText.Metres(finding.Allowed)}.";
        if (finding.Severity == Severity.Look) text += $" {CheckText.Number(finding.Figure(5), "0")} other points agree with the session: {Point(finding)} itself may have moved.";
        return finding.Figure(4) < 0 ? text : text + $" It lies on {finding.Word!.Split(Separator)[1]}: that may be the point occupied.";
    }

    private static string Point(Finding finding) => finding.Word!.Split(Separator)[0];

    private static string Signed(double metres) => CheckText.Number(metres, "+0.000;-0.000;0.000");

    public string Cure(Finding finding) => finding.Figure(4) < 0
        ? finding.Severity == Severity.Look
            ? $"Leave {Point(finding)} unused until it is measured from two points that agree."
            : $"Check {Point(finding)} from another control point; shift nothing before the cause is known, and shoot the session's points again if it is the set-up."
        : "Say in its note which point was occupied, and shoot the right one.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Look ? Reshoot.Any : Reshoot.Open;
}
