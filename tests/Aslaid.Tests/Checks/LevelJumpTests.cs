using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class LevelJumpTests
{
    private const string Check = "level-jump";

    /// <summary>A run of shots 6 m apart at these heights.</summary>
    private static RecordInputs Levels(string code, string heights, string more = "", string also = "") => WithDrain(ShotsOf.Lines(also + string.Join('\n',
        heights.Split(' ').Select((height, i) => string.Create(CultureInfo.InvariantCulture, $"{i + 1} {6 * i} 0 {height} {code} R1 straight {more}")))));

    private static RecordInputs WithDrain(RecordInputs inputs) => inputs with
    {
        Codes = new([.. ShotsOf.Codes.Entries, new("DRAIN", CodeKind.Line) { Service = "storm", ToleranceHeight = 0.05, SpacingMax = 15, FallMinPercent = 0.5, NeedsProof = true, EndsOn = ["DRAIN"] }]),
    };

    [Fact]
    public void Look_OneShotHigh_IsFoundWithItsFigures()
    {
        var finding = CheckAssert.Single(Levels("DUCT", "5 5 5 5.2 5 5 5"), Check, Severity.Look, "4");
        Assert.Equal(0.2, finding.Measured!.Value, 1e-9);
        Assert.Equal("4 on R1 lies 0.200 m ± 0.037 m above the line between its neighbours (from 12.0 m to 24.0 m), limit 0.100 m.", finding.Message);
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_OneShotLowOnADrain_IsFoundAsAStop() => CheckAssert.Single(Levels("DRAIN", "5 4.95 4.9 4.6 4.8 4.75", "u_height=0.004"), Check, Severity.Stop, "4");

    [Fact]
    public void Look_MiddleOfThreeOnADrain_IsFoundAsAStop() => CheckAssert.Single(Levels("DRAIN", "5 4.8 4.9", "u_height=0.004"), Check, Severity.Stop, "2");

    [Fact]
    public void Look_SecondShotLow_IsFoundByOneSide() => CheckAssert.Single(Levels("KERB", "5 4.8 5 5 5 5"), Check, Severity.Look, "2");

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() => CheckAssert.Single(Levels("DRAIN", "5 4.95 4.9 4.6 4.8 4.75", "u_height=-"), Check, Severity.Look, "4");

    [Theory]
    [InlineData("a dropped kerb over two shots", "KERB", "5 5 5 4.88 4.88 5 5 5")]
    [InlineData("a kerb that stays down", "KERB", "5 5 5 4.85 4.85 4.85 4.85")]
    [InlineData("a ramp between levels", "KERB", "5 5 5 5.2 5.4 5.6 5.6 5.6")]
    [InlineData("a summit", "DUCT", "5 5.2 5.4 5.6 5.4 5.2 5")]
    [InlineData("a vertical curve", "DUCT", "5 5.3 5.5 5.6 5.6 5.5 5.3 5")]
    [InlineData("a duct that dips over three shots", "DUCT", "5 5 4.7 4.4 4.4 4.4 4.7 5 5")]
    [InlineData("a duct that rises to a chamber", "DUCT", "5 5 5 5 5.1 5.4")]
    [InlineData("the middle of three", "DUCT", "5 5.3 5")]
    [InlineData("a height missing", "DUCT", "5 5 - 5.4 - 5 5")]
    [InlineData("a code without a tolerance", "EDGE", "5 5 5 6 5 5 5")]
    public void Look_RealShapes_IsSilent(string what, string code, string heights) =>
        Assert.Empty(Levels(code, heights).Find(Check).Select(finding => $"{what}: {finding.Message}"));

    [Fact]
    public void Look_DipUnderAnotherService_IsSilent()
    {
        CheckAssert.Silent(Levels("DUCT", "5 5 5 4.5 5 5 5", also: "91 18.4 -5 5 DUCT R9\n92 18.4 5 5 DUCT R9\n"), Check);
        CheckAssert.Single(Levels("DUCT", "5 5 5 4.5 5 5 5", also: "91 0 -1 5 DUCT R9\n92 10 -1 5 DUCT R9\n93 20 -1 5 DUCT R9\n94 30 -1 5 DUCT R9\n"), Check, Severity.Look, "4"); // beside is not across
    }

    [Fact]
    public void Look_DropAtAChamber_IsSilent() => CheckAssert.Silent(
        WithDrain(ShotsOf.Lines("1 0 0 5 DRAIN R1\n2 6 0 4.95 DRAIN R1\n3 12 0 4.5 CHAMBER\n3 - - - DRAIN R1\n4 18 0 4.85 DRAIN R1\n5 24 0 4.8 DRAIN R1")), Check);

    [Fact]
    public void Look_NeighboursTooFarApart_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 12 0 5 DUCT D1\n3 24 0 5.4 DUCT D1\n4 36 0 5 DUCT D1\n5 48 0 5 DUCT D1"), Check);

    [Fact]
    public void Look_TwiceTheLimit_IsFoundInNinetyNineOfAHundred()
    {
        Assert.InRange(NoisyShots.Sites(200, Check, seed => Profile(seed, "DUCT", 0.2), finding => finding.ShotIds[0] == "11"), 198, 200);
        Assert.InRange(NoisyShots.Sites(200, Check, seed => Profile(seed, "KERB", -0.2), finding => finding.ShotIds[0] == "11"), 198, 200);
    }

    [Fact]
    public void Look_SmoothProfiles_IsFoundInOneOfTwoThousandAtMost() => Assert.InRange(NoisyShots.Sites(2000, Check, seed => Profile(seed, "KERB", 0)), 0, 1);

    /// <summary>A street with a little life in it, shot every 6 m with a receiver; shot 11 off by a jump.</summary>
    private static RecordInputs Profile(int seed, string code, double jump)
    {
        var shots = new NoisyShots(seed, 64);
        var (fall, wave, phase) = (shots.Numbers.Between(-0.05, 0.05), shots.Numbers.Between(0, 0.1), shots.Numbers.Between(0, Math.Tau));
        for (var i = 0; i < 25; i++) shots.Add(code, "R1", 6 * i, 0, 5 + fall * 6 * i + wave * Math.Sin(6 * i / 17.0 + phase) + (i == 10 ? jump : 0));
        return shots.Inputs;
    }

    /// <summary>Five metres in a leg of eight, to the end of the run: its shots agree with one another, and no neighbour shows it.</summary>
    [Fact]
    public void Look_StretchOffByMetresToTheEnd_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(string.Join('\n', Enumerable.Range(1, 8).Select(i => FormattableString.Invariant($"{i} {8 * i} 0 {(i > 4 ? 15.003 : 5.002) + 0.011 * i:F3} DUCT D1")))), "level-jump", Severity.Stop, "4", "5");
        Assert.Contains("rises 10.012 m in 8.000 m from 4 to 5", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_DownAWall_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5.001 DUCT D1\n2 8 0 5.002 DUCT D1\n3 8.9 0 3.003 DUCT D1\n4 17 0 3.002 DUCT D1"), "level-jump");
}
