using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class OnOtherDesignTests
{
    private const string Check = "on-other-design";

    private const string Designs = "PIPE W1 0 0 5; 20 0 5\nCABLE C1 24 0 5; 40 0 5";
    private const string Wrong = "1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 0 5 PIPE P1\n4 24 0 5 PIPE P1\n5 32 0 5 PIPE P1\n6 40 0 5 PIPE P1";

    [Fact]
    public void Look_CodeLeftAsItWas_IsFoundAndCured()
    {
        var finding = CheckAssert.Single(DesignOf.Lines(Wrong).WithDesign(Designs), Check, Severity.Stop, "4", "5", "6");
        Assert.StartsWith("3 shots of P1 (4, 5, 6) lie 3.000 m or more off the design of PIPE and within 0.000 m of that of CABLE", finding.Message, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(DesignOf.Lines(Wrong).WithDesign(Designs), Check);
    }

    [Fact]
    public void Look_RightlyCoded_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n4 24 0 5 CABLE C1\n5 40 0 5 CABLE C1").WithDesign(Designs), Check);

    [Fact]
    public void Look_OffItsDesignAndOnNone_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 2 5 PIPE P1\n3 20 0 5 PIPE P1").WithDesign(Designs), Check);
}
