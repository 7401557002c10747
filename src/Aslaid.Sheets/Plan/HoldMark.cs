using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>How a length is marked on the sheet, in the order of the summary: what still asks for work comes first.</summary>
internal enum HoldMark : byte
{
    Held,

    /// <summary>Covered while findings stood on it: it can no longer be seen, and is not proven either.</summary>
    CoveredNotProven,
    Open,
    Complete,
    Covered,
}

/// <summary>Marks of lengths, their words, and their metres.</summary>
internal static class HoldMarks
{
    public static HoldMark Of(Hold hold) => hold.State switch
    {
        HoldState.Held => HoldMark.Held,
        HoldState.Covered => hold.By.IsDefaultOrEmpty ? HoldMark.Covered : HoldMark.CoveredNotProven,
        HoldState.Complete => HoldMark.Complete,
        _ => HoldMark.Open,
    };

    public static string Word(HoldMark mark) => mark switch
    {
        HoldMark.Held => "held",
        HoldMark.CoveredNotProven => "covered, not proven",
        HoldMark.Complete => "complete",
        HoldMark.Covered => "covered",
        _ => "open",
    };

    /// <summary>Metres, one entry for each mark; of the same runs as <see cref="HoldTotals"/>.</summary>
    public static double[] Metres(AsBuiltRecord record)
    {
        var totals = HoldTotals.Of(record);
        var notProven = HoldTotals.CoveredUnproven(record);
        var metres = new double[Enum.GetValues<HoldMark>().Length];
        metres[(int)HoldMark.Held] = totals[(int)HoldState.Held];
        metres[(int)HoldMark.CoveredNotProven] = notProven;
        metres[(int)HoldMark.Open] = totals[(int)HoldState.Open];
        metres[(int)HoldMark.Complete] = totals[(int)HoldState.Complete];
        metres[(int)HoldMark.Covered] = Math.Max(0, totals[(int)HoldState.Covered] - notProven);
        return metres;
    }
}
