using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ControlMissedTests
{
    private const string Check = "control-missed";

    private static RecordInputs Shot(string place, string more = "", string work = "") =>
        ShotsOf.Lines($"1 {place} CONTROL - - note=M1 {more}{work}").WithControl(("M1", 0, 0, 5), ("M2", 40, 0, 5));

    [Fact]
    public void Look_MissInPlan_IsFoundWithItsFigures()
    {
        var finding = CheckAssert.Single(Shot("0.08 -0.01 5.002"), Check, Severity.Stop, "1");
        Assert.Equal("Check shot 1 misses M1 by 0.081 m in plan (E +0.080, N -0.010, H +0.002 m), limit 0.030 m.", finding.Message);
    }

    [Fact]
    public void Look_MissInHeight_IsFound()
    {
        var finding = CheckAssert.Single(Shot("0 0 5.06"), Check, Severity.Look, "1"); // a session may be 15 mm off by itself
        Assert.Equal(3 * Math.Sqrt(0.015 * 0.015 + 0.004 * 0.004), finding.Allowed!.Value, 1e-9);
        CheckAssert.Single(Shot("0 0 5.07"), Check, Severity.Stop, "1"); // 3√(0.015² + 0.004² + 0.015²) = 0.065
    }

    [Fact]
    public void Look_ShotOnTheNextPoint_IsFoundAndNamesIt() =>
        Assert.EndsWith("It lies on M2: that may be the point occupied.", CheckAssert.Single(Shot("40.01 0 5"), Check, Severity.Stop, "1").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_TightToleranceInTheSession_IsFound()
    {
        const string work = "\n2 9 0 5 KERB K1\n3 18 0 5 KERB K1"; // tolerance 0.05 m: half of it is 0.025
        var finding = CheckAssert.Single(Shot("0.028 0 5", work: work), Check, Severity.Note, "1");
        Assert.Equal(0.025, finding.Allowed!.Value, 1e-9);
        Assert.EndsWith("a good check shot may be so far off by chance.", finding.Message, StringComparison.Ordinal);
        CheckAssert.Single(Shot("0.040 0 5", work: work), Check, Severity.Look, "1");
        CheckAssert.Single(Shot("0.055 0 5", work: work), Check, Severity.Stop, "1");
        CheckAssert.Silent(Shot("0.028 0 5"), Check);
    }

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAboveTheCeilings() =>
        CheckAssert.Single(Shot("0.031 0 5", "u_plan=- u_height=-"), Check, Severity.Stop, "1");

    [Fact]
    public void Look_TwoOtherPointsAgree_DoubtsThePointAndHoldsNothing()
    {
        var inputs = ShotsOf.Lines("""
            1 0 0 5 CONTROL - - note=M1
            2 40 0.08 5 CONTROL - - note=M2
            3 0 40 5 CONTROL - - note=M3
            4 9 0 5 KERB K1
            5 18 0 5 KERB K1
            """).WithControl(("M1", 0, 0, 5), ("M2", 40, 0, 5), ("M3", 0, 40, 5));
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "2");
        Assert.EndsWith("2 other points agree with the session: M2 itself may have moved.", finding.Message, StringComparison.Ordinal);
        Assert.All(Derivation.Derive(inputs).Holds, hold => Assert.Equal(HoldState.Open, hold.State));
    }

    [Fact]
    public void Look_OnlyPointMissed_HoldsEveryRunOfTheSession() => Assert.All(
        Derivation.Derive(Shot("0.08 0 5", work: "\n2 9 0 5 KERB K1\n3 18 0 5 KERB K1\n4 9 5 5 EDGE E1\n5 18 5 5 EDGE E1")).Holds, hold => Assert.Equal(HoldState.Held, hold.State));

    [Fact]
    public void Look_WithinThreeSigma_IsSilent() => CheckAssert.Silent(Shot("0.02 0.01 5.03"), Check);

    [Fact]
    public void Look_NotOnControl_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 3 3 5 CONTROL - - note=bench"), Check);
}
