namespace Aslaid.Record;

/// <summary>A check shot's misfit against its limits, metres.</summary>
/// <param name="PlanLimit">Over it the shot is missed.</param>
/// <param name="PlanDoubt">Over it, that is no chance any more: the same without the tolerance measured in the session.</param>
/// <param name="PlanSure">Over it, neither shot, mark nor session may be so far off: with what a session has in common by the settings.</param>
internal readonly record struct Misfit(
    double Plan, double PlanLimit, double PlanDoubt, double PlanSure, double Height, double HeightLimit, double HeightDoubt, double HeightSure)
{
    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    public bool MissedInPlan => Plan > PlanLimit + Same;

    public bool MissedInHeight => Height > HeightLimit + Same;

    public bool Missed => MissedInPlan || MissedInHeight;

    /// <summary>Whether it is missed by more than shot and mark are uncertain by, or over a ceiling of the settings.</summary>
    public bool IsBeyondChance => Plan > PlanDoubt + Same || Height > HeightDoubt + Same;

    /// <summary>Whether not even what sessions have in common explains it.</summary>
    public bool IsBeyondDoubt => Plan > PlanSure + Same || Height > HeightSure + Same;

    /// <summary>Whether plan is farther over its limit than height.</summary>
    public bool LeadsInPlan => Plan / PlanLimit >= Height / HeightLimit;
}
