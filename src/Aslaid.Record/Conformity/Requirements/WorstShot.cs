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
            var member = Worst(run, row => Judgement.OfAccuracy(Known(u95(site, row)), limit, stated(site, row)));
            var (shot, at) = (run.Members[member], run.Chainages[member]);
            into.Add(new(requirement, run.Code, run, shot, at, at, Judgement.OfAccuracy(Known(u95(site, shot)), limit, stated(site, shot))));
        }

        foreach (var row in site.Points)
        {
            if (site.Shots.Entry(row) is { } entry && most(entry) is { } limit)
                into.Add(new(requirement, entry.Code, null, row, null, null, Judgement.OfAccuracy(Known(u95(site, row)), limit, stated(site, row))));
        }
    }

    /// <summary>The member with the gravest verdict: over the limit, else not proven, else the most uncertain; the first of equals.</summary>
    private static int Worst(Run run, Func<int, Judgement> judge)
    {
        var (worst, gravest) = (0, (Grade: -1, U: double.NegativeInfinity));
        for (var member = 0; member < run.MemberCount; member++)
        {
            var judged = judge(run.Members[member]);
            var here = (Grade: judged.Verdict switch { Verdict.DoesNotConform => 2, Verdict.NotProven => 1, _ => 0 }, U: judged.Value ?? double.PositiveInfinity);
            if (here.CompareTo(gravest) > 0) (worst, gravest) = (member, here);
        }

        return worst;
    }

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}
