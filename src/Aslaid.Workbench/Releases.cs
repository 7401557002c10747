using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>What a release needs before it is written.</summary>
public static class Releases
{
    /// <summary>A release of a length as the record now stands.</summary>
    /// <exception cref="ProjectException">Something holds the length.</exception>
    public static LengthReleased Of(AsBuiltRecord record, Run run, double from, double to)
    {
        var held = record.Holds.Where(hold => hold.Run == run.Number && hold.State == HoldState.Held && hold.From < to && hold.To > from)
            .SelectMany(hold => hold.By).Distinct().ToArray();
        if (held.Length > 0)
        {
            throw new ProjectException(FormattableString.Invariant(
                $"{run.Label} from {from:0.00} to {to:0.00} m is held by {held.Length}: {string.Join("; ", held.Take(5).Select(finding => $"{record.Findings[finding].Id} {record.Findings[finding].Message}"))}. Cure or accept them first."));
        }

        return new(run.Key, from, to, Release.InputsHash(run, from, to), Release.Vertices(run, from, to));
    }
}
