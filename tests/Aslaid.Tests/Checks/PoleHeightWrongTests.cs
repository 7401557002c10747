using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class PoleHeightWrongTests
{
    private const string Check = "pole-height-wrong";

    /// <summary>A duct and, elsewhere and after it, a kerb, every 6 m; shots of a range of ids off in height by a step, with a pole as entered.</summary>
    private static RecordInputs Street(int seed, double off, int first, int last, Func<int, string> more, double uHeight = 0.015, int each = 20)
    {
        var shots = new NoisyShots(seed, 65, 0.012, uHeight);
        var (fall, wave, phase) = (shots.Numbers.Between(-0.03, 0.03), shots.Numbers.Between(0, 0.05), shots.Numbers.Between(0, Math.Tau));
        for (var i = 0; i < each; i++) Add("DUCT", "D1", 6 * i, 0);
        for (var i = 0; i < each; i++) Add("KERB", "K1", 6 * (each - i), 40);
        return shots.Inputs;

        void Add(string code, string label, double east, double north)
        {
            var id = shots.Last + 1;
            shots.Add(code, label, east, north, 5 + fall * east + wave * Math.Sin(east / 25 + phase) + (id >= first && id <= last ? off : 0), more(id));
        }
    }

    private static string None(int id) => "";

    [Fact]
    public void Look_PoleEnteredAnewByAsMuch_IsFoundAsALookThatSaysBoth()
    {
        var inputs = Street(1, 0.2, 8, 14, id => id is >= 8 and <= 14 ? "pole=1.8" : "pole=2");
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "8", "9", "10", "11", "12", "13", "14");
        Assert.Equal(0.2, finding.Measured!.Value, 1e-9);
        Assert.StartsWith("Heights of 7 shots (8 to 14) step up by 0.200 m ± 0.0", finding.Message, StringComparison.Ordinal);
        Assert.EndsWith(", least step " + Metres(finding.Allowed) + ": either they are too high (pole entered 1.800 m, 2.000 m would fit), or the thing lies so and the pole was changed to reach it."
            + " D1 steps there and back, the pole entered changes by as much; nothing else confirms it.", finding.Message, StringComparison.Ordinal);
        Assert.Contains("if the thing lies so, leave it", finding.Cure, StringComparison.Ordinal);
        var correction = Assert.IsType<PoleHeightCorrected>(finding.Correction);
        Assert.Equal((1.8, 2.0), (correction.Entered, correction.True));
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    /// <summary>A trench that goes 0.4 m deeper for a while, or from there on, and a crew that draws the pole out by as much: every height is right.</summary>
    [Theory]
    [InlineData(14)]
    [InlineData(20)]
    public void Look_PoleDrawnOutInADeeperTrench_IsFoundInNoneAsAStop(int last) =>
        Assert.Equal(0, NoisyShots.Sites(200, Check, seed => Street(seed, -0.4, 8, last, id => id >= 8 && id <= last ? "pole=2.4" : "pole=2"), finding => finding.Severity == Severity.Stop));

    [Fact]
    public void Look_PoleEnteredAnewAndACheckShotWithin_IsFoundAsAStop()
    {
        var inputs = WithPole(5.25, "90 0 40 5.25 CONTROL - - note=M1 pole=1.75").WithControl(("M1", 0, 40, 5));
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal((Severity.Stop, 0.25), (finding.Severity, finding.Measured));
        Assert.EndsWith("the pole entered changes by as much, confirmed by check shots or places shot again: 1.", finding.Message, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_PoleEnteredAnewAndAnotherRunSteps_IsFoundAsAStop()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 24).Select(i =>
        {
            var (height, pole) = i >= 12 ? (5.25, 1.75) : (5, 2.0);
            return FormattableString.Invariant($"{2 * i - 1} {6 * i} 0 {height} DUCT D1 straight pole={pole}\n{2 * i} {6 * i} 9 {height} KERB K1 straight pole={pole}");
        }));
        Assert.Contains(ShotsOf.Lines(lines).Find(Check), finding => finding.Severity == Severity.Stop);
        Assert.All(ShotsOf.Lines(lines.Replace(" 9 ", " 0.5 ", StringComparison.Ordinal)).Find(Check), finding => Assert.Equal(Severity.Look, finding.Severity)); // one trench
    }

    [Fact]
    public void Look_PoleEnteredAnewAndAGoodCheckShotWithin_IsSilent() =>
        CheckAssert.Silent(WithPole(5.25, "90 0 40 5 CONTROL - - note=M1 pole=1.75").WithControl(("M1", 0, 40, 5)), Check);

    /// <summary>A duct whose shots 8 to 16 lie at another height by another pole, and a shot after the twelfth.</summary>
    private static RecordInputs WithPole(double height, string more) => ShotsOf.Lines("91 0 40 5 CONTROL - - note=M1 pole=2\n" + string.Join('\n', Enumerable.Range(1, 24).Select(i =>
        FormattableString.Invariant($"{i} {6 * i} 0 {(i is >= 8 and <= 16 ? height : 5)} DUCT D1 straight pole={(i is >= 8 and <= 16 ? 1.75 : 2)}") + (i == 12 ? "\n" + more : ""))));

    [Fact]
    public void Look_SpanFromOneRunIntoAnother_IsFoundAndCured()
    {
        var inputs = Street(2, -0.3, 12, 29, None);
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal((Severity.Look, 18, "12", "29"), (finding.Severity, finding.Shots.Length, finding.ShotIds[0], finding.ShotIds[^1]));
        Assert.Equal(0.3, finding.Measured!.Value, 0.06);
        Assert.Contains("too low", finding.Message, StringComparison.Ordinal);
        Assert.Contains("pole not recorded, 2.000 m taken", finding.Message, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_CheckShotWithinTheSpanAgrees_IsFoundAsAStop()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 24).Select(i => FormattableString.Invariant($"{i} {6 * i} 0 {(i is >= 8 and <= 16 ? 5.25 : 5)} DUCT D1") + (i == 12 ? "\n90 0 40 5.25 CONTROL - - note=M1" : "")));
        var inputs = ShotsOf.Lines("91 0 40 5 CONTROL - - note=M1\n" + lines).WithControl(("M1", 0, 40, 5));
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains("90", finding.ShotIds);
        Assert.EndsWith("D1 steps there and back, confirmed by check shots or places shot again: 1.", finding.Message, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        CheckAssert.Silent(inputs.Then(finding.Correction!), "control-missed");
    }

    [Fact]
    public void Look_StepToTheEndAndAPlaceShotAgain_IsFoundAsAStop()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 20).Select(i => FormattableString.Invariant($"{i} {6 * i} 0 {(i >= 12 ? 5.25 : 5)} DUCT D1")));
        var inputs = ShotsOf.Lines("91 0 40 5 GROUND\n" + lines + "\n92 0.01 40 5.25 GROUND");
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal((Severity.Stop, "12", "92"), (finding.Severity, finding.ShotIds[0], finding.ShotIds[^1]));
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_ThereAndBackInOneRun_IsFoundAsALook() => Assert.Equal(Severity.Look, Assert.Single(Street(3, 0.3, 7, 14, None).Find(Check)).Severity);

    [Fact]
    public void Look_CheckShotWithinTheSpanIsGood_IsSilent()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 24).Select(i => FormattableString.Invariant($"{i} {6 * i} 0 {(i is >= 8 and <= 16 ? 5.25 : 5)} DUCT D1") + (i == 12 ? "\n90 0 40 5 CONTROL - - note=M1" : "")));
        CheckAssert.Silent(ShotsOf.Lines(lines).WithControl(("M1", 0, 40, 5)), Check);
    }

    [Fact]
    public void Look_ServiceThatDipsUnderAnother_IsSilent()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 24).Select(i => FormattableString.Invariant($"{i} {6 * i} 0 {(i is >= 8 and <= 16 ? 4.6 : 5)} DUCT D1")));
        Assert.Single(ShotsOf.Lines(lines).Find(Check));
        CheckAssert.Silent(ShotsOf.Lines(lines + "\n51 63 -8 5 DUCT D2\n52 63 8 5 DUCT D2"), Check);
    }

    [Fact]
    public void Look_DroppedKerbByFaceAndBack_IsSilent()
    {
        var lines = string.Join('\n', Enumerable.Range(0, 20).Select(i =>
        {
            var height = i is >= 8 and <= 14 ? 4.9 : 5;
            return FormattableString.Invariant($"{2 * i + 1} {3 * i} 0 {height} KERB K1 straight u_height=0.003\n{2 * i + 2} {3 * i} 0.15 {height} EDGE B1 straight u_height=0.003");
        }));
        Assert.All(ShotsOf.Lines(lines).Find(Check), finding => Assert.Equal(Severity.Look, finding.Severity));
        var four = lines.Replace(" 4.9 ", " 5 ", StringComparison.Ordinal).Split('\n').Select((line, i) => i is >= 16 and <= 23 ? line.Replace(" 5 ", " 4.9 ", StringComparison.Ordinal) : line);
        CheckAssert.Silent(ShotsOf.Lines(string.Join('\n', four)), Check);
    }

    [Theory]
    [InlineData("one shot", "5 5 5 5 5.3 5 5 5 5 5")]
    [InlineData("a kerb that stays down", "5 5 5 5 5 4.7 4.7 4.7 4.7 4.7")]
    [InlineData("a ramp up and down", "5 5 5.1 5.2 5.3 5.3 5.3 5.2 5.1 5 5 5")]
    [InlineData("a height missing", "5 5 5 - 5.3 5.3 5.3 5.3 5.3 - 5 5 5")]
    public void Look_RealShapes_IsSilent(string what, string heights) => Assert.Empty(ShotsOf.Lines(string.Join('\n',
        heights.Split(' ').Select((height, i) => FormattableString.Invariant($"{i + 1} {6 * i} 0 {height} DUCT D1")))).Find(Check).Select(finding => $"{what}: {finding.Message}"));

    [Fact]
    public void Look_PoleChangedAndEntered_IsSilent() => CheckAssert.Silent(Street(1, 0, 8, 14, id => id is >= 8 and <= 14 ? "pole=1.8" : "pole=2"), Check);

    [Fact]
    public void Look_NoAccuracyGiven_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines(string.Join('\n', Enumerable.Range(1, 24).Select(i => FormattableString.Invariant($"{i} {6 * i} 0 {(i is >= 8 and <= 16 ? 5.25 : 5)} DUCT D1 straight u_height=-")))), Check);

    [Fact]
    public void Look_TwiceTheLeastStep_IsFoundInNinetyNineOfAHundred()
    {
        const double least = 4.5 * 1.71 * 0.015; // by three shots on each side
        Assert.InRange(NoisyShots.Sites(200, Check, seed => Street(seed, 2 * least, 8, 30, None), finding => finding.ShotIds[0] == "8" && finding.ShotIds[^1] == "30"), 198, 200);
        Assert.InRange(NoisyShots.Sites(200, Check, seed => Street(seed, -2 * least, 8, 14, id => id is >= 8 and <= 14 ? "pole=2.23" : "pole=2"), finding => finding.ShotIds[0] == "8" && finding.ShotIds[^1] == "14"), 198, 200);
    }

    [Fact]
    public void Look_SmoothProfiles_IsFoundInNoneOfTwoThousand() => Assert.Equal(0, NoisyShots.Sites(2000, Check, seed => Street(seed, 0, 0, 0, None)));

    [Fact]
    public void Look_TwoRunsElsewhereStepAtOnce_IsFoundAsAStop()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 24).Select(i =>
        {
            var height = i is >= 8 and <= 16 ? 5.25 : 5;
            return FormattableString.Invariant($"{2 * i - 1} {6 * i} 0 {height} DUCT D1\n{2 * i} {6 * i} 9 {height} KERB K1");
        }));
        var finding = Assert.Single(ShotsOf.Lines(lines).Find(Check));
        Assert.Equal(Severity.Stop, finding.Severity);
    }

    private static string Metres(double? metres) => metres!.Value.ToString("0.000", System.Globalization.CultureInfo.InvariantCulture) + " m";
}
