namespace Aslaid.Record;

/// <summary>Shots of a length that were measured after somebody said that it can no longer be seen.</summary>
internal sealed class ShotAfterCovering : ICheck
{
    /// <summary>A time without a zone may be ahead of UTC by this much.</summary>
    private static readonly long FarthestZone = TimeSpan.FromHours(14).Ticks;

    /// <summary>A shot this near to the end of a covered length may stand where work goes on, metres (DEFAULT).</summary>
    private const double NearEnd = 0.05;

    public string Name => "shot-after-covering";

    public string Title => "Shots measured after covering";

    public string Unit => "h";

    public void Look(Site site, Findings found)
    {
        var coverings = site.Coverings;
        for (var at = 0; at < coverings.Length;)
        {
            var first = at;
            while (at < coverings.Length && coverings[at].Run == coverings[first].Run) at++;
            LookAlong(site, site.Runs[coverings[first].Run], coverings.AsSpan(first, at - first), found);
        }
    }

    /// <summary>The coverings of a run, earliest first: each member is judged by the earliest that reaches over it.</summary>
    private static void LookAlong(Site site, Run run, ReadOnlySpan<Covering> coverings, Findings found)
    {
        var covered = new int[run.MemberCount];
        covered.AsSpan().Fill(-1);
        var next = new NextFree(run.MemberCount);
        for (var i = 0; i < coverings.Length; i++)
        {
            var (from, to) = (coverings[i].From + NearEnd, coverings[i].To - NearEnd);
            for (var member = next.From(FirstAt(run, from)); member < run.MemberCount && run.Chainages[member] <= to; member = next.From(member)) // a member once only
            {
                covered[member] = i;
                next.Take(member);
            }
        }

        for (var member = 0; member < run.MemberCount; member++)
        {
            if (Late(member, coverings) is not { } worst) continue;
            var (first, at) = (member, member);
            while (member + 1 < run.MemberCount && Late(member + 1, coverings) is { } late)
            {
                member++;
                if (late > worst) (worst, at) = (late, member);
            }

            found.Add(site, new(run.Number, first, member, [.. run.Members[first..(member + 1)]]), Severity.Look, run.Members[at],
                new TimeSpan(worst).TotalHours, 0, figures: [coverings[covered[at]].Position]);
        }

        long? Late(int member, ReadOnlySpan<Covering> of) => covered[member] < 0 ? null : TicksAfter(site.Shots.Raw, run.Members[member], of[covered[member]]);
    }

    /// <summary>By how much a shot was surely measured later than a covering was told; null where it was not.</summary>
    private static long? TicksAfter(ShotTable raw, int row, Covering covering)
    {
        if (raw.Time[row] == long.MinValue || raw.Text("seen", row) is "detected" or "records" or "bore log") return null;
        var late = raw.Time[row] - covering.Ticks - (raw.Zone[row] == short.MinValue ? FarthestZone : 0);
        return late > 0 ? late : null;
    }

    private static int FirstAt(Run run, double chainage)
    {
        var member = run.MemberAt(chainage);
        while (member < run.MemberCount && run.Chainages[member] < chainage) member++;
        while (member > 0 && run.Chainages[member - 1] >= chainage) member--;
        return member;
    }

    /// <summary>The first member at or after a place that nobody has taken yet.</summary>
    private readonly struct NextFree(int count)
    {
        private readonly int[] next = [.. Enumerable.Range(0, count + 1)];

        public void Take(int member) => next[member] = member + 1;

        public int From(int member)
        {
            var at = member;
            while (next[at] != at) at = next[at];
            while (next[member] != member) (next[member], member) = (at, next[member]); // the next way is shorter
            return at;
        }
    }

    public string Message(Finding finding) =>
        $"Measured {CheckText.Number(finding.Measured, "0.0")} h after the length was said to be covered (journal {CheckText.Number(finding.Figure(0), "0")}): "
        + $"what was measured then is not what was seen ({ShotStretches.Where(finding)}).";

    public string Cure(Finding finding) => "Say in the column seen how it was found, set the shots aside, or withdraw the entry if the length was open.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.TooLate;
}
