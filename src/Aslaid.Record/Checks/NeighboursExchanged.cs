using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Two neighbours that make their run go back and forth: stored in the wrong order.</summary>
internal sealed class NeighboursExchanged : ICheck
{
    /// <summary>Both turns are sharper than 150° (DEFAULT): cos 150°.</summary>
    private const double Back = -0.866;

    /// <summary>The other order must shorten the run by this many times the distance between the two (DEFAULT); evenly spaced shots on a straight gain twice.</summary>
    private const double Gain = 1.5;

    public string Name => "neighbours-exchanged";

    public string Title => "Two neighbours in the wrong order";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["shots-too-far-apart", "curve-by-chords", "tangent-break", "level-jump", "fall-wrong", "off-design", "design-bend-missed", "design-curve-cut", "too-close", "cover-too-small"];

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            for (var second = 2; second + 1 < run.MemberCount; second++)
            {
                if (Shortened(site, run, second) is not { } shortened || IsOther(site, run, second - 1) || IsOther(site, run, second)) continue;
                ReadOnlySpan<int> pair = run.Members[(second - 1)..(second + 1)];
                found.Add(Severity.Look, pair, site.Shots.At(pair[0]), site.Shots.HeightOf(pair[0]), number, run.Chainages[second - 2], run.Chainages[second + 1],
                    shortened.Gained, shortened.Limit, figures: [second]);
                second++;
            }
        }
    }

    /// <summary>Whether a member is one of two that stand in the wrong order: its turn is no bend.</summary>
    public static bool Has(Site site, Run run, int member) => Shortened(site, run, member) is not null || Shortened(site, run, member + 1) is not null;

    /// <summary>Metres that the other order saves, and how much it must; null where the run does not turn back at both.</summary>
    /// <param name="second">Member of the run: the later one of the two.</param>
    private static (double Gained, double Limit)? Shortened(Site site, Run run, int second)
    {
        if (second < 2 || second + 1 >= run.MemberCount || run.Through[(second - 2)..(second + 2)].Contains(true)) return null;
        var (a, b, c, d) = (At(second - 2), At(second - 1), At(second), At(second + 1));
        Step into = b - a, back = c - b, on = d - c;
        var between = back.Size;
        if (into.Dot(back) >= Back * into.Size * between || back.Dot(on) >= Back * between * on.Size) return null;
        var gained = into.Size + on.Size - (c - a).Size - (d - b).Size;
        return gained > Gain * between ? (gained, Gain * between) : null;

        Point2 At(int member) => site.Shots.At(run.Members[member]);
    }

    /// <summary>Whether the shot is part of another mistake, or belongs to another thing too.</summary>
    private static bool IsOther(Site site, Run run, int member)
    {
        var shot = run.Members[member];
        return site.Shots.CodeColumn[shot] != run.Table.CodeWords[run.Number] || site.Membership.IsShared(shot)
            || site.RunBreaks.Touches(run.Number, member) || site.LateStretches.Explains(run.Number, member);
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} goes back and forth {CheckText.Along(finding)}: with {finding.Shot(1)} before {finding.Shot(0)} it is {CheckText.Metres(finding.Measured)} shorter, limit {CheckText.Metres(finding.Allowed)}.";

    public string Cure(Finding finding) => $"Put {finding.Shot(1)} before {finding.Shot(0)} if they were stored in the wrong order.";

    public Change? Correction(Finding finding)
    {
        var (run, second) = (finding.Run!.Value, (int)finding.Figure(0));
        var steps = ImmutableArray.CreateBuilder<PathStep>(run.MemberCount);
        for (var member = 0; member < run.MemberCount; member++)
        {
            var from = member == second - 1 ? second : member == second ? second - 1 : member;
            steps.Add(new(finding.Raw().Key(run.Members[from]), run.Through[from]));
        }

        return new PathSet(run.Key, null, steps.MoveToImmutable());
    }

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
