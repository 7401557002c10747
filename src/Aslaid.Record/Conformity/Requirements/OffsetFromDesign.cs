namespace Aslaid.Record;

/// <summary>Where runs and points lie in plan, against the design: of each run its worst shot, of each point its own. Departure from the design, not accuracy of the data.</summary>
internal sealed class OffsetFromDesign : IRequirement
{
    public string Name => "design-offset";

    public string Title => "Offset from the design";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into) => WorstDeviation.Judge(this, site, into, deviation => deviation.Plan);
}
