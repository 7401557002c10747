using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>What a release needs before it is written.</summary>
public static class Releases
{
    /// <summary>A release of a length as the record now stands.</summary>
    /// <exception cref="ProjectException">Something holds the length.</exception>
    /// <param name="by">Who releases it; null where that was looked at before.</param>
    public static LengthReleased Of(AsBuiltRecord record, Run run, double from, double to, string? by = null)
    {
        if (by is not null && !Roles.MayRelease(record.Inputs.Journal, run.Entry, by))
            throw new ProjectException($"Lengths of {run.Code} are released by the role {run.Entry!.Releases}, and {by} does not have it. Give it with: aslaid correct PROJECT role \"{by}\" \"{run.Entry.Releases}\"");
        var held = record.Holds.Where(hold => hold.Run == run.Number && hold.State == HoldState.Held && hold.From < to && hold.To > from)
            .SelectMany(hold => hold.By).Distinct().ToArray();
        if (held.Length > 0)
        {
            throw new ProjectException(FormattableString.Invariant(
                $"{run.Label} from {from:0.00} to {to:0.00} m is held: {string.Join(" ", held.Take(5).Select(finding => $"{record.Findings[finding].Id} {record.Findings[finding].Message}"))}{(held.Length > 5 ? $" And {held.Length - 5} more." : "")} Cure or accept what holds it first."));
        }

        if (run.Entry is { NeedsProof: true }) Prove(record, run, from, to);
        return new(run.Key, from, to, Release.InputsHash(record.Site, run, from, to), Release.Vertices(run, from, to));
    }

    /// <summary>Accuracy that only a missing proof of the instrument puts over its limit is no finding, but it is not proven either.</summary>
    private static void Within(AsBuiltRecord record, Run run, int shot, string axis, double u95, double? most)
    {
        if (most is not { } limit || u95 <= limit + 1e-6 || IsAccepted(record, shot)) return;
        var id = record.Shots.Raw.Id(shot);
        if (double.IsNaN(u95))
            throw new ProjectException($"{run.Label} is of {run.Code}, which needs proof, but shot {id} states no accuracy in {axis}: nothing is proven. Take the file in with --declare-u-plan-m and --declare-u-height-m, or shoot again with accuracy.");
        var instrument = record.Shots.Receivers[record.Shots.Receiver[shot]];
        var factor = axis == "plan" ? instrument.Plan : instrument.Height;
        var why = factor.State == StatedAccuracy.Unproven && factor.Factor > 1
            ? FormattableString.Invariant($" What its instrument states counts {factor.Factor:0.0} times until more check shots bear it out: shoot control again with it.")
            : " Shoot again with a better solution or another instrument, or accept what accuracy-over-limit says.";
        throw new ProjectException(FormattableString.Invariant(
            $"{run.Label} is of {run.Code}, which needs proof, but shot {id} is good to {u95:0.000} m in {axis} at 95 % and {limit:0.000} m is the most.") + why);
    }

    /// <summary>Whether a named person accepted that the accuracy of the shot is over its limit.</summary>
    private static bool IsAccepted(AsBuiltRecord record, int shot)
    {
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            if (finding.State == FindingState.Accepted && finding.Check.Name is "accuracy-over-limit" or "method-unfit" && finding.Shots.Contains(shot)) return true;
        }

        return false;
    }

    /// <summary>Metres of runs whose code needs proof and of which a shot states no accuracy or met no control: nothing holds them, and nobody can release them.</summary>
    public static double Unproven(AsBuiltRecord record)
    {
        var (proven, metres) = (record.Site.CheckShots.Select(check => record.Shots.Session[check.Row]).ToHashSet(), 0.0);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (run.Entry is not { NeedsProof: true } entry) continue;
            foreach (var shot in run.Members)
            {
                var isKnown = !double.IsNaN(record.Shots.SigmaPlan[shot]) && (entry.Height95Max is null || !double.IsNaN(record.Shots.SigmaHeight[shot]));
                if (isKnown && proven.Contains(record.Shots.Session[shot])) continue;
                metres += run.PlanLength;
                break;
            }
        }

        return metres;
    }

    /// <summary>Where the code needs proof, accuracy must be stated or declared and the session met at least one control point: no accuracy given never passes.</summary>
    private static void Prove(AsBuiltRecord record, Run run, double from, double to)
    {
        var proven = record.Site.CheckShots.Select(check => record.Shots.Session[check.Row]).ToHashSet();
        for (var member = 0; member < run.MemberCount; member++)
        {
            if (run.Chainages[member] < from || run.Chainages[member] > to) continue;
            var shot = run.Members[member];
            var id = record.Shots.Raw.Id(shot);
            if (double.IsNaN(record.Shots.SigmaPlan[shot]))
                throw new ProjectException($"{run.Label} is of {run.Code}, which needs proof, but shot {id} states no accuracy: nothing is proven. Take the file in with --declare-u-plan-m and --declare-u-height-m, or shoot again with accuracy.");
            if (!proven.Contains(record.Shots.Session[shot]))
                throw new ProjectException($"{run.Label} is of {run.Code}, which needs proof, but the session of shot {id} met no control point. Adopt the control list, or shoot again in a session that is proven on control.");
            Within(record, run, shot, "plan", Normal.Circle95 * record.Shots.PlaceSigma(shot), run.Entry!.Plan95Max);
            Within(record, run, shot, "height", Normal.Within95 * record.Shots.LevelSigma(shot), run.Entry!.Height95Max);
        }
    }
}
