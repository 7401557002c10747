namespace Aslaid.Record;

/// <summary>How high runs and points lie, against the design: of each run its worst shot, of each point its own. Departure from the design, not accuracy of the data.</summary>
internal sealed class HeightFromDesign : IRequirement
{
    public string Name => "design-height";

    public string Title => "Height against the design";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into) => WorstDeviation.Judge(this, site, into, deviation => deviation.Level);
}
