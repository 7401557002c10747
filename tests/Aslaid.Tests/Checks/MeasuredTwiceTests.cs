using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class MeasuredTwiceTests
{
    private const string Check = "measured-twice";

    [Fact]
    public void Look_OnePlaceTwoHeights_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 CHAMBER\n2 0.01 0 5.14 CHAMBER"), Check, Severity.Stop, "1", "2");
        Assert.Equal("1 and 2 are one thing measured twice, and differ by 0.140 m in height (E +0.010, N 0.000, H +0.140 m), limit 0.078 m.", finding.Message);
    }

    [Fact]
    public void Look_CodeWithoutProof_IsFoundAsALook() => CheckAssert.Single(ShotsOf.Lines("1 0 0 5 GROUND\n2 0.01 0 5.14 GROUND"), Check, Severity.Look, "1", "2");

    [Fact]
    public void Look_TwoChambersThatCannotBe_IsFound()
    {
        const string accurate = "u_plan=0.005";
        CheckAssert.Single(ShotsOf.Lines($"1 0 0 5 CHAMBER - - {accurate} time=08:00\n2 0.12 0 5 CHAMBER - - {accurate} time=09:00"), Check, Severity.Look, "1", "2");
        CheckAssert.Silent(ShotsOf.Lines($"1 0 0 5 CHAMBER - - {accurate}\n2 0.12 0 5 CHAMBER - - {accurate}"), Check); // minutes apart: the crew saw both
        CheckAssert.Silent(ShotsOf.Lines($"1 0 0 5 LAMP-COLUMN - - {accurate} time=08:00\n2 0.12 0 5 LAMP-COLUMN - - {accurate} time=09:00"), Check); // size not known
    }

    [Fact]
    public void Look_SameIdAgainInALaterBatch_IsFoundAsAStop() =>
        CheckAssert.Single(ShotsOf.Lines("--- North\n1 0 0 5 CHAMBER - - u_plan=0.005\n--- North\n1 0.13 0 5 CHAMBER - - u_plan=0.005"), Check, Severity.Stop, "1", "1");

    [Fact]
    public void Look_OtherSession_IsFoundBeyondBothCommonParts()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER - - setup=a\n2 0.01 0 5.10 CHAMBER - - setup=b"), Check);
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 CHAMBER - - setup=a\n2 0.01 0 5.16 CHAMBER - - setup=b"), Check, Severity.Stop, "1", "2");
    }

    [Theory]
    [InlineData("again_1")]
    [InlineData("Check_1")]
    public void Look_NoteNamesTheShot_IsFoundHoweverFar(string note) =>
        CheckAssert.Single(ShotsOf.Lines($"1 0 0 5 CHAMBER\n2 3 0 5 CHAMBER - - note={note}"), Check, Severity.Stop, "1", "2");

    [Fact]
    public void Look_NoteIsABareId_IsFoundBesideItOnly()
    {
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 CHAMBER\n2 0.4 0 5 CHAMBER - - note=1"), Check, Severity.Stop, "1", "2");
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n2 4 0 5 CHAMBER - - note=1"), Check);
    }

    [Fact]
    public void Look_NoteNamesAShotThatAgrees_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n2 0.015 0.01 5.02 CHAMBER - - note=again_1"), Check);

    [Fact]
    public void Look_AgreeingRepeats_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n2 0.012 0 5.03 CHAMBER\n3 0 0.015 4.98 CHAMBER"), Check);

    [Fact]
    public void Look_NoAccuracyGiven_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER - - u_plan=- u_height=-\n2 0.01 0 5.5 CHAMBER - - u_plan=- u_height=-"), Check);

    [Fact]
    public void Look_OtherCode_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n2 0.01 0 5.5 GROUND"), Check);

    [Fact]
    public void Look_IdTwiceInABatch_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n1 0.01 0 5.5 CHAMBER"), Check);
}
