using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class LengthDiffersTests
{
    private const string Check = "length-differs";

    [Fact]
    public void Look_StatedLengthIsFortyPerCentOff_IsFound() // as a record that was rejected once
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 8 DUCT D1").Then(new AttributeSet("DUCT/D1", "length_m", "9.60"));
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "1", "2", "3");
        Assert.Equal("D1 states a length of 9.60 m, its shots give 16.00 m in plan and 16.54 m on the slope: 6.40 m off, limit 0.16 m.", finding.Message);
    }

    [Fact]
    public void Look_ColumnOfTheShots_IsFound() =>
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 EDGE E1 straight length_m=30\n2 20 0 5 EDGE E1 straight length_m=30"), Check, Severity.Look, "1", "2");

    [Theory]
    [InlineData("16.00")]
    [InlineData("16.54")] // on the slope
    [InlineData("16.3")]
    [InlineData("15.85")] // within 1 %
    [InlineData("long")]
    public void Look_LengthThatFits_IsSilent(string length) =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 8 DUCT D1").Then(new AttributeSet("DUCT/D1", "length_m", length)), Check);

    [Fact]
    public void Look_WithinItsUncertainty_IsSilent() => // 3 · 0.12 m
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1 straight u_plan=0.12\n2 8 0 5 DUCT D1 straight u_plan=0.12").Then(new AttributeSet("DUCT/D1", "length_m", "8.3")), Check);

    [Fact]
    public void Look_LengthsOfLegs_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 EDGE E1 straight length_m=0\n2 20 0 5 EDGE E1 straight length_m=20"), Check);
}
