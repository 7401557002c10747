namespace Aslaid.Record;

/// <summary>Which runs each shot is a member of, and where.</summary>
internal sealed class Membership
{
    private readonly int[] first;
    private readonly int[] member;
    private readonly int[] last;

    public Membership(RunTable runs)
    {
        first = new int[runs.Shots.Count];
        member = new int[runs.Shots.Count];
        last = new int[runs.Shots.Count];
        first.AsSpan().Fill(-1);
        member.AsSpan().Fill(-1);
        last.AsSpan().Fill(-1);
        for (var run = 0; run < runs.Count; run++)
        {
            var members = runs[run].Members;
            for (var i = 0; i < members.Length; i++)
            {
                var shot = members[i];
                if (first[shot] < 0) (first[shot], member[shot]) = (run, i);
                last[shot] = run;
            }
        }
    }

    /// <summary>The first run of each shot, by row; −1 for none.</summary>
    public ReadOnlySpan<int> Run => first;

    /// <summary>Where each shot first stands among the members of its first run; −1 for none.</summary>
    public ReadOnlySpan<int> Member => member;

    /// <summary>Whether more than one run goes through a shot.</summary>
    public bool IsShared(int shot) => first[shot] != last[shot];
}
