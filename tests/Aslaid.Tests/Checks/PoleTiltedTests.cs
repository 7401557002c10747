using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class PoleTiltedTests
{
    private const string Check = "pole-tilted";

    [Fact]
    public void Look_TwoMetrePoleByOneAndAHalfDegrees_IsFoundWithItsDisplacement()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 GROUND - - tilt=0.4 pole=2\n2 9 0 5 GROUND - - tilt=-1.5 pole=2"), Check, Severity.Look, "2");
        Assert.Equal("Pole tilted by 1.5°, not compensated, limit 1.0°: a pole of 2.00 m is displaced by 0.052 m in plan (2).", finding.Message);
        Assert.Equal(2 * Math.Sin(Math.PI * 1.5 / 180), finding.Figures[0], 1e-12);
    }

    [Fact]
    public void Look_OverTheLimitWhereProofIsNeeded_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1 straight tilt=2 pole=2\n2 5 0 5 DUCT D1 straight tilt=3 pole=2\n3 10 0 5 DUCT D1"), Check, Severity.Stop, "1", "2");
        Assert.Equal("Pole tilted by 3.0°, not compensated, limit 1.0°: a pole of 2.00 m is displaced by 0.105 m in plan, limit 0.050 m (1, 2 on D1 from 0.0 m to 10.0 m).", finding.Message);
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1 straight tilt=1.2 pole=2\n2 5 0 5 DUCT D1"), Check, Severity.Look, "1"); // 0.042 m
    }

    [Fact]
    public void Look_PoleNotGiven_IsFoundAndSaysSo() => Assert.Contains(
        "is not known without the pole's height (2 m: 0.105 m)", CheckAssert.Single(ShotsOf.Lines("1 0 0 5 CHAMBER - - tilt=3"), Check, Severity.Look, "1").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_CompensatedOrUpright_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - tilt=25 pole=2 tilt_compensated=yes"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - tilt=1 pole=2\n2 9 0 5 GROUND"), Check);
    }
}
