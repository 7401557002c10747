using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Corrections that would leave everything as it is are no entries.</summary>
public static class EmptyCorrection
{
    /// <summary>Lets a change pass that changes something.</summary>
    /// <exception cref="ProjectException">It changes nothing; the message says why.</exception>
    public static void Refuse(AsBuiltRecord record, Change change)
    {
        var shots = record.Shots;
        var why = change switch
        {
            SetAside c when c.Shots.All(key => !shots.Used[shots.Raw.Find(key)]) => "set aside already",
            Restored c when c.Shots.All(key => shots.Used[shots.Raw.Find(key)]) => "counted already",
            Recoded c when c.Shots.All(key => IsSo(shots, shots.Raw.Find(key), c)) => "of that code and run already",
            PoleHeightCorrected c when c.Entered == c.True => "the same pole height twice",
            LengthReleased c when Covers(record, c.Run, c.From, c.To, HoldState.Complete) => "released already, and the release stands",
            LengthCovered c when Covers(record, c.Run, c.From, c.To, HoldState.Covered) => "said to be covered already",
            _ => null,
        };
        if (why is not null) throw new ProjectException($"Nothing would change: {why}. Nothing was written.");
    }

    private static bool IsSo(CurrentShots shots, int row, Recoded change) =>
        shots.CodeOf(row) == change.Code && (change.Run is null || (shots.Labels[shots.Label[row]] ?? "") == change.Run);

    private static bool Covers(AsBuiltRecord record, string key, double from, double to, HoldState state) =>
        record.Runs.Find(key) is { } run
        && record.HoldsOf(run.Number).Where(hold => hold.From < to && hold.To > from).All(hold => hold.State == state);
}
