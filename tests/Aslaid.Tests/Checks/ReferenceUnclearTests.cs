using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ReferenceUnclearTests
{
    private const string Check = "reference-unclear";

    private static RecordInputs At(double height) => DesignOf.Lines(string.Join('\n', Enumerable.Range(0, 5).Select(i =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{i + 1} {8 * i} 0 {height:F3} PIPE P1")))).WithDesign("PIPE W1 0 0 5; 32 0 5");

    [Theory]
    [InlineData(4.8, "underside")]
    [InlineData(4.9, "centre")]
    [InlineData(4.81, "invert")]
    public void Look_AnotherLevelShot_IsFoundAndCured(double height, string level)
    {
        var finding = CheckAssert.Single(At(height), Check, Severity.Stop, "1", "2", "3", "4", "5");
        Assert.Equal(level, finding.Word);
        Assert.EndsWith($"as if its {level} had been shot ({-finding.Allowed!.Value:0.000} m) and not its top.", finding.Message, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(At(height), Check);
        CheckAssert.Silent(At(height).Then(finding.Correction!), "off-design");
    }

    [Fact]
    public void Look_LaidAsDesigned_IsSilent() => CheckAssert.Silent(At(5.02), Check);

    [Fact]
    public void Look_OffByNoSizeOfIt_IsSilent() => CheckAssert.Silent(At(5.3), Check);
}
