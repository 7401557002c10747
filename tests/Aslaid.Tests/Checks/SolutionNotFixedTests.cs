using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class SolutionNotFixedTests
{
    private const string Check = "solution-not-fixed";

    [Fact]
    public void Look_Float_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 GROUND fix=fixed\n2 9 0 5 GROUND fix=float"), Check, Severity.Stop, "2");
        Assert.Equal("Solution float, not fixed (2).", finding.Message);
        Assert.Equal(Reshoot.Any, finding.Reshoot); // nothing buries a ground shot
    }

    [Fact]
    public void Look_FloatsInARow_IsFoundOnceWithRange()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("""
            1 0 0 5 DUCT D1 straight fix=fixed
            2 5 0 5 DUCT D1 straight fix=float
            3 10 0 5 DUCT D1 straight fix=single
            4 15 0 5 DUCT D1 straight fix=4
            """), Check, Severity.Stop, "2", "3");
        Assert.Equal((0.0, 15.0), (finding.From, finding.To!.Value));
    }

    [Fact]
    public void Look_SharedShot_IsFoundOnce() => CheckAssert.Single(
        ShotsOf.Lines("1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1 straight fix=float\n2 - - - DUCT D2\n3 5 5 5 DUCT D2"), Check, Severity.Stop, "2");

    [Fact]
    public void Look_FixedOrUnsaid_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND fix=Fixed\n2 9 0 5 GROUND fix=rtk-fixed\n3 18 0 5 GROUND fix=4\n4 27 0 5 GROUND"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND"), Check);
    }
}
