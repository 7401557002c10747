namespace Aslaid.Record;

/// <summary>A label that two crews use of one code where their runs meet: most likely one run that two shot.</summary>
internal sealed class LabelOfTwoCrews : ICheck
{
    /// <summary>Ends this near may be one run where the code states neither spacing nor reach, metres (DEFAULT).</summary>
    private const double UsualReach = 10;

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
        var (best, a, b) = (double.PositiveInfinity, -1, -1);
        foreach (var mine in (int[])[first.Members[0], first.Members[^1]])
        {
            foreach (var theirs in (int[])[second.Members[0], second.Members[^1]])
            {
                var gap = site.Shots.At(mine).DistanceTo(site.Shots.At(theirs));
                if (gap < best) (best, a, b) = (gap, mine, theirs);
            }
        }

        var reach = Math.Max(first.Entry?.SpacingMax ?? UsualReach, first.Entry?.EndReach ?? 0);
        if (a == b || best > reach) return;
        found.Add(Severity.Look, [b, a], site.Shots.At(b), site.Shots.HeightOf(b), second.Number, measured: best, allowed: reach, word: first.Key);
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} is a label of crew {Crew(finding, 0)} and of crew {Crew(finding, 1)}, both {finding.Run!.Value.Code}: they end {CheckText.Metres(finding.Measured)} apart, at {finding.Shot(0)} and {finding.Shot(1)}.";

    private static string Crew(Finding finding, int shot) => finding.Raw().Crew(finding.Shots[shot]) ?? "not named";

    public string Cure(Finding finding) => "Join them where they are one run; accept it where they are two.";

    public Change? Correction(Finding finding) => new RunJoined(finding.Run!.Value.Key, finding.Word!);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
