namespace Aslaid.Record;

/// <summary>A check shot's misfit against its limits, metres.</summary>
/// <param name="PlanLimit">Over it the shot is missed.</param>
/// <param name="PlanDoubt">Over it, that is no chance any more: the same without the tolerance measured in the session.</param>
internal readonly record struct Misfit(double Plan, double PlanLimit, double PlanDoubt, double Height, double HeightLimit, double HeightDoubt)
{
    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    public bool MissedInPlan => Plan > PlanLimit + Same;

    public bool MissedInHeight => Height > HeightLimit + Same;

    public bool Missed => MissedInPlan || MissedInHeight;

    /// <summary>Whether it is missed by more than shot and point can be uncertain, or than a session ever may be.</summary>
    public bool IsBeyondDoubt => Plan > PlanDoubt + Same || Height > HeightDoubt + Same;

    /// <summary>Whether plan is farther over its limit than height.</summary>
    public bool LeadsInPlan => Plan / PlanLimit >= Height / HeightLimit;
}
