namespace Aslaid.Record;

/// <summary>The least cover of each buried run, against <c>cover_min_m</c>.</summary>
internal sealed class CoverOfRun : IRequirement
{
    public string Name => "cover";

    public string Title => "Cover to the finished surface";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into)
    {
        if (site.Design.Surfaces.IsEmpty) return;
        var covers = new CoverAlong(site);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry?.CoverMin is not { } least || run.PieceCount == 0) continue;
            CoverPoint? lowest = null;
            foreach (var point in covers.Of(run))
                if (point.Cover is { } cover && (lowest is null || cover < lowest.Value.Cover)) lowest = point;
            if (lowest is { } there)
                into.Add(new(this, run.Code, run, run.Members[run.MemberAt(there.Chainage)], there.Chainage, there.Chainage, Judgement.OfTolerance(there.Cover, covers.U(run, there), Limits.AtLeast(least), site.Settings.GuardBand)));
        }
    }
}
