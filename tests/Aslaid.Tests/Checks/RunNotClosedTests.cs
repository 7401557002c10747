using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class RunNotClosedTests
{
    private const string Check = "run-not-closed";

    private const string ThreeSides = """
        1 0 0 5 ISLAND I1
        2 5 0 5 ISLAND I1
        3 5 4 5 ISLAND I1
        4 0 4 5 ISLAND I1
        """;

    [Fact]
    public void Look_OpenRing_IsFoundAndGoesHome()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(ThreeSides), Check, Severity.Stop, "1", "4");
        Assert.Equal("I1 does not close: 4.000 m from its last shot 4 to its first 1.", finding.Message);
        Assert.Equal(new EndTied("ISLAND/I1", RunEnd.End, new(1, 2), Instead: false), finding.Correction);
        CheckAssert.CuredByItsCorrection(ShotsOf.Lines(ThreeSides), Check);
    }

    [Fact]
    public void Look_FirstPlaceShotAgain_IsFoundAndEndsOnIt()
    {
        var inputs = ShotsOf.Lines(ThreeSides + "\n5 0.02 0.01 5 ISLAND I1");
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "1", "5");
        Assert.Equal(new EndTied("ISLAND/I1", RunEnd.End, new(1, 2), Instead: true), finding.Correction);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_GapOfManySpacings_IsFoundWithoutCorrection() => Assert.Null(
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 ISLAND I1\n2 9 0 5 ISLAND I1\n3 18 0 5 ISLAND I1\n4 27 0 5 ISLAND I1"), Check, Severity.Stop, "1", "4").Correction);

    [Fact]
    public void Look_Closed_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines(ThreeSides + "\n1 - - - ISLAND I1"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 ISLAND I1\n2 5 0 5 ISLAND I1\n3 5 4 5 ISLAND I1\n4 0 4 5 ISLAND I1 home"), Check);
    }

    [Fact]
    public void Look_CodeThatNeedNotClose_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(ThreeSides.Replace("ISLAND", "KERB", StringComparison.Ordinal)), Check);
}
