using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class BendNotShotTests
{
    private const string Check = "bend-not-shot";

    /// <summary>A duct of shots 6 m apart that turns at shot 3.</summary>
    private static RecordInputs Turning(double degrees, string code = "DUCT", string more = "", string before = "")
    {
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(degrees));
        return ShotsOf.Lines(before + string.Create(CultureInfo.InvariantCulture,
            $"1 0 0 5 {code} D1 straight {more}\n2 6 0 5 {code} D1 straight {more}\n3 12 0 5 {code} D1 straight {more}\n4 {12 + 6 * cos:F4} {6 * sin:F4} 5 {code} D1 straight {more}\n5 {12 + 12 * cos:F4} {12 * sin:F4} 5 {code} D1 straight {more}"));
    }

    [Fact]
    public void Look_SharpTurn_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(Turning(90), Check, Severity.Stop, "3");
        Assert.Equal(1 / Math.Cos(Math.PI / 4) - 1, finding.Measured!.Value, 1e-4); // R(sec(θ/2) − 1)
        Assert.Equal("D1 turns by 90.0° ± 0.3° at 3 (12.0 m) without an arc: a bend of the least radius 1.000 m passes 0.414 m from it, limit 0.025 m.", finding.Message);
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_ModerateTurn_IsFoundAsALook() => CheckAssert.Single(Turning(-35), Check, Severity.Look, "3");

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() => CheckAssert.Single(Turning(90, more: "u_plan=-"), Check, Severity.Look, "3");

    [Fact]
    public void Look_LegsShorterThanTheBend_IsFoundByWhatFits()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1\n3 5 0.4 5 DUCT D1"), Check, Severity.Stop, "2");
        Assert.Equal(0.4 * Math.Tan(Math.PI / 8), finding.Measured!.Value, 1e-4);
    }

    [Fact]
    public void Look_AtAChamber_IsSilent() => CheckAssert.Silent(Turning(90, before: "9 12.1 0.2 5 CHAMBER\n"), Check);

    [Fact]
    public void Look_AtAJointOfRuns_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines("1 0 0 5 DUCT D1\n2 6 0 5 DUCT D1\n3 6 6 5 DUCT D1\n2 - - - DUCT D2\n4 12 0 5 DUCT D2"), Check);

    [Fact]
    public void Look_JointedPipe_IsSilent() => CheckAssert.Silent(Turning(2), Check);

    [Fact]
    public void Look_AKerb_IsSilent() => CheckAssert.Silent(Turning(90, "KERB"), Check);

    [Fact]
    public void Look_BendOfTrueArc_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 6 0 5 DUCT D1\n3 7.414 0.586 5 DUCT D1 through\n4 8 2 5 DUCT D1\n5 8 8 5 DUCT D1"), Check);

    [Fact]
    public void Look_CurveByChords_IsLeftToThat()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1\n2 4 0 5 DUCT D1\n3 7.464 2 5 DUCT D1\n4 9.464 5.464 5 DUCT D1\n5 9.464 9.464 5 DUCT D1");
        Assert.Single(inputs.Find("curve-by-chords"));
        CheckAssert.Silent(inputs, Check);
    }

    [Fact]
    public void Look_WrongCode_IsLeftToThat() => CheckAssert.Silent(ShotsOf.Lines(CodeNotChangedTests.DuctThenKerb), Check);

    [Fact]
    public void Look_TwiceTheLimit_IsFoundInNinetyNineOfAHundred()
    {
        var turn = 2 * Math.Acos(1 / 1.05); // 0.050 m at radius 1
        Assert.InRange(NoisyShots.Sites(200, Check, seed => Duct(seed, turn)), 198, 200);
    }

    [Fact]
    public void Look_CrookedWithinTheLimit_IsFoundInOneOfTwoThousandAtMost() => Assert.InRange(NoisyShots.Sites(2000, Check, seed => Duct(seed, 0.42)), 0, 1); // 0.022 m, limit 0.025 m

    private static RecordInputs Duct(int seed, double turn)
    {
        var shots = new NoisyShots(seed, 63);
        var (sin, cos) = Math.SinCos(turn);
        for (var i = -5; i <= 0; i++) shots.Add("DUCT", "D1", 6 * i, 0, 5);
        for (var i = 1; i <= 5; i++) shots.Add("DUCT", "D1", 6 * i * cos, 6 * i * sin, 5);
        return shots.Inputs;
    }
}
