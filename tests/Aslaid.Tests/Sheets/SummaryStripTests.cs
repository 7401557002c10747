using Aslaid.Record;
using Aslaid.Sheets;

namespace Aslaid.Tests;

public class SummaryStripTests
{
    /// <summary>Metres in the order held, covered and not proven, open, complete, covered.</summary>
    [Theory]
    [InlineData(new double[] { 3, 1, 1, 1, 1 }, 1, "3.0 m held.")]
    [InlineData(new double[] { 0, 2, 1, 1, 1 }, 1, "1 stop stands.")]
    [InlineData(new double[] { 0, 2, 1, 1, 1 }, 0, "2.0 m covered, not proven.")]
    [InlineData(new double[] { 0, 0, 1, 1, 1 }, 0, "Position record open, nothing held.")]
    [InlineData(new double[] { 0, 0, 0, 1, 1 }, 0, "Position record complete or covered.")]
    [InlineData(new double[] { 0, 0, 0, 1, 0 }, 0, "Position record complete.")]
    [InlineData(new double[] { 0, 0, 0, 0, 0 }, 0, "Points only.")]
    public void Answer_SpeaksOfThePositionRecordOnly(double[] metres, int stops, string expected) =>
        Assert.Equal(expected, SummaryStrip.Answer(metres, stops));

    [Fact]
    public void Write_NothingHeld_SaysNoPermission()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of(SheetRecord.Small()));
        Assert.Contains(SummaryStrip.NoPermission, sheet.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public void MarkOf_CoveredWithFindings_IsNotProven()
    {
        var hold = new Hold(0, 0, 10, HoldState.Covered, [4], [], 7);
        Assert.Equal(HoldMark.CoveredNotProven, HoldMarks.Of(hold));
        Assert.Equal(HoldMark.Covered, HoldMarks.Of(hold with { By = [] }));
        Assert.Equal(HoldMark.Covered, HoldMarks.Of(hold with { By = default }));
        Assert.Equal(HoldMark.Complete, HoldMarks.Of(hold with { State = HoldState.Complete }));
    }
}
