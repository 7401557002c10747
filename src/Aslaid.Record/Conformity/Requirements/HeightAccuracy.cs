namespace Aslaid.Record;

/// <summary>How well the record says how high a run or point lies, against <c>height_95_max_m</c>.</summary>
internal sealed class HeightAccuracy : IRequirement
{
    public string Name => "height-accuracy";

    public string Title => "Location accuracy in height, 95 %";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into) => WorstShot.Judge(this, site, into, LocationAccuracy.Height95, LocationAccuracy.StatedHeight95, entry => entry.Height95Max);
}
