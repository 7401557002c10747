using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class DesignBendMissedTests
{
    private const string Check = "design-bend-missed";

    private const string Corner = "PIPE W1 0 0 5; 20 0 5; ~22.1213 0.8787 5; 23 3 5; 23 20 5"; // radius 3

    [Fact]
    public void Look_NoShotOnTheBend_IsFound()
    {
        var finding = CheckAssert.Single(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 18 0 5 PIPE P1\n4 23 5 5 PIPE P1\n5 23 15 5 PIPE P1").WithDesign(Corner), Check, Severity.Stop, "3", "4");
        Assert.StartsWith("P1 goes straight from 3 to 4 where W1 of the design bends at radius 3.000 m: it passes 2.2", finding.Message, StringComparison.Ordinal);
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_ASharpCornerPassedBy_IsFound() =>
        Assert.StartsWith("P1 goes straight from 2 to 3 where W1 of the design bends: it passes 2.500 m", CheckAssert.Single(DesignOf.Lines("1 0 0 5 PIPE P1\n2 15 0 5 PIPE P1\n3 20 5 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5; 20 20 5"), Check, Severity.Stop, "2", "3").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_TheBendShot_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n3 22.1213 0.8787 5 PIPE P1 through\n4 23 3 5 PIPE P1\n5 23 15 5 PIPE P1").WithDesign(Corner), Check);

    [Fact]
    public void Look_AStraightDesign_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 5 0 5; 10 0 5"), Check);
}
