using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class AccuracyOverLimitTests
{
    private const string Check = "accuracy-over-limit";

    [Fact]
    public void Look_PlanWorseThanTheLimit_IsFoundWithItsFigures()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 LAMP-COLUMN u_plan=0.115"), Check, Severity.Look, "1");
        Assert.Equal(Normal.Circle95 * 0.115 / Math.Sqrt(2), finding.Measured!.Value, 1e-9);
        Assert.Equal("Plan good to 0.199 m at 95 %, limit 0.100 m (1).", finding.Message);
    }

    [Fact]
    public void Look_HeightWorseThanTheLimit_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 CHAMBER u_height=0.03"), Check, Severity.Stop, "1");
        Assert.Equal(Normal.Within95 * 0.03, finding.Measured!.Value, 1e-9);
        Assert.StartsWith("Height good to 0.059 m", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_ConsecutiveShotsOfARun_IsFoundOnceWithRange()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("""
            1 0 0 5 DUCT D1
            2 5 0 5 DUCT D1
            3 10 0 5 DUCT D1 straight u_plan=0.05
            4 15 0 5 DUCT D1 straight u_plan=0.06
            5 20 0 5 DUCT D1
            """), Check, Severity.Stop, "3", "4");
        Assert.Equal((5.0, 20.0), (Math.Round(finding.From!.Value, 6), Math.Round(finding.To!.Value, 6)));
        Assert.Equal(Normal.Circle95 * 0.06 / Math.Sqrt(2), finding.Measured!.Value, 1e-9);
    }

    [Fact]
    public void Look_ShotLentToARun_IsFoundOnce() => CheckAssert.Single(
        ShotsOf.Lines("1 0 0 5 CHAMBER u_plan=0.06\n1 - - - DUCT D1\n2 5 0 5 DUCT D1"), Check, Severity.Stop, "1");

    [Fact]
    public void Look_AtTheLimit_IsSilent()
    {
        var atLimit = FormattableString.Invariant($"1 0 0 5 GROUND u_height={0.05 / Normal.Within95:R}");
        CheckAssert.Silent(ShotsOf.Lines(atLimit), Check);
    }

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundOnceABatch()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1 straight u_plan=- u_height=-\n2 5 0 5 DUCT D1 straight u_plan=- u_height=-"), Check, Severity.Look, "1", "2");
        Assert.StartsWith("No accuracy given for 2 shots", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_NoAccuracyWhereNoneIsAsked_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 EDGE E1 straight u_plan=- u_height=-\n2 5 0 5 EDGE E1 straight u_plan=- u_height=-"), Check);
}
