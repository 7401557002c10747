namespace Aslaid.Record;

/// <summary>How well the record says where a run or point lies in plan, against <c>plan_95_max_m</c>.</summary>
internal sealed class PlanAccuracy : IRequirement
{
    public string Name => "plan-accuracy";

    public string Title => "Location accuracy in plan, 95 %";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into) => WorstShot.Judge(this, site, into, LocationAccuracy.Plan95, LocationAccuracy.StatedPlan95, entry => entry.Plan95Max);
}
