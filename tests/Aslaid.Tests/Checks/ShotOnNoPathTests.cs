using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ShotOnNoPathTests
{
    private const string Check = "shot-on-no-path";
    private const string Duct = "1 0 0 5 DUCT PD-1\n2 8 0 5 DUCT PD-1\n3 16 0 5 DUCT PD-1\n4 24 0 5 DUCT PD-1";

    private static RecordInputs OnPath(params int[] lines) =>
        ShotsOf.Lines(Duct).Then(new PathSet("DUCT/PD-1", null, [.. lines.Select(line => new PathStep(new(1, line), false))]));

    [Fact]
    public void Look_PathLeavesShotsOut_IsFoundAndHoldsTheRun()
    {
        var inputs = OnPath(2, 3);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "3", "4");
        Assert.Equal("2 shots of PD-1 lie on no path (3, 4).", finding.Message);
        Assert.Equal(HoldState.Held, Assert.Single(Derivation.Derive(inputs).Holds).State);
    }

    [Fact]
    public void Look_LeftOutShotsSetAside_IsSilent() => CheckAssert.Silent(OnPath(2, 3).Then(new SetAside([new(1, 4), new(1, 5)])), Check);

    [Fact]
    public void Look_PathThroughAll_IsSilent() => CheckAssert.Silent(OnPath(2, 3, 4, 5), Check);

    [Fact]
    public void Look_EndMeasuredAgain_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines(Duct + "\n5 24.01 0 5 CHAMBER").Then(new EndTied("DUCT/PD-1", RunEnd.End, new(1, 6), Instead: true)), Check);
}
