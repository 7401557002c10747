namespace Aslaid.Record;

/// <summary>Runs that become one, and one that becomes two.</summary>
internal static class RunShaping
{
    /// <summary>
    /// Puts the shots of a run into another, at those two ends that are nearest to each other, and turned about where that needs it;
    /// nothing is left of the run.
    /// </summary>
    public static void Join(RunMembers run, RunMembers into, CurrentShots shots)
    {
        if (run == into || run.Shots.Count == 0) return;
        List<(int Shot, bool Through)> ours = [.. into.Shots.Zip(into.Through)], theirs = [.. run.Shots.Zip(run.Through)];
        if (ours.Count > 0)
        {
            double Gap(int a, int b) => shots.At(a).DistanceTo(shots.At(b));
            var (first, last, from, to) = (ours[0].Shot, ours[^1].Shot, theirs[0].Shot, theirs[^1].Shot);
            double[] gaps = [Gap(last, from), Gap(last, to), Gap(to, first), Gap(from, first)];
            var best = Array.IndexOf(gaps, gaps.Min());
            if (best is 1 or 3) theirs.Reverse();
            if (best >= 2) (ours, theirs) = (theirs, ours);
        }

        into.Replace([.. ours, .. theirs]);
        run.Replace([]);
    }

    /// <summary>Cuts a run at a member, which both parts share; the second part is a new run.</summary>
    public static RunMembers Split(RunMembers run, int at, string key, string label)
    {
        List<(int Shot, bool Through)> all = [.. run.Shots.Zip(run.Through)];
        var rest = new RunMembers { Key = key, Label = label, CodeWord = run.CodeWord, Whole = run.Whole ?? run.Key };
        rest.Replace([(all[at].Shot, false), .. all[(at + 1)..]]);
        run.Replace([.. all[..at], (all[at].Shot, false)]);
        return rest;
    }

    /// <summary>The key of a part: that of the run with another label.</summary>
    public static string KeyOfPart(string key, string label)
    {
        var slash = key.IndexOf('/', StringComparison.Ordinal);
        var crew = key.LastIndexOf('@');
        return crew > slash ? $"{key[..slash]}/{label}{key[crew..]}" : $"{key[..slash]}/{label}";
    }
}
