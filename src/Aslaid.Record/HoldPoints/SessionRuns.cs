namespace Aslaid.Record;

/// <summary>Which runs have members shot in each session.</summary>
internal sealed class SessionRuns
{
    private readonly List<int>?[] runsOf;

    public SessionRuns(RunTable runs)
    {
        runsOf = new List<int>?[runs.Shots.SessionCount];
        for (var run = 0; run < runs.Count; run++)
        {
            foreach (var shot in runs[run].Members)
            {
                var of = runsOf[runs.Shots.Session[shot]] ??= [];
                if (of.Count == 0 || of[^1] != run) of.Add(run);
            }
        }
    }

    /// <summary>Numbers of the runs of a session, rising.</summary>
    public IReadOnlyList<int> Of(int session) => runsOf[session] ?? [];
}
