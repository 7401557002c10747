namespace Aslaid.Record;

/// <summary>Judges location accuracy: of each run by its worst shot, of each point by its own.</summary>
internal static class WorstShot
{
    /// <param name="u95">95 % uncertainty of a row, metres; NaN where not known.</param>
    /// <param name="stated">The same were the stated accuracy proven by check shots.</param>
    /// <param name="most">The largest that a code allows, metres.</param>
    public static void Judge(
        IRequirement requirement, Site site, ICollection<Judged> into, Func<Site, int, double> u95, Func<Site, int, double> stated, Func<CodeEntry, double?> most)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { } entry || most(entry) is not { } limit) continue;
            var member = Worst(run, limit, row => u95(site, row));
            var (shot, at) = (run.Members[member], run.Chainages[member]);
            into.Add(new(requirement, run.Code, run, shot, at, at, Judgement.OfAccuracy(Known(u95(site, shot)), limit, stated(site, shot))));
        }

        foreach (var row in site.Points)
        {
            if (site.Shots.Entry(row) is { } entry && most(entry) is { } limit)
                into.Add(new(requirement, entry.Code, null, row, null, null, Judgement.OfAccuracy(Known(u95(site, row)), limit, stated(site, row))));
        }
    }

    /// <summary>The most uncertain member; where that one is good enough, the first of unknown accuracy prevails.</summary>
    private static int Worst(Run run, double limit, Func<int, double> u95)
    {
        var (worst, most, unknown) = (0, double.NegativeInfinity, -1);
        for (var member = 0; member < run.MemberCount; member++)
        {
            var own = u95(run.Members[member]);
            if (double.IsNaN(own) && unknown < 0) unknown = member;
            if (own > most) (worst, most) = (member, own);
        }

        return unknown >= 0 && Limits.AtMost(limit).Hold(most) ? unknown : worst;
    }

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}
