using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class RadiusOutOfRangeTests
{
    private const string Check = "radius-out-of-range";

    /// <summary>A half turn, whose radius three shots tell best.</summary>
    private static RecordInputs Half(double radius, string more = "") => ShotsOf.Lines(string.Create(CultureInfo.InvariantCulture,
        $"1 0 0 5 KERB K1 straight {more}\n2 {radius} {radius} 5 KERB K1 through {more}\n3 0 {2 * radius} 5 KERB K1 straight {more}"));

    [Fact]
    public void Look_PlainlySharper_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(Half(1.5), Check, Severity.Stop, "1", "2", "3");
        Assert.Equal(1.5, finding.Measured!.Value, 1e-6);
        Assert.Contains("least 2.000 m", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_SharperWithinItsDoubt_IsFoundAsALook() => CheckAssert.Single(Half(1.995), Check, Severity.Look, "1", "2", "3");

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() => CheckAssert.Single(Half(1.5, "u_plan=-"), Check, Severity.Look, "1", "2", "3");

    [Fact]
    public void Look_Flatter_IsFound() => CheckAssert.Single(Half(170), Check, Severity.Stop, "1", "2", "3");

    [Theory]
    [InlineData(2)]
    [InlineData(8)]
    [InlineData(150)]
    public void Look_WithinOrAtTheLimits_IsSilent(double radius) => CheckAssert.Silent(Half(radius), Check);
}
