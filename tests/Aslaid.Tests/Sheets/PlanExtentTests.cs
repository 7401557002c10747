using Aslaid.Sheets;

namespace Aslaid.Tests;

public class PlanExtentTests
{
    [Fact]
    public void Of_OneShotFarOff_LeavesItOutsideAndNamesIt()
    {
        var record = SheetRecord.Of([.. SheetRecord.Small(), new("117", 90000, 4, 5, "LAMP-COLUMN")]);
        var extent = PlanExtent.Of(record);
        Assert.Equal("117", record.Shots.Raw.Id(Assert.Single(extent.Outside)));
        Assert.True(Box2.Of(extent.Places).MaxEast < SheetRecord.East + 100);
    }

    [Fact]
    public void Of_EvenlyShotLine_LeavesNothingOutside() => Gen.Int[1, 400].Sample(count =>
    {
        var rows = Enumerable.Range(0, count).Select(i => new SheetRecord.Row($"{i}", 12.0 * i, 3, 5, "WATER-MAIN", "WM-1")).ToArray();
        Assert.Empty(PlanExtent.Of(SheetRecord.Of(rows)).Outside);
    });

    [Fact]
    public void Of_ArcThatBulges_HoldsItsBulge()
    {
        var record = SheetRecord.Of(
            new("1", 0, 0, 5, "WATER-MAIN", "WM-1"), new("2", -10, 10, 5, "WATER-MAIN", "WM-1", Aslaid.Record.Leg.Through), new("3", 10, 10, 5, "WATER-MAIN", "WM-1"));
        Assert.True(Box2.Of(PlanExtent.Of(record).Places).MaxNorth > SheetRecord.North + 19.9); // a circle of 10 m about (0, 10), shot no higher than 10
    }
}
