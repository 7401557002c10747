namespace Aslaid.Record;

/// <summary>The fall of each leg in the direction of flow, against <c>fall_min_pct</c>; nothing is measured where the flow is not known.</summary>
internal sealed class FallOfLeg : IRequirement
{
    public string Name => "fall";

    public string Title => "Fall in the direction of flow";

    public string Unit => "%";

    public void Judge(Site site, ICollection<Judged> into)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.IsClosed || run.Entry is not { FallMinPercent: { } least } || FallLegs.Ends(run).First < 0) continue;
            var legs = new FallLegs(site, least / 100, FallLegs.Coverage);
            var sense = legs.Flow(run, out _);
            var from = 0;
            for (var member = 0; member < run.MemberCount; member++)
            {
                if (site.Shots.HeightOf(run.Members[member]) is null) continue;
                if (!legs.IsTooShort(run, from, member) && Measures.Fall(run, from, member) is { } fall)
                {
                    double? value = sense == 0 ? null : 100 * sense * fall.Value;
                    into.Add(new(this, run.Code, run, run.Members[member], run.Chainages[from], run.Chainages[member],
                        Judgement.OfTolerance(value, 100 * fall.U(site.Shots), Limits.AtLeast(least), site.Settings.GuardBand)));
                }

                from = member;
            }
        }
    }
}
