using System.Globalization;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class CurveByChordsTests
{
    private const string Check = "curve-by-chords";

    /// <summary>A straight of three shots, a curve to the left shot at even steps, a straight of three shots.</summary>
    private static NoisyShots Bend(int seed, string code, double radius, double chord, int chords, double uPlan)
    {
        var shots = new NoisyShots(seed, 61, uPlan);
        var step = 2 * Math.Asin(chord / 2 / radius);
        for (var i = -3; i < 0; i++) shots.Add(code, "R1", 5 * i, 0, 5);
        for (var i = 0; i <= chords; i++) shots.Add(code, "R1", radius * Math.Sin(i * step), radius * (1 - Math.Cos(i * step)), 5);
        var (sin, cos) = Math.SinCos(chords * step);
        for (var i = 1; i <= 3; i++) shots.Add(code, "R1", radius * sin + 5 * i * cos, radius * (1 - cos) + 5 * i * sin, 5);
        return shots;
    }

    /// <summary>2√(2Rs − s²): the table of chord limits that the project's notes on the job give, to the last figure printed.</summary>
    [Theory]
    [InlineData(3, 0.49, 0.77, 1.09, 0.005)]
    [InlineData(10, 0.89, 1.41, 2.00, 0.005)]
    [InlineData(25, 1.41, 2.24, 3.16, 0.005)]
    [InlineData(50, 2.00, 3.16, 4.47, 0.005)]
    [InlineData(100, 2.83, 4.47, 6.32, 0.005)]
    [InlineData(500, 6.3, 10.0, 14.1, 0.05)]
    public void LongestChord_TableOfLimits_IsMet(double radius, double at10, double at25, double at50, double within)
    {
        Assert.Equal(at10, ChordCurves.LongestChord(radius, 0.010), within);
        Assert.Equal(at25, ChordCurves.LongestChord(radius, 0.025), within);
        Assert.Equal(at50, ChordCurves.LongestChord(radius, 0.050), within);
    }

    [Fact]
    public void Sagitta_OfTheLongestChord_IsTheOneAskedFor() => Gen.Select(Gen.Double[0.5, 500], Gen.Double[0.001, 0.4]).Sample((radius, sagitta) =>
    {
        var chord = ChordCurves.LongestChord(radius, sagitta);
        Assert.Equal(sagitta, ChordCurves.Sagitta(radius, chord), 1e-9);
        if (sagitta < radius / 50) Assert.Equal(8 * sagitta * sagitta / 3 / chord, ChordCurves.Lost(radius, chord), 0.02 * ChordCurves.Lost(radius, chord)); // 8s²/3c
    });

    /// <summary>GEOS, tests/unit/algorithm/LineToCurveConverterTest.cpp: five vertices at 45° are one semicircle.</summary>
    [Fact]
    public void Look_PublishedVertices_IsFoundAndMadeTheirArc()
    {
        var published = Reference.Json("07_curve_length_area.json").GetProperty("arc_detection");
        Assert.Contains("GEOS", published.GetProperty("source").GetString(), StringComparison.Ordinal);
        var vertices = published.GetProperty("input").GetString()!["LINESTRING(".Length..^1].Split(',');
        var inputs = ShotsOf.Lines(string.Join('\n', vertices.Select((at, i) => $"{i + 1} {at} 5 KERB K1")));
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "1", "2", "3", "4", "5");
        Assert.Equal(100, finding.Figures[0], published.Number("radius_tolerance"));
        CheckAssert.CuredByItsCorrection(inputs, Check);
        var arc = Derivation.Derive(inputs.Then(finding.Correction!)).Runs[0].Piece(0).Arc;
        Assert.Equal(0, arc.MidPoint.DistanceTo(new Point2(ShotsOf.East + 100, ShotsOf.North + 100)), published.Number("radius_tolerance"));
    }

    [Fact]
    public void Look_KerbReturnByChords_IsFoundWithItsFigures()
    {
        var inputs = Bend(1, "KERB", 6, 1.2, 5, 0.001).Inputs;
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "4", "5", "6", "7", "8", "9");
        Assert.Equal(1.2 * 1.2 / 8 / 6, finding.Measured!.Value, 0.002);
        Assert.Equal(0.010, finding.Allowed);
        Assert.StartsWith("R1 from 15.0 m to 21.0 m is a curve of radius ", finding.Message, StringComparison.Ordinal);
        Assert.Contains(" measured as 5 chords (4, 5, 6, 7, 8, 9): sagitta lost 0.03", finding.Message, StringComparison.Ordinal);
        Assert.StartsWith("Shoot 5 more through-shots between 4 and 9, no chord over 0.69 m, or make it an arc", finding.Cure, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_SharpDuctBendByChords_IsFoundAsAStop() => CheckAssert.Single(Bend(1, "DUCT", 4, 1.5, 4, 0.005).Inputs, Check, Severity.Stop, "4", "5", "6", "7", "8");

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() => CheckAssert.Single(
        ShotsOf.Lines("1 0 0 5 DUCT D1 straight u_plan=-\n2 4 0 5 DUCT D1 straight u_plan=-\n3 7.464 2 5 DUCT D1 straight u_plan=-\n4 9.464 5.464 5 DUCT D1 straight u_plan=-"),
        Check, Severity.Look, "1", "2", "3", "4");

    [Fact]
    public void Look_ACircleByEightShots_IsFoundAndMadeACircle()
    {
        var around = Enumerable.Range(0, 8).Select(i => string.Create(CultureInfo.InvariantCulture, $"{i + 1} {4 * Math.Cos(i * Math.PI / 4):F4} {4 * Math.Sin(i * Math.PI / 4):F4} 5 KERB K1"));
        var inputs = ShotsOf.Lines(string.Join('\n', [.. around, "1 - - - KERB K1"]));
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal(9, finding.Shots.Length);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        Assert.True(Derivation.Derive(inputs.Then(finding.Correction!)).Runs[0].Piece(0).Arc.IsFullCircle);
    }

    [Fact]
    public void Look_JointedPipesOnACurve_IsFoundAsALookAtMost()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1\n2 6 0.3 5 DUCT D1\n3 12 1.2 5 DUCT D1\n4 18 2.7 5 DUCT D1\n5 24 4.8 5 DUCT D1");
        CheckAssert.Single(inputs, Check, Severity.Look, "1", "2", "3", "4", "5");
    }

    [Fact]
    public void Look_PipesThatTurnByTwoDegrees_IsFoundAsANote()
    {
        var shots = new NoisyShots(1, 66, 0.002);
        for (var i = 0; i <= 8; i++) shots.Add("DUCT", "D1", 170 * Math.Sin(6 * i / 170.0), 170 * (1 - Math.Cos(6 * i / 170.0)), 5);
        Assert.Equal(Severity.Note, Assert.Single(shots.Inputs.Find(Check)).Severity);
    }

    [Theory]
    [InlineData("a rectangle", "1 0 0 5 KERB K1\n2 8 0 5 KERB K1\n3 8 6 5 KERB K1\n4 0 6 5 KERB K1\n5 0 0.2 5 KERB K1")]
    [InlineData("a bay with corners", "1 0 0 5 KERB K1\n2 6 0 5 KERB K1\n3 12 0 5 KERB K1\n4 14.6 1.5 5 KERB K1\n5 14.6 4.5 5 KERB K1\n6 14.6 10.5 5 KERB K1\n7 14.6 16.5 5 KERB K1")]
    [InlineData("a bay with three corners", "1 0 0 5 KERB K1\n2 6 0 5 KERB K1\n3 12 0 5 KERB K1\n4 14.6 1.5 5 KERB K1\n5 16.1 4.1 5 KERB K1\n6 16.1 10.1 5 KERB K1\n7 16.1 16.1 5 KERB K1")]
    [InlineData("left and right", "1 0 0 5 KERB K1\n2 4 0 5 KERB K1\n3 8 1 5 KERB K1\n4 12 1 5 KERB K1\n5 16 0 5 KERB K1\n6 20 0 5 KERB K1")]
    [InlineData("a code without a limit", "1 0 0 5 EDGE E1\n2 4 0 5 EDGE E1\n3 7.464 2 5 EDGE E1\n4 9.464 5.464 5 EDGE E1")]
    [InlineData("a spiral", "1 0 0 5 KERB K1\n2 8 0 5 KERB K1\n3 14 2 5 KERB K1\n4 17 5 5 KERB K1\n5 17.5 7 5 KERB K1\n6 17 8 5 KERB K1")]
    public void Look_OtherShapes_IsSilent(string what, string lines) => Assert.Empty(ShotsOf.Lines(lines).Find(Check).Select(finding => $"{what}: {finding.Message}"));

    [Fact]
    public void Look_ChordsWithinTheLimit_IsSilent() => CheckAssert.Silent(Bend(1, "DUCT", 20, 1.9, 6, 0.003).Inputs, Check);

    [Fact]
    public void Look_TrueArc_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 3 1 5 KERB K1 through\n3 5 3.5 5 KERB K1 through\n4 6 7 5 KERB K1"), Check);

    [Fact]
    public void Look_TwiceTheLimit_IsFoundInNinetyNineOfAHundred()
    {
        foreach (var (code, radius, limit) in new[] { ("KERB", 8.0, 0.010), ("KERB", 40.0, 0.010), ("DUCT", 5.0, 0.025), ("DUCT", 60.0, 0.025) })
            Assert.InRange(NoisyShots.Sites(200, Check, seed => Bend(seed, code, radius, ChordCurves.LongestChord(radius, 2 * limit), 5, 0.012).Inputs), 198, 200);
    }

    [Fact]
    public void Look_StraightOrWithinTheLimit_IsFoundInNoneOfTwoThousand() => Assert.Equal(0, NoisyShots.Sites(2000, Check, seed =>
    {
        var shots = new NoisyShots(seed, 62);
        var radius = shots.Numbers.Between(500, 5000); // at 4 m: 4 mm at most
        for (var i = 0; i < 25; i++) shots.Add("KERB", "K1", radius * Math.Sin(4 * i / radius), radius * (1 - Math.Cos(4 * i / radius)), 5);
        return shots.Inputs;
    }));
}
