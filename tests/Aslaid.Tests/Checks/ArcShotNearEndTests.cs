using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ArcShotNearEndTests
{
    private const string Check = "arc-shot-near-end";

    /// <summary>A quarter turn of a radius, its through-shot at a share of the sweep.</summary>
    private static RecordInputs Quarter(double radius, double share, string more = "")
    {
        var (sin, cos) = Math.SinCos(share * Math.PI / 2);
        return ShotsOf.Lines(string.Create(CultureInfo.InvariantCulture, $"""
            1 -6 0 5 KERB K1
            2 0 0 5 KERB K1 straight {more}
            3 {radius * sin:F4} {radius * (1 - cos):F4} 5 KERB K1 through {more}
            4 {radius} {radius} 5 KERB K1 straight {more}
            """));
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.2)]
    [InlineData(0.85)]
    public void Look_OutsideTheMiddleHalf_IsFound(double share)
    {
        var finding = CheckAssert.Single(Quarter(8, share), Check, share == 0.1 ? Severity.Stop : Severity.Look, "3", "2", "4");
        Assert.Equal(share, finding.Measured!.Value, 1e-4);
    }

    [Fact]
    public void Look_GoodShots_IsFoundAsALook() => CheckAssert.Single(Quarter(8, 0.1, "u_plan=0.004"), Check, Severity.Look, "3", "2", "4");

    [Theory]
    [InlineData(0.26)]
    [InlineData(0.5)]
    [InlineData(0.74)]
    public void Look_InTheMiddleHalf_IsSilent(double share) => CheckAssert.Silent(Quarter(8, share), Check);

    [Fact]
    public void Look_MadeStraight_IsSilent() => CheckAssert.Silent(
        Quarter(8, 0.1).Then(new PathSet("KERB/K1", null, [new(new(1, 2), false), new(new(1, 3), false), new(new(1, 4), false), new(new(1, 5), false)])), Check);

    /// <summary>The flat-arc formula of the page: gains b/(4t(1−t)), 1/2 − 1/(4t), 1/2 − 1/(4(1−t)).</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.2)]
    [InlineData(0.1)]
    public void UMiddle_FlatArc_IsThatOfTheParabola(double t)
    {
        const double chord = 20, sagitta = 0.4, sigma = 0.01;
        var b = string.Create(CultureInfo.InvariantCulture, $"{chord * t} {4 * t * (1 - t) * sagitta}");
        var u = string.Create(CultureInfo.InvariantCulture, $"u_plan={sigma * Math.Sqrt(2):R}");
        var inputs = ShotsOf.Lines($"1 0 0 5 EDGE E1 straight {u}\n2 {b} 5 EDGE E1 through {u}\n3 {chord} 0 5 EDGE E1 straight {u}");
        var (gain, from, to) = (1 / (4 * t * (1 - t)), 0.5 - 1 / (4 * t), 0.5 - 1 / (4 * (1 - t)));
        var expected = sigma * Math.Sqrt(gain * gain + from * from + to * to);
        if (t == 0.5) CheckAssert.Silent(inputs, Check);
        else Assert.Equal(1.960 * expected, Assert.Single(inputs.Find(Check)).Figures[0], 0.02 * expected); // 2 %: the arc is no parabola
    }
}
