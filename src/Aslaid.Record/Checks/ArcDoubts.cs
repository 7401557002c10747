using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What both checks of doubtful arcs share. Figures: kind, first and last member.</summary>
internal static class ArcDoubts
{
    private const double ProofFactor = 3;

    public static void Look(Site site, Findings found, Func<ArcDoubtKind, bool> wanted, Severity severity)
    {
        foreach (var doubt in site.Runs.Doubts)
        {
            if (!wanted(doubt.Kind)) continue;
            var run = site.Runs[doubt.Run];
            var (first, last) = (doubt.FirstMember - run.FirstMember, doubt.LastMember - run.FirstMember);
            var shot = run.Members[Math.Min(first + 1, last)];
            double? measured = doubt.Kind == ArcDoubtKind.NotProven ? doubt.Ordinate : null;
            double? allowed = doubt.Kind == ArcDoubtKind.NotProven ? ProofFactor * doubt.UOrdinate : null;
            found.Add(severity, run.Members[first..(last + 1)], site.Shots.At(shot), site.Shots.HeightOf(shot), doubt.Run,
                run.Chainages[first], run.Chainages[last], measured, allowed, figures: [(int)doubt.Kind, first, last]);
        }
    }

    /// <summary>The run through the same shots, straight where the doubtful arc is.</summary>
    public static PathSet Straightened(Finding finding)
    {
        var (run, first, last) = (finding.Run!.Value, (int)finding.Figure(1), (int)finding.Figure(2));
        var steps = ImmutableArray.CreateBuilder<PathStep>(run.MemberCount);
        for (var member = 0; member < run.MemberCount; member++)
            steps.Add(new(run.Table.Shots.Raw.Key(run.Members[member]), run.Through[member] && (member < first || member > last)));
        return new(run.Key, null, steps.MoveToImmutable());
    }
}
