using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class NoCheckShotTests
{
    private const string Check = "no-check-shot";
    private const string Work = "11 10 0 5 GROUND\n12 20 0 5 GROUND\n13 30 0 5 GROUND\n14 40 0 5 GROUND\n15 50 0 5 GROUND\n16 60 0 5 GROUND";
    private const string First = "1 0 0 5 CONTROL - - note=M1\n";
    private const string Last = "\n19 0 0 5 CONTROL - - note=M1";

    private static RecordInputs With(string lines) => ShotsOf.Lines(lines).WithControl(("M1", 0, 0, 5));

    [Fact]
    public void Look_NoneInASession_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(With("--- North\n" + First + Work + Last + "\n--- South\n" + Work), Check, Severity.Stop, "11");
        Assert.Equal("No check shot on control in the session of shots-2.csv, crew South: nothing of its 6 shots is proven.", finding.Message);
    }

    [Fact]
    public void Look_NoneInASession_SaysHowOftenStatedAccuracyCounts() => Assert.Contains(
        "and stated accuracy counts 2 times until then.", Assert.Single((With(Work) with { Settings = Settings.Default }).Find(Check)).Message, StringComparison.Ordinal);

    [Fact]
    public void Look_NoneInASession_StandsBesideAShotTooCoarseByItself()
    {
        var inputs = With("11 10 0 5 CHAMBER - - u_plan=0.05\n12 20 0 5 GROUND\n13 30 0 5 GROUND");
        Assert.Null(Assert.Single(inputs.Find("accuracy-over-limit")).Under);
    }

    [Fact]
    public void Look_NoneAtStart_IsFoundAsALook() =>
        Assert.Contains("at the start", CheckAssert.Single(With(Work + Last), Check, Severity.Look, "11").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_NoneAtEnd_IsFoundAsALook() =>
        Assert.Contains("at the end", CheckAssert.Single(With(First + Work), Check, Severity.Look, "16").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_NoControlKnown_IsFoundOnce() => CheckAssert.Single(ShotsOf.Lines("--- North\n" + Work + "\n--- South\n" + Work), Check, Severity.Look, "11");

    [Fact]
    public void Look_BothEndsChecked_IsSilent() => CheckAssert.Silent(With(First + Work + Last), Check);

    [Fact]
    public void Look_ShotsFromRecords_IsSilent() =>
        CheckAssert.Silent(With(First + Work + Last + "\n--- Office\n31 0 9 5 EDGE E1 straight seen=records\n32 9 9 5 EDGE E1 straight seen=bore_log"), Check);
}
