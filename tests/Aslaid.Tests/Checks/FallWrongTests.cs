using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class FallWrongTests
{
    private const string Check = "fall-wrong";

    private static readonly CodeBook Codes = new(
    [
        new("DRAIN", CodeKind.Line) { FallMinPercent = 0.5, NeedsProof = true },
        new("CHANNEL", CodeKind.Line) { FallMinPercent = 0.5 },
        new("EDGE", CodeKind.Line),
    ]);

    /// <summary>A drain shot every 10 m, heights in millimetres over 5 m, by level.</summary>
    private static RecordInputs Drain(string millimetres, string code = "DRAIN", string uHeight = "0.002")
    {
        var heights = millimetres.Split(' ');
        return ShotsOf.Lines(string.Join('\n', heights.Select((height, i) => string.Create(CultureInfo.InvariantCulture,
            $"{i + 1} {10 * i} 0 {(height == "-" ? "-" : (5 + 0.001 * double.Parse(height, CultureInfo.InvariantCulture)).ToString("R", CultureInfo.InvariantCulture))} {code} D1 straight u_height={uHeight}")))) with { Codes = Codes };
    }

    private static RecordInputs Flowing(RecordInputs inputs, string way) => inputs.Then(new AttributeSet("DRAIN/D1", "flow", way));

    [Fact]
    public void Look_LegThatRises_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(Drain("0 -90 -180 -130 -220 -310"), Check, Severity.Stop, "3", "4");
        Assert.Equal(0.5, finding.Measured!.Value, 1e-6);
        Assert.Equal(0, finding.Allowed);
        Assert.Equal((20, 30), (finding.From, finding.To));
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_OneBadShot_IsFoundOnceAndNamed()
    {
        var finding = CheckAssert.Single(Drain("0 -90 -180 -150 -360 -450"), Check, Severity.Stop, "3", "4");
        Assert.Contains("; 4 alone would explain it", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_LegsThatFallTooLittle_AreFoundAsOne()
    {
        var finding = CheckAssert.Single(Drain("0 -90 -105 -115 -125 -215"), Check, Severity.Stop, "3", "4", "2", "5");
        Assert.Equal((10, 40), (finding.From, finding.To));
        Assert.Contains("falls 0.10 ± ", finding.Message, StringComparison.Ordinal);
        CheckAssert.Single(Drain("0 -90 -105 -115 -125 -215", "CHANNEL"), Check, Severity.Look, "3", "4", "2", "5");
    }

    [Fact]
    public void Look_LegsWithinTheirDoubt_AreFoundAsOneLook()
    {
        var finding = CheckAssert.Single(Drain("0 -55 -150 -198 -290"), Check, Severity.Look, "3", "4", "1", "2");
        Assert.Contains("not proven on 2 legs", finding.Message, StringComparison.Ordinal);
        Assert.Contains("u 0.7 mm", finding.Cure, StringComparison.Ordinal); // |0.48 − 0.50| % of 10 m over 2√2
    }

    [Fact]
    public void Look_LevelEnds_IsFoundAsALook() =>
        Assert.Contains("direction of flow", CheckAssert.Single(Drain("0 -2 1"), Check, Severity.Look, "1", "3").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() =>
        Assert.Contains("accuracy not given", CheckAssert.Single(Drain("0 90 180", uHeight: "-"), Check, Severity.Look, "1", "2", "3").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_AgainstTheFlowThatIsSaid_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(Flowing(Drain("0 -90 -180"), "against"), Check, Severity.Stop, "1", "2", "3");
        Assert.Equal(0.9, finding.Measured!.Value, 1e-6);
        CheckAssert.Silent(Flowing(Drain("0 -90 -180"), "along"), Check);
        CheckAssert.Silent(Flowing(Drain("0 90 180"), "against"), Check);
    }

    [Fact]
    public void Look_WholeRunTooFlatThoughNoLegIs_IsFound() =>
        CheckAssert.Single(Drain("0 -42 -84 -126 -168 -210 -252 -294 -336"), Check, Severity.Stop, "1", "9");

    [Theory]
    [InlineData("0 -90 -180 -270")]
    [InlineData("0 90 180 270")]
    [InlineData("0 -90 - -270")]
    [InlineData("0 - -")]
    [InlineData("0 -400 -900")]
    public void Look_RightEitherWay_IsSilent(string heights) => CheckAssert.Silent(Drain(heights), Check);

    /// <summary>Places along the drain in metres and heights in millimetres over 5 m.</summary>
    private static RecordInputs At(params (double Along, double Millimetres)[] shots) => ShotsOf.Lines(string.Join('\n', shots.Select((shot, i) =>
        string.Create(CultureInfo.InvariantCulture, $"{i + 1} {shot.Along} 0 {5 + 0.001 * shot.Millimetres:F4} DRAIN D1 straight u_height=0.002")))) with { Codes = Codes };

    [Theory]
    [InlineData(0.004)]
    [InlineData(0.02)]
    [InlineData(0.4)]
    public void Look_DropShotAboveAndBelow_IsSilent(double apart) => CheckAssert.Silent(At((0, 0), (10, -90), (10 + apart, -700), (20 + apart, -790)), Check);

    /// <summary>The same drain shot upwards, and a leg of centimetres that rises: neither has a fall.</summary>
    [Fact]
    public void Look_ShortLegThatRises_IsSilent()
    {
        CheckAssert.Silent(At((0, -790), (10, -700), (10.02, -90), (20, 0)), Check);
        CheckAssert.Silent(At((0, 0), (10, -90), (10.3, -60), (20, -180)), Check);
        CheckAssert.Silent(At((0, 0), (0.3, -200)), Check);
    }

    [Fact]
    public void Look_LegThatRisesAfterADrop_IsFoundByItsOwnShots()
    {
        var finding = CheckAssert.Single(At((0, 0), (10, -90), (10.02, -700), (20, -610), (30, -790)), Check, Severity.Stop, "3", "4");
        Assert.Equal((10.02, 20), (Math.Round(finding.From!.Value, 6), finding.To!.Value));
    }

    [Fact]
    public void Look_FlatOnBothSidesOfADrop_IsFoundAsOne() =>
        CheckAssert.Single(At((0, 0), (10, -90), (20, -95), (20.02, -700), (30, -704), (40, -800)), Check, Severity.Stop, "4", "5", "2", "3");

    /// <summary>Shots every 0.3 m: legs of two of them.</summary>
    [Fact]
    public void Look_CloseShotsThatRise_IsFound() => Assert.Equal(Severity.Stop, Assert.Single(
        At([.. Enumerable.Range(0, 41).Select(i => (0.3 * i, i < 20 ? -6.0 * i : i < 30 ? -120 + 30.0 * (i - 20) : 180 - 60.0 * (i - 30)))]).Find(Check)).Severity);

    [Fact]
    public void Look_CodeWithoutFall_IsSilent() => CheckAssert.Silent(Drain("0 -90 80", "EDGE"), Check);
}
