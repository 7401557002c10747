using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ControlGapTests
{
    private const string Check = "control-gap";

    private static RecordInputs Day(params string[] shots) => ShotsOf.Lines(string.Join('\n', shots)).WithControl(("M1", 0, 0, 5));

    private static string On(int id, string time, string more = "") => $"{id} 0 0 5 CONTROL - - note=M1 time={time} {more}";

    private static string Work(int id, string time, string more = "") => $"{id} {10 + id} 9 5 GROUND - - time={time} {more}";

    [Fact]
    public void Look_ThreeHours_IsFoundWithItsShots()
    {
        var finding = CheckAssert.Single(Day(On(1, "07:00"), Work(11, "07:30"), Work(12, "08:30"), Work(13, "09:50"), On(2, "10:00"), Work(14, "10:10"), On(3, "11:00")), Check, Severity.Look, "11", "13");
        Assert.Equal("From 07:00 to 09:50 no check shot in the session of shots-1.csv, crew not named: 170 minutes, limit 120, 3 shots between (11 to 13).", finding.Message);
    }

    [Fact]
    public void Look_NoneAtTheEnd_IsFound() => CheckAssert.Single(Day(On(1, "07:00"), Work(11, "07:30"), Work(12, "09:30")), Check, Severity.Look, "11", "12");

    [Fact]
    public void Look_FirstCheckShotAfterHoursOfWork_IsFoundFromTheFirstShot() =>
        Assert.Equal(130, CheckAssert.Single(Day(Work(11, "07:00"), Work(12, "08:00"), Work(13, "09:10"), On(1, "09:15")), Check, Severity.Look, "11", "13").Measured);

    [Fact]
    public void Look_WalkToControl_IsSilent() => CheckAssert.Silent(Day(On(1, "07:00"), Work(11, "07:30"), Work(12, "08:30"), On(2, "09:12")), Check);

    [Fact]
    public void Look_NightBetweenTwoDays_IsSilent() => CheckAssert.Silent(Day(On(1, "08:00"), Work(11, "08:30"), Work(12, "1.09:02"), On(2, "1.09:05")), Check);

    [Fact]
    public void Look_LongWorkAfterAPause_IsFoundFromItsFirstShot()
    {
        var day = Day(On(1, "08:00"), Work(11, "08:30"), Work(12, "12:00"), Work(13, "13:30"), Work(14, "14:10"), On(2, "14:20"));
        Assert.Equal(130, CheckAssert.Single(day, Check, Severity.Look, "12", "14").Measured);
    }

    [Fact]
    public void Look_RowsNotInTheOrderOfTime_IsFoundAsInOrder() =>
        CheckAssert.Single(Day(On(2, "10:00"), Work(13, "09:50"), Work(12, "08:30"), Work(11, "07:30"), On(1, "07:00")), Check, Severity.Look, "11", "13");

    [Fact]
    public void Look_NothingShotBetween_IsSilent() => CheckAssert.Silent(Day(On(1, "07:00"), Work(11, "07:30"), On(2, "08:00"), On(3, "13:00"), Work(12, "13:30"), On(4, "14:00")), Check);

    [Fact]
    public void Look_EveryTwoHours_IsSilent() => CheckAssert.Silent(Day(On(1, "07:00"), Work(11, "08:30"), On(2, "09:00"), Work(12, "10:30"), On(3, "11:00")), Check);

    [Fact]
    public void Look_TimesMissing_IsSilent() => CheckAssert.Silent(Day(On(1, "07:00"), Work(11, "-"), Work(12, "09:50"), On(2, "10:00")), Check);

    [Fact]
    public void Look_NoCheckShotAtAll_IsSilent() => CheckAssert.Silent(Day(Work(11, "07:00"), Work(12, "11:50")), Check);

    [Fact]
    public void Look_ReadOffRecords_IsSilent() => CheckAssert.Silent(Day(On(1, "07:00"), Work(11, "09:30", "seen=records"), On(2, "10:00")), Check);

    [Fact]
    public void Look_OtherLimit_IsFound() =>
        Assert.Single((Day(On(1, "07:00"), Work(11, "07:30"), Work(12, "08:05"), On(2, "08:10")) with { Settings = ShotsOf.Settings with { ControlGapMinutes = 60 } }).Find(Check));
}
