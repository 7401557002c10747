namespace Aslaid.Record;

/// <summary>The radius of each arc, against <c>radius_min_m</c> and <c>radius_max_m</c>.</summary>
internal sealed class RadiusInRange : IRequirement
{
    public string Name => "radius";

    public string Title => "Radius of an arc";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into)
    {
        foreach (var piece in ArcPosition.Arcs(site.Runs))
        {
            var run = piece.Run;
            if (run.Entry is not { } entry || LimitsOf(entry) is not { IsNone: false } limits) continue;
            into.Add(new(this, run.Code, run, run.Members[piece.First + 1], run.Chainages[piece.First], run.Chainages[piece.Last],
                Judgement.OfRadius(piece.Arc.Radius, piece.URadius, limits, site.Settings.GuardBand)));
        }
    }

    /// <summary>What a code asks of a radius, metres.</summary>
    public static Limits LimitsOf(CodeEntry entry) => new(entry.RadiusMin, entry.RadiusMax);
}
