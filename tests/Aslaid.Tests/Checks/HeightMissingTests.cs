using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class HeightMissingTests
{
    private const string Check = "height-missing";

    [Fact]
    public void Look_NoHeightsInARow_IsFoundOnceWithRange()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 5 0 - DUCT D1\n3 10 0 - DUCT D1\n4 15 0 5 DUCT D1"), Check, Severity.Stop, "2", "3");
        Assert.Equal((0.0, 15.0), (finding.From, finding.To!.Value));
        Assert.Equal("No height for 2 shots of a code with limits of height (2, 3 on D1 from 0.0 m to 15.0 m).", finding.Message);
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_ZeroBetweenOtherHeights_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5.1 KERB K1\n2 5 0 0 KERB K1\n3 10 0 5.2 KERB K1"), Check, Severity.Look, "2");
        Assert.Equal("Height exactly 0.000 m for 1 shot (2 on K1 from 0.0 m to 10.0 m), 5.100 m from what lies about it, limit 1.000 m: a mark of a missing height.", finding.Message);
    }

    [Fact]
    public void Look_ZeroPointOfABatch_IsFound() =>
        Assert.Equal(5.0, CheckAssert.Single(ShotsOf.Lines("1 0 0 5 GROUND\n2 9 0 0 GROUND\n3 18 0 5 GROUND"), Check, Severity.Look, "2").Measured);

    [Fact]
    public void Look_PointsInARow_IsFoundOnce() =>
        CheckAssert.Single(ShotsOf.Lines("1 0 0 - GROUND\n2 9 0 - LAMP-COLUMN\n3 18 0 5 DUCT D1\n4 19 0 5 DUCT D1\n5 27 0 - GROUND"), Check, Severity.Look, "1", "2", "5");

    [Fact]
    public void Look_EveryHeightZero_IsFound() => CheckAssert.Single(
        ShotsOf.Lines(string.Join('\n', Enumerable.Range(1, 8).Select(i => $"{i} {5 * i} 0 0 KERB K1"))), Check, Severity.Look, "1", "2", "3", "4", "5", "6", "7", "8");

    [Fact]
    public void Look_AShoreNearZero_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 0.4 KERB K1\n2 5 0 0 KERB K1\n3 10 0 -0.3 KERB K1\n4 3 3 5 GROUND\n5 4 9 6 GROUND\n6 5 9 6 GROUND"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 2.4 GROUND\n2 5 0 0 GROUND\n3 10 0 -0.3 GROUND"), Check);
    }

    [Fact]
    public void Look_CodeWithoutLimitsOfHeightOrRecords_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 - EDGE E1\n2 5 0 - EDGE E1"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 - DUCT D1 straight seen=records\n2 5 0 - DUCT D1 straight seen=records"), Check);
    }

    [Fact]
    public void Look_MarkOfAProgramForNone_IsFound() => Assert.Contains(
        "Height exactly -99.000 m", CheckAssert.Single(ShotsOf.Lines("1 0 0 5.001 DUCT D1\n2 8 0 -99 DUCT D1\n3 16 0 5.003 DUCT D1"), "height-missing", Severity.Stop, "2").Message, StringComparison.Ordinal);
}
