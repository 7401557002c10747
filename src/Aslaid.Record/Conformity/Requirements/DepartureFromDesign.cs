namespace Aslaid.Record;

/// <summary>How far each run leaves the design at most, between its shots too, against <c>tol_plan_m</c>.</summary>
internal sealed class DepartureFromDesign : IRequirement
{
    public string Name => "design-departure";

    public string Title => "Largest departure of the built line from the design";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into)
    {
        if (site.Design.Lines.IsEmpty) return;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry?.TolerancePlan is not { } most || Departures.Of(site, run) is not { } found) continue;
            into.Add(new(this, run.Code, run, run.Members[run.MemberAt(found.At.Here)], found.At.Here, found.At.Here, Judgement.OfTolerance(found.At.Distance, found.U, Limits.AtMost(most), site.Settings.GuardBand)));
        }
    }
}
