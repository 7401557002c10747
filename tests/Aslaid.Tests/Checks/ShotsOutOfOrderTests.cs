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

    [Fact]
    public void Look_RunGoesOnTheNextDay_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Duct + "11 48 0 5 DUCT PD-1\n12 56 0 5 DUCT PD-1"), Check);

    [Fact]
    public void Look_FarFromEverything_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Duct + "11 40 60 5 DUCT PD-1\n12 40 68 5 DUCT PD-1"), Check);
}
