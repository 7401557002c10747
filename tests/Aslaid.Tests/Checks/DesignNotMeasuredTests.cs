using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class DesignNotMeasuredTests
{
    private const string Check = "design-not-measured";

    private static RecordInputs Half => DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 40 0 5\nCABLE C1 0 9 5; 10 9 5");

    [Fact]
    public void Look_WorkGoesOn_IsFoundAsOneLook() => Assert.Equal("Of 50.0 m designed, 30.0 m are not measured yet; measured: CABLE 0 %, PIPE 50 %.", Assert.Single(Half.Find(Check)).Message);

    [Fact]
    public void Look_SaidToBeBuilt_IsFoundAsAStop()
    {
        var finding = Assert.Single(Half.Then(new DesignBuilt("W1", 0, 40)).Find(Check), finding => finding.Severity == Severity.Stop);
        Assert.Equal("W1 of the design is said to be built, but from station 20.00 m to 40.00 m (20.00 m) nothing of it is measured.", finding.Message);
    }

    [Fact]
    public void Look_AllMeasured_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n2 - - - PIPE P2\n3 40 0 5 PIPE P2").WithDesign("PIPE W1 40 0 5; 0 0 5"), Check);

    [Fact]
    public void Look_BuiltWhereMeasured_IsSilentAboutThat() => Assert.DoesNotContain(Half.Then(new DesignBuilt("W1", 0, 20)).Find(Check), finding => finding.Severity == Severity.Stop);

    [Fact]
    public void Look_AnExistingLine_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5\nexisting GAS G1 0 9 5; 20 9 5"), Check);

    [Fact]
    public void Built_OfNoLine_IsUnresolved() => Assert.Contains(Derivation.Derive(Half.Then(new DesignBuilt("W9", 0, 1))).Unresolved, line => line.Contains("W9", StringComparison.Ordinal));
}
