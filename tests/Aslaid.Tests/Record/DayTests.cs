using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class DayTests
{
    private const string TwoDays = """
        --- North
        1 0 0 5 DUCT PD-1 - pole=2.0
        2 8 0 5 DUCT PD-1 - pole=2.0
        3 50 50 5 CONTROL - - note=M1 pole=2.0
        --- North
        4 16 0 5 DUCT PD-1 - pole=1.8 photo=p4.jpg
        5 40 30 5 GROUND - - pole=1.8
        --- South
        1 0 20 5 KERB K-1
        2 8 20 5 KERB K-1
        """;

    private static AsBuiltRecord Record() => Derivation.Derive(ShotsOf.Lines(TwoDays).WithControl(("M1", 50.01, 50, 5), ("M2", 0, -30, 5), ("M3", 400, 0, 5)));

    [Fact]
    public void Days_TellWhatEachCrewDid_AndAddUp()
    {
        var record = Record();
        var dates = DaySheet.Dates(record);
        Assert.Equal(3, dates.Length);
        var sheets = dates.SelectMany(date => DaySheet.Of(record, date)).ToArray();
        Assert.Equal(["North", "North", "South"], sheets.Select(sheet => sheet.Crew));
        Assert.Equal([8.0, 8.0], sheets[..2].SelectMany(sheet => sheet.Lengths).Select(length => Math.Round(length.Metres, 9)));
        Assert.Equal(record.Quantities.Where(quantity => quantity.Kind == QuantityKind.PlanLength).Sum(quantity => quantity.Value), sheets.SelectMany(sheet => sheet.Lengths).Sum(length => length.Metres), 1e-9);
        Assert.Equal(-0.01, Assert.Single(sheets[0].Checks).East, 1e-9);
        Assert.Equal((1, 1), (sheets[1].Photos, sheets[1].Points["GROUND"]));
        Assert.Contains(sheets[1].OpenEnds, end => end.End == RunEnd.End && record.Shots.Raw.Id(end.Shot) == "4");
        Assert.DoesNotContain(sheets[0].OpenEnds, end => end.End == RunEnd.End); // it went on the next day
    }

    [Fact]
    public void Morning_TellsWhatToCheckFirst()
    {
        var record = Record();
        var list = MorningList.Of(record, DaySheet.Dates(record)[^1].AddDays(1));
        var north = list.Crews.Single(crew => crew.Crew == "North");
        Assert.Equal(["M1", "M2"], north.Control.Select(point => point.Point).Order());
        Assert.Equal(DaySheet.Dates(record)[0], north.Control.Single(point => point.Point == "M1").Last);
        Assert.Null(north.Control.Single(point => point.Point == "M2").Last);
        Assert.Equal(1.8, Assert.Single(north.Poles).Metres);
        Assert.Contains(north.OpenEnds, end => record.Shots.Raw.Id(end.Shot) == "4");
    }

    /// <summary>Of every week of the sample, the days of both crews add up to what lies there.</summary>
    [Fact]
    public void Days_OfTheSampleSite_AddUp()
    {
        var record = Derivation.Derive(SampleInputs.Of(SampleSites.Clean(1)));
        var metres = DaySheet.Dates(record).SelectMany(date => DaySheet.Of(record, date)).SelectMany(sheet => sheet.Lengths).Sum(length => length.Metres);
        var runs = Enumerable.Range(0, record.Runs.Count).Select(number => record.Runs[number]).Where(run => run.PieceCount > 0);
        Assert.Equal(runs.Sum(run => run.Chainages[^1]), metres + DaySheet.Undated(record), 1e-6);
    }
}
