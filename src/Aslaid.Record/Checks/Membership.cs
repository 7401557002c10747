namespace Aslaid.Record;

/// <summary>Which runs each shot is a member of.</summary>
internal sealed class Membership
{
    private readonly int[] first;
    private readonly int[] last;

    public Membership(RunTable runs)
    {
        first = new int[runs.Shots.Count];
        last = new int[runs.Shots.Count];
        first.AsSpan().Fill(-1);
        last.AsSpan().Fill(-1);
        for (var run = 0; run < runs.Count; run++)
        {
            foreach (var shot in runs[run].Members)
            {
                if (first[shot] < 0) first[shot] = run;
                last[shot] = run;
            }
        }
    }

    /// <summary>The first run of each shot, by row; −1 for none.</summary>
    public ReadOnlySpan<int> Run => first;

    /// <summary>Whether more than one run goes through a shot.</summary>
    public bool IsShared(int shot) => first[shot] != last[shot];
}
