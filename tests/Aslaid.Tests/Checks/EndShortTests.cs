using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class EndShortTests
{
    private const string Check = "end-short";

    private static string Branch(double north) => FormattableString.Invariant($"""
        1 0 0 5 DUCT D1
        2 8 0 5 DUCT D1
        3 16 0 5 DUCT D1
        4 4 -9 5 DUCT D2
        5 4 {north} 5 DUCT D2
        """);

    [Fact]
    public void Look_ShortOfARun_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Branch(-0.3)), Check, Severity.Stop, "5");
        Assert.Equal("D2 ends at 5, 0.300 m short of D1.", finding.Message);
        Assert.Null(finding.Correction); // its nearest shot is 4 m away
    }

    [Fact]
    public void Look_ShortOfAShotWithinReach_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1\n4 8 -9 5 DUCT D2\n5 8 -0.4 5 DUCT D2");
        CheckAssert.Single(inputs, Check, Severity.Stop, "5", "2");
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_BeginsShortOfAChamber_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 CHAMBER\n2 0.4 0 5 DUCT D1\n3 8 0 5 DUCT D1");
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "2", "1");
        Assert.Equal("D1 begins at 2, 0.400 m short of 1.", finding.Message);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_SaidToBeACap_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines(Branch(-0.3)).Then(new AttributeSet("DUCT/D2", "end", "cap")), Check);

    [Fact]
    public void Look_OnTheRunOrBeyondReach_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines(Branch(-0.015)), Check);
        CheckAssert.Silent(ShotsOf.Lines(Branch(-1.1)), Check);
    }

    [Fact]
    public void Look_TiedToAChamberOrARun_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n9 0.5 0 5 CHAMBER\n1 - - - DUCT D1\n3 8 0 5 DUCT D1"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n4 8 -9 5 DUCT D2\n2 - - - DUCT D2"), Check);
    }

    [Fact]
    public void Look_ObliqueBranch_IsFound() =>
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1\n4 -5 -4 5 DUCT D2\n5 4 -0.3 5 DUCT D2"), Check, Severity.Stop, "5");

    [Fact]
    public void Look_EndsSideBySideInOneTrench_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n4 0.1 0.3 5 DUCT D2\n5 7.9 0.31 5 DUCT D2"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n4 2 0.05 5 DUCT D2\n5 6 0.05 5 DUCT D2"), Check);
    }

    [Fact]
    public void Look_NearAThingItCannotEndOn_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 8 0 5 KERB K1\n4 4 -9 4 DUCT D2\n5 4 -0.3 4 DUCT D2"), Check);
}
