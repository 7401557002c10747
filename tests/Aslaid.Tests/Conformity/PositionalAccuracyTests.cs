using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class PositionalAccuracyTests
{
    private static readonly Gen<double[]> Differences = Gen.Double[-0.1, 0.1].Array[1, 40];

    [Fact]
    public void Misfits_AnyDifferences_RmseIsAboutTheKnownValue() => Differences.Sample(differences =>
        Assert.Equal(Math.Sqrt(differences.Average(difference => difference * difference)), Misfits.Of(differences).Rmse, 1e-12));

    [Fact]
    public void Misfits_Moved_MoveTheMeanAlone() => Differences.Sample(differences =>
    {
        var (here, there) = (Misfits.Of(differences), Misfits.Of([.. differences.Select(difference => difference + 6_243_000)]));
        Assert.Equal(here.Mean + 6_243_000, there.Mean, 1e-8);
        Assert.Equal(here.RmsAboutMean, there.RmsAboutMean, 1e-8);
    });

    [Fact]
    public void Misfits_OfOne_HaveNoDeviation()
    {
        var one = Misfits.Of([0.02]);
        Assert.Equal((0.02, null, 0.0, 0.02), (one.Mean, one.Sd, one.RmsAboutMean, one.Rmse));
        Assert.Throws<ArgumentException>(() => Misfits.Of([]));
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.5, 2.5)]
    [InlineData(0.75, 3.25)]
    [InlineData(1, 4)]
    public void Percentile_IsLinearBetweenNeighbours(double share, double expected) => Assert.Equal(expected, Misfits.Percentile([4, 1, 3, 2], share), 1e-12);

    [Theory] // NSSDA: between ratios of 0.6 and 1, else not by this rule
    [InlineData(0.010, 0.010, 2.4477 * 0.010)]
    [InlineData(0.006, 0.010, 2.4477 * 0.008)]
    [InlineData(0.010, 0.0059, null)]
    [InlineData(0, 0, 0.0)]
    public void PlanOf_UnequalAxes_FollowsTheRule(double east, double north, double? expected)
    {
        var plan = PositionalAccuracy.PlanOf(east, north);
        Assert.Equal(expected.HasValue, plan.HasValue);
        Assert.Equal(expected ?? 0, plan ?? 0, 1e-6);
    }

    [Fact]
    public void Circle95_Turned_IsTheSame() => Gen.Select(Gen.Double[0.001, 0.05], Gen.Double[0.001, 0.05], Gen.Double[0, Math.PI]).Sample((a, b, turn) =>
    {
        var (sin, cos) = (Math.Sin(turn), Math.Cos(turn));
        var (east, north) = (Math.Sqrt(a * a * cos * cos + b * b * sin * sin), Math.Sqrt(a * a * sin * sin + b * b * cos * cos));
        var turned = new ErrorEllipse(east, north, (a * a - b * b) * sin * cos / (east * north));
        Assert.Equal(new ErrorEllipse(a, b, 0).Circle95, turned.Circle95, 1e-9);
    });

    [Theory] // a line and a circle, where 95 % is known
    [InlineData(0, 1.959964)]
    [InlineData(1, 2.447747)]
    public void Circle95_LineAndCircle_IsNearTheTruth(double shorter, double expected) =>
        Assert.InRange(new ErrorEllipse(1, shorter, 0).Circle95 / expected, 1, 1.00125);

    [Fact]
    public void OfCheckShots_TwoSessions_SaysWhatEachShows()
    {
        var inputs = ShotsOf.Lines("""
            --- North
            1 0.010 0 5.020 CONTROL - - note=M1
            2 100.010 0 5.010 CONTROL - - note=M2
            3 0.010 50.006 - CONTROL - - note=M3
            4 9 9 5 GROUND
            --- South
            1 0 -0.020 4.990 CONTROL - - note=M1
            """).WithControl(("M1", 0, 0, 5), ("M2", 100, 0, 5), ("M3", 0, 50, 5));
        var found = PositionalAccuracy.OfCheckShots(Derivation.Derive(inputs).Site);
        Assert.Equal(2, found.Length);
        var (north, south) = (found[0].Accuracy, found[1].Accuracy);
        Assert.Equal((3, 2), (north.East.Count, north.Height!.Value.Count));
        Assert.Equal(0.010, north.East.Mean, 1e-9);
        Assert.Equal(0.002, north.North.Mean, 1e-9);
        Assert.Equal(0.015, north.Height!.Value.Mean, 1e-9);
        Assert.Equal(Math.Sqrt((0.0001 * 3 + 0.000036) / 3), north.RmsePlan, 1e-9);
        Assert.Equal(Math.Sqrt((0.0004 + 0.0001) / 2) * 1.959964, north.Height95!.Value, 1e-7);
        Assert.Null(north.Plan95); // 3.5 mm against 10 mm: the axes differ too much for the rule
        Assert.InRange(north.Circle95, 0.0196, 0.0245);
        Assert.Equal(1, south.North.Count);
        Assert.Equal(0.020, south.RmsePlan, 1e-9);
    }

    [Fact]
    public void OfCheckShots_None_IsEmpty() => Assert.Empty(PositionalAccuracy.OfCheckShots(Derivation.Derive(ShotsOf.Lines("1 0 0 5 GROUND")).Site));
}
