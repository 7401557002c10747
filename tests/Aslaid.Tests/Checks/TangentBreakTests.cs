using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class TangentBreakTests
{
    private const string Check = "tangent-break";

    private static readonly CodeBook Codes = new(
    [
        new("KERB", CodeKind.Line) { TangentBreakMaxDegrees = 10 },
        new("DUCT", CodeKind.Line) { TangentBreakMaxDegrees = 10, NeedsProof = true },
        new("ISLAND", CodeKind.Area) { TangentBreakMaxDegrees = 15, Closes = true },
        new("EDGE", CodeKind.Line),
    ]);

    private static RecordInputs Lines(string lines) => ShotsOf.Lines(lines) with { Codes = Codes };

    /// <summary>A straight of 10 m east, then a quarter turn of 10 m radius to the left, which begins with a break.</summary>
    private static RecordInputs Bend(double breakDegrees, string code = "KERB", double share = 0.5, string more = "")
    {
        var angle = double.DegreesToRadians(breakDegrees);
        var (through, end) = (Place(share * Math.PI / 2), Place(Math.PI / 2));
        return Lines(string.Create(CultureInfo.InvariantCulture,
            $"1 -10 0 5 {code} K1 straight {more}\n2 0 0 5 {code} K1 straight {more}\n3 {through.East:R} {through.North:R} 5 {code} K1 through {more}\n4 {end.East:R} {end.North:R} 5 {code} K1 straight {more}"));

        Step Place(double sweep) => new(10 * (Math.Sin(sweep + angle) - Math.Sin(angle)), 10 * (Math.Cos(angle) - Math.Cos(sweep + angle)));
    }

    [Fact]
    public void Look_BreakBeyondDoubt_IsFound()
    {
        var finding = CheckAssert.Single(Bend(20), Check, Severity.Look, "2", "1", "3");
        Assert.Equal((20, 10), (Math.Round(finding.Measured!.Value, 6), finding.Allowed));
        Assert.Contains("turns left by 20.0 ± ", finding.Message, StringComparison.Ordinal);
        Assert.Equal(10, finding.From!.Value, 1e-6);
    }

    [Fact]
    public void Look_CodeThatNeedsProof_IsFoundAsAStop() => CheckAssert.Single(Bend(-20, "DUCT"), Check, Severity.Stop, "2", "1", "3");

    // The last piece is an arc of 11.6 m about (8.4, 8), tangent where it begins; where it comes home it meets the first straight at 46.4°.
    [Fact]
    public void Look_AtTheEndOfARing_IsFound()
    {
        var finding = CheckAssert.Single(Lines("1 0 0 5 ISLAND I1\n2 20 0 5 ISLAND I1\n3 20 8 5 ISLAND I1\n4 8.4 19.6 5 ISLAND I1 through\n1 - - - ISLAND I1"), Check, Severity.Look, "1", "4", "2");
        Assert.Equal(double.RadiansToDegrees(Math.Atan2(8.4, 8)), finding.Measured!.Value, 1e-6);
    }

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() =>
        Assert.Contains("accuracy not given", CheckAssert.Single(Bend(20, "DUCT", more: "u_plan=-"), Check, Severity.Look, "2", "1", "3").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    [InlineData(10.5)]
    public void Look_WithinTheLimitOrItsDoubt_IsSilent(double degrees) => CheckAssert.Silent(Bend(degrees), Check);

    [Fact]
    public void Look_ThroughShotNearTheEnd_IsSilentSinceAnotherCheckLeads() => CheckAssert.Silent(Bend(20, share: 0.1), Check);

    [Fact]
    public void Look_BesideAnArcThatIsNotProven_IsSilentSinceAnotherCheckLeads() => CheckAssert.Silent(
        Lines("1 0 0 5 KERB K1\n2 4 0.005 5 KERB K1 through\n3 8 0 5 KERB K1\n4 11.5 3.5 5 KERB K1 through\n5 13 8 5 KERB K1"), Check);

    [Fact]
    public void Look_CornerOfStraights_IsSilent() => CheckAssert.Silent(Lines("1 0 0 5 KERB K1\n2 9 0 5 KERB K1\n3 9 9 5 KERB K1"), Check);

    [Fact]
    public void Look_CodeWithoutLimit_IsSilent() => CheckAssert.Silent(Bend(40, "EDGE"), Check);
}
