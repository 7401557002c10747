using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ShotsOutOfOrderTests
{
    private const string Check = "shots-out-of-order";

    private const string Duct = """
        --- North
        1 0 0 5 DUCT PD-1
        2 8 0 5 DUCT PD-1
        3 32 0 5 DUCT PD-1
        4 40 0 5 DUCT PD-1
        --- North

        """;

    [Fact]
    public void Look_LaterShotsFillAGap_IsFoundAndPutThere()
    {
        var inputs = ShotsOf.Lines(Duct + "11 16 0.02 5 DUCT PD-1\n12 24 0.01 5 DUCT PD-1");
        Assert.Contains("between 2 and 3", CheckAssert.Single(inputs, Check, Severity.Stop, "11", "12").Message, StringComparison.Ordinal);
        Assert.Empty(inputs.Find("shots-too-far-apart"));
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_GapFilledTheOtherWayRound_IsFoundAndTurned()
    {
        var inputs = ShotsOf.Lines(Duct + "11 24 0 5 DUCT PD-1\n12 16 0 5 DUCT PD-1");
        var record = Derivation.Derive(inputs.Then(CheckAssert.Single(inputs, Check, Severity.Stop, "11", "12").Correction!));
        Assert.Equal("1 2 12 11 3 4", PathNotation.Write(record.Runs[0]));
    }

    [Fact]
    public void Look_LaterShotsBeforeTheFirst_IsFound()
    {
        var inputs = ShotsOf.Lines(Duct + "11 -16 0 5 DUCT PD-1\n12 -8 0 5 DUCT PD-1");
        var record = Derivation.Derive(inputs.Then(CheckAssert.Single(inputs, Check, Severity.Stop, "11", "12").Correction!));
        Assert.Equal("11 12 1 2 3 4", PathNotation.Write(record.Runs[0]));
    }

    private const string Main = """
        --- North
        1 0 0 5 DUCT PD-1
        2 8 0 5 DUCT PD-1
        3 16 0 5 DUCT PD-1
        4 24 0 5 DUCT PD-1
        5 32 0 5 DUCT PD-1
        --- North

        """;

    [Theory]
    [InlineData("11 0.01 0.02 5 DUCT PD-1\n12 8 0.01 5.01 DUCT PD-1\n13 20 -0.03 5 DUCT PD-1\n14 32 0 5 DUCT PD-1", 32.0, 32)]
    [InlineData("11 32.01 0 5 DUCT PD-1\n12 24 0.01 5.01 DUCT PD-1\n13 12 -0.03 5 DUCT PD-1\n14 0.01 0.01 5 DUCT PD-1", 32.0, 32)]
    [InlineData("11 7 0 5 DUCT PD-1\n12 12 0.01 5 DUCT PD-1\n13 17 0.03 5 DUCT PD-1", 10.0, 32)]
    public void Look_MeasuredAgainTheNextDay_IsFoundAndTakenAsACheck(string again, double metres, double length)
    {
        var inputs = ShotsOf.Lines(Main + again);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, [.. again.Split('\n').Select(line => line.Split(' ')[0])]);
        Assert.Contains(FormattableString.Invariant($"within 0.030 m of its path (limit 0.100 m), measure {metres:0.0} m of PD-1 again: its length counts twice."),
            finding.Message, StringComparison.Ordinal);
        Assert.Equal(new LabelDecided("DUCT/PD-1@North", 2, LabelAgain.Checks), finding.Correction);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        Assert.Equal(length, Derivation.Derive(inputs.Then(finding.Correction!)).Runs[0].PlanLength, 1e-6);
    }

    /// <summary>What other checks say of the same shots folds under it.</summary>
    [Theory]
    [InlineData("11 0.01 0 5 DUCT PD-1\n12 8 0.01 5.01 DUCT PD-1\n13 16 0 5 DUCT PD-1\n14 24 0 5 DUCT PD-1\n15 32 0 5 DUCT PD-1")]
    [InlineData("11 32.01 0 5 DUCT PD-1\n12 24 0.01 5.01 DUCT PD-1\n13 16 0 5 DUCT PD-1\n14 8 0 5 DUCT PD-1\n15 0.01 0 5 DUCT PD-1")]
    public void Look_MeasuredAgain_LeadsAlone(string again)
    {
        string[] ofOrder = [Check, "two-shots-one-place", "nearly-closed", "shots-too-far-apart", "bend-not-shot", "curve-by-chords", "level-jump", "fall-wrong", "end-short"];
        var findings = Derivation.Derive(ShotsOf.Lines(Main + again)).Findings;
        var leaders = Enumerable.Range(0, findings.Count).Select(number => findings[number]).Where(finding => finding.Under is null && ofOrder.Contains(finding.Check.Name));
        Assert.Equal([Check], leaders.Select(finding => finding.Check.Name));
    }

    [Fact]
    public void Look_GapFilledFromJointToJoint_IsFoundAsAGap()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Duct + "11 8.02 0 5 DUCT PD-1\n12 16 0.02 5 DUCT PD-1\n13 24 0.01 5 DUCT PD-1\n14 31.98 0 5 DUCT PD-1"), Check, Severity.Stop, "11", "12", "13", "14");
        Assert.IsType<PathSet>(finding.Correction);
    }

    [Fact]
    public void Look_AnotherDuctBesideOrAboveUnderTheSameLabel_IsSilentOfMeasuringAgain()
    {
        foreach (var beside in (string[])["11 0 0.3 5 DUCT PD-1\n12 8 0.3 5 DUCT PD-1\n13 16 0.3 5 DUCT PD-1", "11 0 0 5.2 DUCT PD-1\n12 8 0 5.2 DUCT PD-1\n13 16 0 5.2 DUCT PD-1"])
            Assert.DoesNotContain(ShotsOf.Lines(Main + beside).Find(Check), finding => finding.Correction is LabelDecided);
    }

    [Fact]
    public void Look_BeginsOnItsLastShotsAndGoesOn_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines(Main + "11 31.99 0 5 DUCT PD-1\n12 40 0 5 DUCT PD-1\n13 48 0 5 DUCT PD-1"), Check);

    [Fact]
    public void Look_RunGoesOnTheNextDay_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Duct + "11 48 0 5 DUCT PD-1\n12 56 0 5 DUCT PD-1"), Check);

    [Fact]
    public void Look_FarFromEverything_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Duct + "11 40 60 5 DUCT PD-1\n12 40 68 5 DUCT PD-1"), Check);
}
