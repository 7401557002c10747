namespace Aslaid.Record;

/// <summary>Shots of one kind that follow one another: along a run, or among the shots of a session that lie in no run.</summary>
/// <param name="Run">Number of the run; −1 for shots in none.</param>
/// <param name="First">First member of the run, from 0.</param>
/// <param name="Last">Last member of the run.</param>
/// <param name="Rows">Rows of the shots, in order.</param>
internal readonly record struct ShotStretch(int Run, int First, int Last, int[] Rows);

/// <summary>Folds shots that a check marked into stretches, so that one cause over many shots is one finding.</summary>
internal static class ShotStretches
{
    /// <summary>Stretches of the marked rows in run order, then those in no run. A shot that several runs share is told once.</summary>
    public static List<ShotStretch> Of(Site site, ReadOnlySpan<bool> marked)
    {
        var (stretches, told) = (new List<ShotStretch>(), new bool[marked.Length]);
        for (var number = 0; number < site.Runs.Count; number++) AddAlong(site.Runs[number], marked, told, stretches);
        AddLoose(site, marked, told, stretches);
        return stretches;
    }

    /// <summary>Stretches of the marked rows by themselves, whatever runs go through them.</summary>
    public static List<ShotStretch> Loose(Site site, ReadOnlySpan<bool> marked)
    {
        var stretches = new List<ShotStretch>();
        AddLoose(site, marked, new bool[marked.Length], stretches);
        return stretches;
    }

    private static void AddAlong(Run run, ReadOnlySpan<bool> marked, bool[] told, List<ShotStretch> into)
    {
        var members = run.Members;
        for (var member = 0; member < members.Length; member++)
        {
            if (!marked[members[member]]) continue;
            var (first, another) = (member, !told[members[member]]);
            while (member + 1 < members.Length && marked[members[member + 1]]) another |= !told[members[++member]];
            if (!another) continue; // all of them told in an earlier run
            int[] rows = [.. members[first..(member + 1)]];
            foreach (var row in rows) told[row] = true;
            into.Add(new(run.Number, first, member, rows.Length > 1 && rows[0] == rows[^1] ? rows[..^1] : rows)); // a whole ring names its first shot once
        }
    }

    /// <summary>Shots in no run follow one another while the session and the need for proof stay the same.</summary>
    private static void AddLoose(Site site, ReadOnlySpan<bool> marked, bool[] told, List<ShotStretch> into)
    {
        var (rows, before) = (new List<int>(), default((int Session, bool Proof)));
        foreach (var row in site.ShotRows)
        {
            var here = (site.Shots.SessionColumn[row], site.Shots.Entry(row)?.NeedsProof == true);
            var goesOn = marked[row] && !told[row];
            if (rows.Count > 0 && (goesOn ? here != before : site.Membership.Run[row] < 0)) Close();
            if (!goesOn) continue;
            rows.Add(row);
            before = here;
        }

        Close();

        void Close()
        {
            if (rows.Count > 0) into.Add(new(-1, 0, 0, [.. rows]));
            rows.Clear();
        }
    }

    /// <summary>Writes a finding about a stretch.</summary>
    /// <param name="at">The row that matters most.</param>
    public static void Add(
        this Findings found, Site site, in ShotStretch stretch, Severity severity, int at, double? measured, double? allowed,
        string? word = null, ReadOnlySpan<double> figures = default)
    {
        var (shots, run) = (site.Shots, stretch.Run);
        var (from, to) = run < 0 ? ((double?)null, (double?)null) : RunRange.About(site.Runs[run], stretch.First, stretch.Last);
        found.Add(severity, stretch.Rows, shots.At(at), shots.HeightOf(at), run, from, to, measured, allowed, word, figures);
    }

    /// <summary>Whether what the stretch records must be proven: the code of its run, or of the shots in no run.</summary>
    public static bool NeedsProof(Site site, in ShotStretch stretch) =>
        (stretch.Run < 0 ? site.Shots.Entry(stretch.Rows[0]) : site.Runs[stretch.Run].Entry)?.NeedsProof == true;

    /// <summary>As <c>1, 2, 3 on D1 from 0.0 m to 15.0 m</c>: which shots, and where along the run.</summary>
    public static string Where(Finding finding) =>
        $"{CheckText.Shots(finding)}{(finding.Run is null ? "" : $" on {finding.RunLabel()} {CheckText.Along(finding)}")}";
}
