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
        Assert.Equal("From 07:00 to 10:00 no check shot in the session of shots-1.csv, crew not named: 180 minutes, limit 120, 3 shots between (11 to 13).", finding.Message);
    }

    [Fact]
    public void Look_NoneAtTheEnd_IsFound() => CheckAssert.Single(Day(On(1, "07:00"), Work(11, "07:30"), Work(12, "09:30")), Check, Severity.Look, "11", "12");

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
        Assert.Single((Day(On(1, "07:00"), Work(11, "07:30"), On(2, "08:10")) with { Settings = ShotsOf.Settings with { ControlGapMinutes = 60 } }).Find(Check));
}
