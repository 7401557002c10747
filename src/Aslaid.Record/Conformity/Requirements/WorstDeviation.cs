namespace Aslaid.Record;

/// <summary>Judges deviations: of each run by its worst shot, of each point by its own.</summary>
internal static class WorstDeviation
{
    public static void Judge(IRequirement requirement, Site site, ICollection<Judged> into, Func<Deviation, Judgement?> judgement)
    {
        if (site.Design.IsEmpty) return;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            (Judgement Judged, int Member)? worst = null;
            for (var member = 0; member < run.MemberCount; member++)
            {
                if (Deviations.Of(site, run, member) is not { } deviation || judgement(deviation) is not { } judged) continue;
                if (worst is null || (Grade(judged), -judged.Limits.Room(judged.Value!.Value)).CompareTo((Grade(worst.Value.Judged), -worst.Value.Judged.Limits.Room(worst.Value.Judged.Value!.Value))) > 0) worst = (judged, member);
            }

            if (worst is { } found) into.Add(new(requirement, run.Code, run, run.Members[found.Member], run.Chainages[found.Member], run.Chainages[found.Member], found.Judged));
        }

        foreach (var row in site.Points)
            if (Deviations.OfPoint(site, row) is { } deviation && judgement(deviation) is { } judged) into.Add(new(requirement, deviation.Code, null, row, null, null, judged));
    }

    private static int Grade(Judgement judged) => judged.Verdict switch { Verdict.DoesNotConform => 3, Verdict.NotProven => 2, Verdict.MethodUnfit => 1, _ => 0 };
}
