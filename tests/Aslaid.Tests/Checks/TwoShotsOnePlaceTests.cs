using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class TwoShotsOnePlaceTests
{
    private const string Check = "two-shots-one-place";

    private const string OnTheWayHome = """
        1 0 0 5 LAMP-COLUMN - - time=08:00
        2 30 0 5 LAMP-COLUMN - - time=08:10
        3 0.008 0 5.003 LAMP-COLUMN - - time=11:00
        """;

    private const string PressedTwice = """
        1 0 0 5 KERB K1
        2 5 0 5 KERB K1
        3 5.006 0.004 5 KERB K1
        4 10 0 5 KERB K1
        """;

    /// <summary>The search by cells finds what comparing all with all finds.</summary>
    [Fact]
    public void Look_AnyPoints_FindsThePairsThatComparingAllFinds() =>
        Gen.Select(Gen.Double[-0.06, 0.06], Gen.Double[-0.06, 0.06], Gen.Double[0, 0.05]).Array[1, 25].Sample(places =>
        {
            var inputs = ShotsOf.Lines(string.Join('\n', places.Select((p, i) => FormattableString.Invariant($"{i + 1} {p.Item1:F4} {p.Item2:F4} {5 + p.Item3:F3} GROUND - - time=-"))));
            var raw = inputs.Shots;
            var expected = Enumerable.Range(0, raw.Count).Where(a => Enumerable.Range(a + 1, raw.Count - a - 1).Any(b =>
                (raw[a].At - raw[b].At).SizeSquared <= 0.02 * 0.02 && Math.Abs(raw.Height[a] - raw.Height[b]) <= 0.02)).Select(raw.Id);
            return inputs.Find(Check).Select(finding => finding.ShotIds[0]).SequenceEqual(expected);
        }, iter: 300);

    [Fact]
    public void Look_ShotAgainHoursLater_IsFoundAndCured()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(OnTheWayHome), Check, Severity.Look, "1", "3");
        Assert.Equal("1 and 3 lie 0.008 m apart in plan and 0.003 m in height; within 0.020 m they are one place.", finding.Message);
        CheckAssert.CuredByItsCorrection(ShotsOf.Lines(OnTheWayHome), Check);
    }

    [Fact]
    public void Look_NeighboursOfARun_IsFoundHoweverSoon()
    {
        CheckAssert.Single(ShotsOf.Lines(PressedTwice), Check, Severity.Look, "2", "3");
        CheckAssert.CuredByItsCorrection(ShotsOf.Lines(PressedTwice), Check);
    }

    [Fact]
    public void Look_OverTheEdgeOfACell_IsFound() => CheckAssert.Single(
        ShotsOf.Lines("1 -0.001 -0.001 5 GROUND - - time=08:00\n2 0.012 0.012 5 GROUND - - time=09:00"), Check, Severity.Look, "1", "2");

    private const string MeasuredAgain = """
        --- North
        1 0 0 5 LAMP-COLUMN - - time=08:00
        2 30 0 5 LAMP-COLUMN - - time=08:10
        --- South
        7 0.008 0 5.003 LAMP-COLUMN - - time=08:20
        8 30 0.004 5 LAMP-COLUMN - - time=15:00
        """;

    [Fact]
    public void Look_MeasuredAgainInAnotherSession_IsFoundAsANoteOfEachPair()
    {
        var found = ShotsOf.Lines(MeasuredAgain).Find(Check);
        Assert.Equal(["1 7", "2 8"], found.Select(finding => string.Join(' ', finding.ShotIds)));
        Assert.All(found, finding => Assert.Equal(Severity.Note, finding.Severity));
        Assert.All(found, finding => Assert.Null(finding.Correction));
        Assert.Equal("7 is 1 measured again, and agrees within 0.008 m in plan and 0.003 m in height; limit 0.020 m.", found[0].Message);
    }

    [Fact]
    public void Look_MeasuredAgainAndShotTwiceToo_IsFoundAsBoth()
    {
        var found = ShotsOf.Lines(MeasuredAgain.Replace("--- South", "3 0.002 0 5 LAMP-COLUMN - - time=11:30\n--- South", StringComparison.Ordinal)).Find(Check);
        Assert.Equal(Severity.Look, Assert.Single(found, finding => finding.ShotIds.SequenceEqual(["1", "3"])).Severity);
        Assert.All(found.Where(finding => finding.ShotIds.Contains("7")), finding => Assert.Equal(Severity.Note, finding.Severity));
    }

    [Fact]
    public void Look_AnotherDayOfOneFile_IsFoundAsANote() => CheckAssert.Single(
        ShotsOf.Lines("1 0 0 5 LAMP-COLUMN - - time=08:00\n2 0.008 0 5 LAMP-COLUMN - - time=1.08:00"), Check, Severity.Note, "1", "2");

    [Fact]
    public void Look_AnotherSessionElsewhere_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("--- North\n1 0 0 5 LAMP-COLUMN\n--- South\n7 0.03 0 5 LAMP-COLUMN\n8 0 0.01 5 GROUND"), Check);

    [Fact]
    public void Look_RepeatWithinTwentyMinutes_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - time=08:00\n2 0.005 0 5 GROUND - - time=08:19"), Check);

    [Fact]
    public void Look_OtherCodeOrHeightOrControl_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - time=08:00\n2 0.005 0 5 LAMP-COLUMN - - time=09:00"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - time=08:00\n2 0.005 0 4.2 GROUND - - time=09:00"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CONTROL - - time=08:00\n2 0.005 0 5 CONTROL - - time=09:00"), Check);
    }

    [Fact]
    public void Look_EndsOfTwoRunsThatMeet_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines("1 0 0 5 KERB K1 - time=08:00\n2 5 0 5 KERB K1 - time=08:01\n3 5.005 0 5 KERB K2 - time=10:00\n4 9 0 5 KERB K2 - time=10:01"), Check);

    [Fact]
    public void Look_RunThatEndsBesideItsStart_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines("1 0 0 5 KERB K1 - time=08:00\n2 5 0 5 KERB K1 - time=08:01\n3 5 5 5 KERB K1 - time=08:02\n4 0.005 0 5 KERB K1 - time=10:00"), Check);
}
