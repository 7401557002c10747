namespace Aslaid.Record;

/// <summary>
/// Metres of new runs by state. Where the code book names roles that release, only runs of such codes count: an edge of works or a
/// main known from records only is nobody's to release.
/// </summary>
public static class HoldTotals
{
    /// <summary>Metres, one entry for each <see cref="HoldState"/>.</summary>
    public static double[] Of(AsBuiltRecord record)
    {
        var lengths = new double[Enum.GetValues<HoldState>().Length];
        foreach (var hold in Counted(record)) lengths[(int)hold.State] += hold.To - hold.From;
        return lengths;
    }

    /// <summary>Metres that were covered while findings held them; among <see cref="HoldState.Covered"/>.</summary>
    public static double CoveredUnproven(AsBuiltRecord record) =>
        Counted(record).Where(hold => hold.State == HoldState.Covered && !hold.By.IsEmpty).Sum(hold => hold.To - hold.From);

    private static IEnumerable<Hold> Counted(AsBuiltRecord record)
    {
        var anyRole = record.Inputs.Codes.Entries.Any(entry => entry.Releases is not null);
        return record.Holds.Where(hold => record.Runs[hold.Run].Counts).Where(hold => !anyRole || record.Runs[hold.Run].Entry?.Releases is not null);
    }
}
