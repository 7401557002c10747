using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots that carry the code of the run before, while the crew had gone on to another thing.</summary>
internal sealed class CodeNotChanged : ICheck
{
    public string Name => "code-not-changed";

    public string Title => "Code left as it was for another thing";

    public string Unit => "m";

    public ImmutableArray<string> Explains =>
        ["fall-wrong", "level-jump", "pole-height-wrong", "bend-not-shot", "curve-by-chords", "tangent-break", "end-short", "nearly-closed", "shots-too-far-apart", "off-design", "design-bend-missed", "design-curve-cut", "on-other-design", "built-without-design", "cover-too-small", "too-close", "crossing-not-measured", "design-not-measured", "design-point-missing"];

    public void Look(Site site, Findings found)
    {
        foreach (var stretch in site.RunBreaks.All)
        {
            if (stretch.Target < 0) continue;
            var run = site.Runs[stretch.Run];
            var shots = run.Members[stretch.First..(stretch.Last + 1)];
            var (from, to) = RunRange.About(run, stretch.First, stretch.Last);
            found.Add(Severity.Stop, shots, site.Shots.At(shots[0]), site.Shots.HeightOf(shots[0]), stretch.Run, from, to,
                stretch.Leg, RunBreaks.LongLeg * stretch.Median, site.Shots.CodeOf(stretch.Target), [stretch.Target, stretch.Median]);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} jumps {CheckText.Metres(finding.Measured)} to {finding.Shot(0)} (usual {CheckText.Metres(finding.Figure(1))}), and {Target(finding)} goes on from there: wrong code on {CheckText.Count(finding.Shots.Length, "shot")} ({CheckText.Shots(finding)}).";

    public string Cure(Finding finding) => $"Recode to {Target(finding)}.";

    public Change? Correction(Finding finding) => new Recoded(finding.Keys(), finding.Word!, Label(finding));

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;

    private static string Target(Finding finding) => Label(finding) is { Length: > 0 } label ? $"{finding.Word} {label}" : finding.Word!;

    private static string Label(Finding finding)
    {
        var shots = finding.Table.RunTable.Shots;
        return shots.Labels[shots.Label[(int)finding.Figure(0)]] ?? "";
    }
}
