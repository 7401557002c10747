using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A single shot whose height stands off the line between its neighbours, while these go on evenly without it.</summary>
internal sealed class LevelJump : ICheck
{
    /// <summary>Without the shot its neighbours lie evenly within this share of the jump; after a step or on a summit they are off by two thirds or more (DEFAULT).</summary>
    private const double Evenly = 1.0 / 3;

    private const double Coverage = 2;

    /// <summary>A leg steeper than this is no slope any more: nothing is laid so but down a wall (DEFAULT); twice as steep it is beyond doubt.</summary>
    private const double Steep = 0.5;

    /// <summary>Shorter legs may go down a wall or up a pole, metres (DEFAULT).</summary>
    private const double ShortLeg = 1.5;

    public string Name => "level-jump";

    public string Title => "A shot whose height jumps";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["fall-wrong", "off-design", "cover-too-small", "too-close"];

    public void Look(Site site, Findings found)
    {
        var often = AlarmBudget.Sigmas(site.Runs.Shots.Count);
        var crossings = new RunCrossings(site);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { } entry || Tolerance(entry) is not { } tolerance) continue;
            LookForCliffs(site, run, entry, found);
            if (run.MemberCount < 3) continue;
            var profile = new Profile(site, run, entry.SpacingMax ?? RunBreaks.UsualSpacing);
            for (var member = 1; member + 1 < run.MemberCount; member++)
            {
                var jump = profile.Off(member, member - 1, member + 1);
                if (!(Math.Abs(jump) > tolerance)) continue;
                var u = profile.UOff(member, member - 1, member + 1);
                if (Math.Abs(jump) <= often * u || !profile.StandsAlone(member, jump, entry.FallMinPercent.HasValue) || IsOther(site, run, member)) continue;
                if (crossings.At(run, member)) continue; // it dips under another service or passes over it
                var known = !double.IsNaN(u);
                var shot = run.Members[member];
                var (from, to) = RunRange.About(run, member, member);
                found.Add(known && entry is { NeedsProof: true, FallMinPercent: not null } ? Severity.Stop : Severity.Look, [shot], site.Shots.At(shot), site.Shots.HeightOf(shot),
                    number, from, to, Math.Abs(jump), Math.Max(tolerance, known ? often * u : 0), figures: [jump, u]);
            }
        }
    }

    /// <summary>Legs that fall or rise as no slope does: a whole stretch may be off by metres, which no neighbour shows.</summary>
    private static void LookForCliffs(Site site, Run run, CodeEntry entry, Findings found)
    {
        var members = run.Members;
        var along = run.Chainages;
        var heights = site.Shots.Heights;
        for (var member = 1; member < members.Length; member++)
        {
            var (length, step) = (along[member] - along[member - 1], heights[members[member]] - heights[members[member - 1]]);
            if (!(length >= ShortLeg && Math.Abs(step) > Steep * length) || IsOther(site, run, member) && IsOther(site, run, member - 1)) continue;
            if (member + 1 < members.Length && Math.Abs(heights[members[member + 1]] - heights[members[member]] + step) < Math.Abs(step) / 2) continue; // it comes back: a single shot
            if (member > 1 && Math.Abs(heights[members[member - 1]] - heights[members[member - 2]] + step) < Math.Abs(step) / 2) continue;
            found.Add(entry.NeedsProof && Math.Abs(step) > 2 * Steep * length ? Severity.Stop : Severity.Look, [members[member - 1], members[member]],
                site.Shots.At(members[member]), site.Shots.HeightOf(members[member]), run.Number, along[member - 1], along[member], Math.Abs(step), Steep * length,
                figures: [step, double.NaN, length]);
        }
    }

    /// <summary>Metres: half the width where it differs up and down.</summary>
    private static double? Tolerance(CodeEntry entry) => entry.ToleranceHeight ?? (entry.ToleranceHigh + entry.ToleranceLow) / 2;

    /// <summary>Whether the shot is part of another mistake, or a node that belongs to another thing, such as a chamber with a drop.</summary>
    private static bool IsOther(Site site, Run run, int member)
    {
        var shot = run.Members[member];
        return site.Shots.CodeColumn[shot] != run.Table.CodeWords[run.Number] || site.Membership.IsShared(shot)
            || site.RunBreaks.Touches(run.Number, member) || site.RunBreaks.Touches(run.Number, member + 1)
            || site.LateStretches.Explains(run.Number, member) || site.LateStretches.Explains(run.Number, member + 1);
    }

    /// <summary>The heights of a run along its chainage.</summary>
    private readonly ref struct Profile(Site site, Run run, double farthest)
    {
        private readonly ReadOnlySpan<int> members = run.Members;
        private readonly ReadOnlySpan<double> along = run.Chainages;
        private readonly ReadOnlySpan<double> heights = site.Shots.Heights;

        /// <summary>Metres above the line from one member to another; NaN where a height is missing or the members are too far apart to tell.</summary>
        public double Off(int member, int before, int after)
        {
            var length = along[after] - along[before];
            if (!(length > 0) || along[member] - along[member - 1] > farthest || along[member + 1] - along[member] > farthest) return double.NaN;
            var t = (along[member] - along[before]) / length;
            return heights[members[member]] - (1 - t) * heights[members[before]] - t * heights[members[after]];
        }

        /// <summary>Its standard uncertainty, metres; NaN where a shot states no accuracy. What a session has in common cancels within it.</summary>
        public double UOff(int member, int before, int after)
        {
            var t = (along[member] - along[before]) / (along[after] - along[before]);
            var (m, a, b) = (members[member], members[before], members[after]);
            var sigma = site.Shots.SigmaHeight;
            var own = sigma[m] * sigma[m] + (1 - t) * (1 - t) * sigma[a] * sigma[a] + t * t * sigma[b] * sigma[b];
            var session = site.Shots.Session;
            if (session[m] == session[a] && session[m] == session[b]) return Math.Sqrt(own);
            var sessions = site.Shots.Sessions;
            var weightOfM = 1 - (session[m] == session[a] ? 1 - t : 0) - (session[m] == session[b] ? t : 0);
            var weightOfA = session[a] == session[m] ? 0 : t - 1 - (session[a] == session[b] ? t : 0);
            var weightOfB = session[b] == session[m] || session[b] == session[a] ? 0 : -t;
            return Math.Sqrt(own + Common(session[m], weightOfM) + Common(session[a], weightOfA) + Common(session[b], weightOfB));

            double Common(int of, double weight) => weight * weight * sessions[of].UHeight * sessions[of].UHeight;
        }

        /// <summary>
        /// Whether the run goes on evenly once the shot is left out: neither steps nor bends. At an end one side must do; a thing that must
        /// fall evenly needs none.
        /// </summary>
        public bool StandsAlone(int member, double jump, bool straight)
        {
            var most = Evenly * Math.Abs(jump);
            var before = member >= 2 ? Off(member - 1, member - 2, member + 1) : double.NaN;
            var after = member + 2 < members.Length ? Off(member + 1, member - 1, member + 2) : double.NaN;
            if (member < 2 && member + 2 >= members.Length) return straight;
            if (member < 2) return Math.Abs(after) <= most;
            if (member + 2 >= members.Length) return Math.Abs(before) <= most;
            return Math.Abs(after - before) / 2 <= most && Math.Abs(after + before) / 2 <= most; // a step, a bend; false where a height is missing
        }
    }

    public string Message(Finding finding)
    {
        if (finding.Figures.Length > 2)
        {
            return $"{finding.RunLabel()} {(finding.Figure(0) > 0 ? "rises" : "falls")} {CheckText.Metres(finding.Measured)} in {CheckText.Metres(finding.Figure(2))} from {finding.Shot(0)} to {finding.Shot(1)} "
                + $"({CheckText.Along(finding)}), limit {CheckText.Metres(finding.Allowed)}: the heights on one side of it may be wrong.";
        }

        var (jump, u) = (finding.Figure(0), finding.Figure(1));
        var doubt = double.IsNaN(u) ? "accuracy not given" : $"± {CheckText.Metres(Coverage * u)}";
        return $"{finding.Shot(0)} on {finding.RunLabel()} lies {CheckText.Metres(finding.Measured)} {doubt} {(jump > 0 ? "above" : "below")} the line between its neighbours ({CheckText.Along(finding)}), limit {CheckText.Metres(finding.Allowed)}.";
    }

    public string Cure(Finding finding) => finding.Figures.Length > 2
        ? $"Find out which side is wrong (another datum, feet, a slip of the pole) and shoot {finding.Shot(0)} and {finding.Shot(1)} again; if it lies so, shoot it where it turns down."
        : $"Shoot {finding.Shot(0)} again; if it lies so, shoot closer about it.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
