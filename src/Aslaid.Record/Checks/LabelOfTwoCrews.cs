using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A label that two crews use of one code where their runs meet: most likely one run that two shot.</summary>
internal sealed class LabelOfTwoCrews : ICheck
{
    /// <summary>Ends this near may be one run where the code states neither spacing nor reach, metres (DEFAULT).</summary>
    private const double UsualReach = 10;

    /// <summary>Ends this near meet, whichever way their runs head, metres (DEFAULT).</summary>
    private const double Touching = 0.3;

    /// <summary>Farther apart, each end must lie within 45° of the other's way (DEFAULT): runs that begin side by side are two.</summary>
    private const double Ahead = 0.7071;

    public string Name => "label-of-two-crews";

    public string Title => "One label, two crews";

    public string Unit => "m";

    public System.Collections.Immutable.ImmutableArray<string> Explains => ["end-short", "single-shot-run"];

    public void Look(Site site, Findings found)
    {
        var runs = new Dictionary<(int Code, string Label), List<int>>();
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.IsClosed || run.Key.Length == run.Code.Length + 1 + run.Label.Length) continue; // no crew is named
            var of = (site.Runs.CodeWords[number], run.Label);
            if (!runs.TryGetValue(of, out var same)) runs.Add(of, same = []);
            foreach (var other in same) Compare(site, found, site.Runs[other], run);
            same.Add(number);
        }
    }

    private static void Compare(Site site, Findings found, Run first, Run second)
    {
        var reach = Math.Max(first.Entry?.SpacingMax ?? UsualReach, first.Entry?.EndReach ?? 0);
        var (best, a, b) = (double.PositiveInfinity, -1, -1);
        foreach (var mine in (RunEnd[])[RunEnd.Start, RunEnd.End])
        {
            foreach (var theirs in (RunEnd[])[RunEnd.Start, RunEnd.End])
            {
                var (x, y) = (EndShot(first, mine), EndShot(second, theirs));
                var gap = site.Shots.At(y) - site.Shots.At(x);
                if (x == y) return; // they share it
                if (gap.Size > reach || gap.Size >= best) continue;
                if (gap.Size > Touching && !(IsAhead(first, mine, gap) && IsAhead(second, theirs, -1 * gap))) continue;
                (best, a, b) = (gap.Size, x, y);
            }
        }

        if (a >= 0) found.Add(Severity.Look, [b, a], site.Shots.At(b), site.Shots.HeightOf(b), second.Number, measured: best, allowed: reach, word: first.Key);
    }

    private static int EndShot(Run run, RunEnd end) => end == RunEnd.Start ? run.Members[0] : run.Members[^1];

    /// <summary>Whether a step from an end goes on as the run does; a run of one shot goes anywhere.</summary>
    private static bool IsAhead(Run run, RunEnd end, Step gap)
    {
        if (run.MemberCount < 2) return true;
        var (at, before) = end == RunEnd.Start ? (run.Members[0], run.Members[1]) : (run.Members[^1], run.Members[^2]);
        var way = run.Table.Shots.At(at) - run.Table.Shots.At(before);
        return way.Dot(gap) >= Ahead * way.Size * gap.Size;
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} is a label of crew {Crew(finding, 0)} and of crew {Crew(finding, 1)}, both {finding.Run!.Value.Code}: they end {CheckText.Metres(finding.Measured)} apart, at {finding.Shot(0)} and {finding.Shot(1)}.";

    private static string Crew(Finding finding, int shot) => finding.Raw().Crew(finding.Shots[shot]) ?? "not named";

    public string Cure(Finding finding) => "Join them where they are one run; accept it where they are two.";

    public Change? Correction(Finding finding) => new RunJoined(finding.Run!.Value.Key, finding.Word!);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
