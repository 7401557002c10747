using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class MeasuresTests
{
    private static readonly double[] Still = new double[3 * MeasureScene.Count];

    public static TheoryData<string> Names => [.. MeasureScene.Measures.Keys];

    /// <summary>A scene turned and shaken by up to 0.2 m, and a way in which all shots move at once.</summary>
    private static readonly Gen<(double Turn, double[] Shake, double[] Way)> Scenes =
        Gen.Select(Gen.Double[0, double.Tau], Gen.Double[-0.2, 0.2].Array[Still.Length], Gen.Double[-1, 1].Array[Still.Length]);

    [Fact]
    public void Gradient_OfEveryMeasure_AgreesWithDifferences() => Scenes.Sample(scene =>
    {
        const double h = 1.0 / 2048;
        var (middle, up, down) = (At(0), At(h), At(-h));
        var compared = 0;
        foreach (var (name, measure) in MeasureScene.Measures)
        {
            if (measure(middle) is not { } here || measure(up) is not { } after || measure(down) is not { } before) continue;
            var (derivative, gain) = (0.0, 0.0);
            foreach (var term in here.Gradient)
            {
                derivative += term.East * scene.Way[3 * term.Shot] + term.North * scene.Way[3 * term.Shot + 1] + term.Height * scene.Way[3 * term.Shot + 2];
                gain += Math.Abs(term.East) + Math.Abs(term.North) + Math.Abs(term.Height);
            }

            var difference = (after.Value - before.Value) / (2 * h);
            Assert.True(Math.Abs(difference - derivative) < 2e-5 * (1 + gain), $"{name}: {derivative}, by differences {difference}");
            compared++;
        }

        Assert.True(compared >= MeasureScene.Measures.Count - 2, $"Only {compared} measures were compared.");

        AsBuiltRecord At(double step) => MeasureScene.Of(scene.Turn, [.. scene.Shake.Select((shake, i) => shake + step * scene.Way[i])]);
    }, iter: 100);

    [Theory]
    [MemberData(nameof(Names))]
    public void Gradient_OfEveryMeasure_IsThere(string name)
    {
        var measure = MeasureScene.Measures[name](MeasureScene.AsDrawn);
        Assert.NotNull(measure);
        Assert.NotNull(measure.U(MeasureScene.AsDrawn.Shots));
    }

    // A shift of everything changes no length, angle or height difference; only a chainage could, and does not either.
    [Theory]
    [MemberData(nameof(Names))]
    public void Gradient_OfEveryMeasure_AnswersToNoShiftOfTheSite(string name)
    {
        var gradient = MeasureScene.Measures[name](MeasureScene.AsDrawn)!.Gradient;
        Assert.Equal(0, gradient.Sum(term => term.East), 1e-8);
        Assert.Equal(0, gradient.Sum(term => term.North), 1e-8);
        Assert.Equal(0, gradient.Sum(term => term.Height), 1e-12);
    }

    [Fact]
    public void TangentBreak_SquareTurns_AreRightPositive()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE A\n2 0 9 5 EDGE A\n3 9 9 5 EDGE A\n4 9 18 5 EDGE A")).Runs[0];
        Assert.Equal(Math.PI / 2, Measures.TangentBreak(run, 0)!.Value, 1e-12);
        Assert.Equal(-Math.PI / 2, Measures.TangentBreak(run, 1)!.Value, 1e-12);
        Assert.Null(Measures.TangentBreak(run, 2));
    }

    // Tangent by construction: a quarter turn of radius 4 m to the left between its straights.
    [Fact]
    public void TangentBreak_TangentArc_IsNone()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE A\n2 6 0 5 EDGE A\n3 8.82842712474619 1.17157287525381 5 EDGE A through\n4 10 4 5 EDGE A\n5 10 9 5 EDGE A")).Runs[0];
        Assert.Equal(0, Measures.TangentBreak(run, 0)!.Value, 1e-8);
        Assert.Equal(0, Measures.TangentBreak(run, 1)!.Value, 1e-8);
        Assert.Equal(4, Measures.Radius(run.Piece(1))!.Value, 1e-8);
        Assert.Equal(Math.PI / 2, Measures.Sweep(run.Piece(1))!.Value, 1e-8);
        Assert.Null(Measures.Radius(run.Piece(0)));
    }

    [Fact]
    public void Fall_Downwards_IsPositive()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE A\n2 10 0 4.9 EDGE A\n3 20 0 - EDGE A\n4 30 0 4.95 EDGE A")).Runs[0];
        Assert.Equal(0.01, Measures.Fall(run, 0, 1)!.Value, 1e-12);
        Assert.Equal(-0.0025, Measures.Fall(run, 1, 3)!.Value, 1e-12);
        Assert.Equal(0.05 / 30, Measures.Fall(run)!.Value, 1e-12);
        Assert.Null(Measures.Fall(run, 1, 2));
        Assert.Null(Measures.Fall(run, 1, 1));
    }

    // as-built-job, "Provable fall" [calc]: 2√2·u_z/L is 0.14 % for 5 mm over 10 m, 0.03 % over 50 m; 20 mm: 0.57 % and 0.11 %.
    [Theory]
    [InlineData(0.005, 10, 0.0014)]
    [InlineData(0.005, 50, 0.0003)]
    [InlineData(0.020, 10, 0.0057)]
    [InlineData(0.020, 50, 0.0011)]
    public void Fall_LevelHeightsOfOneSession_HaveTheUncertaintyOfTheRule(double uHeight, double length, double expected)
    {
        var shots = FormattableString.Invariant($"1 0 0 5 EDGE A straight u_height={uHeight}\n2 {length} 0 5 EDGE A straight u_height={uHeight}");
        var record = Derivation.Derive(ShotsOf.Lines(shots));
        Assert.Equal(expected, 2 * Measures.Fall(record.Runs[0])!.U(record.Shots)!.Value, 0.06 * expected);
    }

    [Fact]
    public void Offset_LeftAndRight_HaveTheirSigns()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE A\n2 0 10 5 EDGE A\n3 2 4 5.5 GROUND\n4 -3 7 - GROUND\n5 0 10 5 GROUND"));
        Assert.Equal(2, Measures.Offset(record.Runs[0], 2)!.Value, 1e-9);
        Assert.Equal(-3, Measures.Offset(record.Runs[0], 3)!.Value, 1e-9);
        Assert.Equal(7, Measures.Chainage(record.Runs[0], 3)!.Value, 1e-9);
        Assert.Equal(0.5, Measures.HeightAbove(record.Runs[0], 2)!.Value, 1e-9);
        Assert.Null(Measures.HeightAbove(record.Runs[0], 3));
    }

    [Fact]
    public void Cover_SurfaceAboveACrown_IsTheirDifference()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 4 EDGE A\n2 10 0 4 EDGE A\n3 5 -1 5 GROUND\n4 5 3 5.4 GROUND\n5 9 0 5.2 GROUND\n6 5 0 - GROUND"));
        var run = record.Runs[0];
        Assert.Equal(1, Measures.Cover(run, 5, [2], 0)!.Value, 1e-9);
        Assert.Equal(1.1, Measures.Cover(run, 5, [2, 3], 0)!.Value, 1e-9);
        Assert.Equal(1.1 - 0.05, Measures.Cover(run, 5, [2, 3, 4], 0.05)!.Value, 1e-9);
        Assert.Null(Measures.Cover(run, 5, [2, 5], 0));
        Assert.Null(Measures.Cover(run, 1, [2, 3, 4], 0));
    }

    [Fact]
    public void SeparationAndGap_ParallelAndCrossing_AreTheirDistances()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE A\n2 10 0 5 EDGE A\n3 0 2 5 EDGE B\n4 10 2 5 EDGE B\n5 4 -3 3 EDGE C\n6 4 5 3.8 EDGE C"));
        var (a, b, c) = (record.Runs[0], record.Runs[1], record.Runs[2]);
        Assert.Equal(1.9, Measures.Separation(a, b, 0.1)!.Value, 1e-9);
        Assert.Null(Measures.Separation(a, c, 0.1));
        Assert.Equal(5 - 3.3 - 0.1, Measures.Gap(a, c, Assert.Single(a.Path.Intersections(c.Path, 1e-6)), 0.1)!.Value, 1e-9);
    }
}
