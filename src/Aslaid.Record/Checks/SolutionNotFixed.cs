using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots that a receiver stored without a fixed solution.</summary>
internal sealed class SolutionNotFixed : ICheck
{
    private const string Column = "fix";

    private enum Fix : byte
    {
        NotAsked,
        Fixed,
        NotFixed,
    }

    public string Name => "solution-not-fixed";

    public string Title => "Shots without a fixed solution";

    public string Unit => "";

    public bool DoubtsItsShots => true;

    public ImmutableArray<string> Explains => ["accuracy-over-limit", "method-unfit"];

    public void Look(Site site, Findings found)
    {
        if (!site.Shots.Raw.TextColumns.TryGetValue(Column, out var column)) return;
        var words = new Fix[site.Shots.Raw.Texts.Count];
        var (shots, said) = (site.Shots, new HashSet<int>());
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            for (var member = 0; member < run.MemberCount; member++)
            {
                if (!NotFixed(run.Members[member])) continue;
                var first = member;
                var another = said.Add(run.Members[member]);
                while (member + 1 < run.MemberCount && NotFixed(run.Members[member + 1])) another |= said.Add(run.Members[++member]);
                if (!another) continue; // all of them reported in an earlier run
                var (from, to) = RunRange.About(run, first, member);
                var shot = run.Members[first];
                found.Add(Severity.Stop, run.Members[first..(member + 1)], shots.At(shot), shots.HeightOf(shot), number, from, to,
                    word: shots.Raw.Texts[column[shot]]);
            }
        }

        foreach (var row in site.ShotRows)
        {
            if (NotFixed(row) && !said.Contains(row))
                found.Add(Severity.Stop, [row], shots.At(row), shots.HeightOf(row), word: shots.Raw.Texts[column[row]]);
        }

        bool NotFixed(int row)
        {
            var word = column[row];
            if (word == Words.None) return false; // no solution is asked of a total station
            if (words[word] == Fix.NotAsked) words[word] = IsFixed(shots.Raw.Texts[word]!) ? Fix.Fixed : Fix.NotFixed;
            return words[word] == Fix.NotFixed;
        }
    }

    /// <summary>What receivers write for a fixed solution (4 is the quality word of a fixed real-time solution in NMEA 0183 GGA); blank says nothing.</summary>
    public static bool IsFixed(string word) => word.Trim().ToUpperInvariant() is "" or "FIXED" or "FIX" or "RTK-FIXED" or "RTK FIXED" or "4";

    public string Message(Finding finding) =>
        $"Solution {finding.Word}, not fixed ({CheckText.Shots(finding)}){(finding.Run is null ? "" : $" on {finding.RunLabel()} {CheckText.Along(finding)}")}.";

    public string Cure(Finding finding) => "Shoot again with a fixed solution, or with a total station.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
