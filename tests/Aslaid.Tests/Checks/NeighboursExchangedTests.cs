using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class NeighboursExchangedTests
{
    private const string Check = "neighbours-exchanged";

    private static readonly RecordInputs Exchanged = ShotsOf.Lines(
        "1 0 0 5.001 DUCT D1\n2 8 0 5.002 DUCT D1\n3 24 0 5.003 DUCT D1\n4 16 0 5.004 DUCT D1\n5 32 0 5.001 DUCT D1\n6 40 0 5.002 DUCT D1");

    [Fact]
    public void Look_TwoExchanged_IsFoundAndCuredByItsCorrection()
    {
        var finding = CheckAssert.Single(Exchanged, Check, Severity.Look, "3", "4");
        Assert.Equal("D1 goes back and forth from 8.0 m to 48.0 m: with 4 before 3 it is 16.000 m shorter, limit 12.000 m.", finding.Message);
        CheckAssert.CuredByItsCorrection(Exchanged, Check);
    }

    [Fact]
    public void Look_TwoExchanged_NoBendIsMissedThere() => Assert.Empty(Exchanged.Find("bend-not-shot"));

    [Theory]
    [InlineData("1 0 0 5.001 DUCT D1\n2 8 0 5.002 DUCT D1\n3 16 0 5.003 DUCT D1\n4 24 0 5.004 DUCT D1\n5 32 0 5.001 DUCT D1")] // as it was laid
    [InlineData("1 0 0 5.001 EDGE E1\n2 20 0 5.002 EDGE E1\n3 20 4 5.003 EDGE E1\n4 0 4 5.004 EDGE E1\n5 0 8 5.001 EDGE E1")] // a meander
    [InlineData("1 0 0 5.001 DUCT D1\n2 8 0 5.002 DUCT D1\n3 16 0 5.003 DUCT D1\n4 8 0.3 5.004 DUCT D1\n5 0 0.3 5.001 DUCT D1")] // there and back
    public void Look_RightOrder_IsSilent(string lines) => CheckAssert.Silent(ShotsOf.Lines(lines), Check);
}
