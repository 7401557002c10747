using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Runs measured partly while an earlier revision of their line of the design held, which was another.</summary>
internal sealed class RevisionsMixed : ICheck
{
    public string Name => "revisions-mixed";

    public string Title => "Measured under two revisions of the design";

    public string Unit => "";

    public void Look(Site site, Findings found)
    {
        if (site.Design.Files.All(file => file.Holds)) return;
        var changed = Changed(site.Design);
        if (changed.Count == 0) return;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            var (before, after, line) = (new List<int>(), 0, -1);
            for (var member = 0; member < run.MemberCount; member++)
            {
                var row = run.Members[member];
                if (site.Match.LineOf(run, member) is not (>= 0 and var on) || !changed.Contains(on) || site.Shots.Raw.IsConstructed(row)) continue;
                line = on;
                if (site.Intakes.GetValueOrDefault(site.Shots.Raw.BatchOf(row).Number, int.MaxValue) < site.Design.Lines[on].Of.Entry) before.Add(row);
                else after++;
            }

            if (before.Count == 0 || after == 0) continue;
            found.Add(Severity.Look, before.ToArray(), site.Shots.At(before[0]), site.Shots.HeightOf(before[0]), number, 0, run.PlanLength, word: site.Design.Lines[line].Name, figures: [site.Design.Lines[line].Of.Entry, after]);
        }
    }

    /// <summary>Lines that an earlier revision of their file had otherwise, or not at all.</summary>
    private static HashSet<int> Changed(DesignTable design)
    {
        var earlier = design.Files.Where(file => !file.Holds).GroupBy(file => file.What.FileName).ToDictionary(file => file.Key, file => file.Last().File.Lines.ToLookup(line => line.Name, StringComparer.Ordinal), StringComparer.Ordinal);
        return [.. design.Lines.Where(line => earlier.TryGetValue(line.Of.What.FileName, out var lines) && !lines[line.Line.Name].Any(other => Same(other, line.Line))).Select(line => line.Number)];
    }

    private static bool Same(DesignLine a, DesignLine b) =>
        a.Path.Pieces.SequenceEqual(b.Path.Pieces) && a.Path.Vertices.SequenceEqual(b.Path.Vertices)
        && (a.Profile?.Points ?? []).SequenceEqual(b.Profile?.Points ?? []);

    public string Message(Finding finding) =>
        $"{finding.RunLabel()}: {CheckText.Count(finding.Shots.Length, "shot")} ({CheckText.Shots(finding)}) were taken in before the revision of {finding.Word} that holds (journal {CheckText.Number(finding.Figure(0), "0")}), {CheckText.Count(finding.Figure(1), "shot")} after it; all are held against the later one.";

    public string Cure(Finding finding) => "Find out to which revision the earlier part was built; accept it with that reason, or have it measured against the later one.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
