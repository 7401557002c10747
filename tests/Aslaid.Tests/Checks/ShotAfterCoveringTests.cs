using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ShotAfterCoveringTests
{
    private const string Check = "shot-after-covering";

    /// <summary>The journal writes its entry at 07:30 on the day after the shots: hours count from their midnight.</summary>
    private static RecordInputs Covered(string third, double from = 0, double to = 20, string more = "") => ShotsOf.Lines($"""
        1 0 0 5 DUCT D1
        2 5 0 5 DUCT D1
        3 10 0 5 DUCT D1 straight time={third} {more}
        4 20 0 5 DUCT D1
        """).Then(new LengthCovered("DUCT/D1", from, to));

    [Fact]
    public void Look_MeasuredLater_IsFoundAndTooLate()
    {
        var finding = CheckAssert.Single(Covered("1.10:00"), Check, Severity.Look, "3");
        Assert.Equal("Measured 2.5 h after the length was said to be covered (journal 1): what was measured then is not what was seen (3 on D1 from 5.0 m to 20.0 m).", finding.Message);
        Assert.Equal(Reshoot.TooLate, finding.Reshoot);
    }

    [Fact]
    public void Look_SeveralCoverings_IsFoundAgainstTheEarliest()
    {
        var inputs = Covered("1.10:00").Then(new LengthCovered("DUCT/D1", 0, 20)).Then(new LengthCovered("DUCT/D1", 8, 12));
        Assert.Equal(1, CheckAssert.Single(inputs, Check, Severity.Look, "3").Figures[0]);
    }

    [Fact]
    public void Look_EarlierOrOutsideOrDetected_IsSilent()
    {
        CheckAssert.Silent(Covered("1.07:00"), Check);
        CheckAssert.Silent(Covered("1.10:00", to: 10), Check); // where work goes on
        CheckAssert.Silent(Covered("1.10:00", more: "seen=detected"), Check);
        CheckAssert.Silent(Covered("-"), Check);
        CheckAssert.Silent(Covered("1.10:00").Then(new Withdrawn(1)), Check);
    }

    [Fact]
    public void Look_TimeWithoutAZone_IsFoundOnlyBeyondTheFarthestZone()
    {
        CheckAssert.Silent(WithoutZone(13), Check);
        Assert.Single(WithoutZone(15).Find(Check));
    }

    private static RecordInputs WithoutZone(int hoursLater)
    {
        var (builder, at) = (new ShotTableBuilder(), new DateTime(2026, 3, 11, 7, 30, 0, DateTimeKind.Utc).AddHours(hoursLater).Ticks);
        for (var i = 0; i < 3; i++)
            builder.Add([(byte)('1' + i)], ShotsOf.East + 5 * i, ShotsOf.North, 5, builder.Codes.Keep("DUCT"), builder.Labels.Keep("D1"), Leg.Straight, 2 + i, -1, i == 1 ? at : long.MinValue, short.MinValue, 0.01, 0.01);
        builder.EndBatch("shots.csv", "", 0, null, default);
        return new RecordInputs(builder.Build(), [], ShotsOf.Codes, [], Settings.Default).Then(new LengthCovered("DUCT/D1", 0, 10));
    }
}
