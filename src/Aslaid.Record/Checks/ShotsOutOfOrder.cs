using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots of a later visit that were joined at the end of their run and belong elsewhere in it, or measure it again.</summary>
internal sealed class ShotsOutOfOrder : ICheck
{
    public string Name => "shots-out-of-order";

    public string Title => "Shots of a later visit out of order";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["two-shots-one-place", "nearly-closed", "off-design", "design-bend-missed", "design-curve-cut", "too-close", "cover-too-small"];

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            if (site.LateStretches.Of(number) is not { } stretch) continue;
            var run = site.Runs[number];
            var shot = run.Members[stretch.First];
            var lengthens = stretch.Added + run.PlanLength - run.Chainages[stretch.First];
            found.Add(Severity.Stop, run.Members[stretch.First..], site.Shots.At(shot), site.Shots.HeightOf(shot), number, run.Chainages[stretch.First - 1],
                run.PlanLength, stretch.Repeat?.Length ?? stretch.Leg, stretch.Repeat?.Limit ?? lengthens,
                figures: [stretch.First, stretch.After, stretch.Reversed ? 1 : 0, stretch.Repeat?.Farthest ?? 0]);
        }
    }

    public string Message(Finding finding) => IsRepeat(finding)
        ? $"{CheckText.Shots(finding)}, within {CheckText.Metres(finding.Figure(3))} of its path (limit {CheckText.Metres(finding.Allowed)}), "
            + $"measure {CheckText.Number(finding.Measured, "0.0")} m of {finding.RunLabel()} again: its length counts twice."
        : $"{CheckText.Shots(finding)} lie {CheckText.Metres(finding.Measured)} back from the end of {finding.RunLabel()}; {Place(finding)} they lengthen it by {CheckText.Metres(finding.Allowed)} only.";

    public string Cure(Finding finding) => IsRepeat(finding)
        ? "Say that they check it: they stay on file as proof of the earlier ones. If it was laid anew, say that they supersede or replace it; if they are another line beside it, give them its own label."
        : $"Put them {Place(finding)} if they were shot to fill it.";

    private static bool IsRepeat(Finding finding) => (int)finding.Figure(1) == LateStretch.Nowhere;

    private static string Place(Finding finding)
    {
        var (run, after) = (finding.Run!.Value, (int)finding.Figure(1));
        return after < 0 ? $"before {Id(0)}" : $"between {Id(after)} and {Id(after + 1)}";

        string Id(int member) => finding.Raw().Id(run.Members[member]);
    }

    public Change? Correction(Finding finding)
    {
        if (IsRepeat(finding)) return finding.Run!.Value.Table is var runs && runs.Shots.BatchOf(finding.Shots[0]) is > 0 and var batch ? new LabelDecided(runs.KeyOfLabel(finding.Run.Value.Number), batch, LabelAgain.Checks) : null;
        var run = finding.Run!.Value;
        var (first, after, reversed) = ((int)finding.Figure(0), (int)finding.Figure(1), finding.Figure(2) > 0);
        var order = Enumerable.Range(0, first).ToList();
        var stretch = Enumerable.Range(first, run.MemberCount - first);
        order.InsertRange(after + 1, reversed ? stretch.Reverse() : stretch);
        var steps = ImmutableArray.CreateBuilder<PathStep>(order.Count);
        foreach (var member in order) steps.Add(new(finding.Raw().Key(run.Members[member]), run.Through[member]));
        return new PathSet(run.Key, null, steps.MoveToImmutable());
    }

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
