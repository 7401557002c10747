using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ArcNotMadeTests
{
    private const string Check = "arc-not-made";

    [Fact]
    public void Look_NothingAfterTheThroughShot_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 KERB K1\n2 5 0 5 KERB K1\n3 8 2 5 KERB K1 through");
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "2", "3");
        Assert.Equal("No arc through 2, 3: no shot follows the through-shot.", finding.Message);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_CircleOfTwoShots_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 ISLAND I1\n2 4 0 5 ISLAND I1 through\n1 - - - ISLAND I1"), Check, Severity.Stop, "1", "2", "1");
        Assert.Contains("two of them are one place", finding.Message, StringComparison.Ordinal);
        Assert.Null(finding.Correction);
    }

    [Fact]
    public void Look_ArcsAndCircles_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 5 0 5 KERB K1\n3 8 2 5 KERB K1 through\n4 9 5 5 KERB K1"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 ISLAND I1\n2 4 0 5 ISLAND I1 through\n3 2 2 5 ISLAND I1 through\n1 - - - ISLAND I1"), Check);
    }
}
