using System.Globalization;

namespace Aslaid.Tests;

public class ProfileTests
{
    /// <summary>Two grades about a vertical curve of length L.</summary>
    private static Profile Parabola(double g1, double g2, double length, double chainage, double height) => Made(
        new(chainage - length, height - g1 * length), new(chainage, height, VerticalCurveKind.Parabola, length / 2, length / 2), new(chainage + length, height + g2 * length));

    private static Profile Made(params ProfilePoint[] points) => Profile.TryOf(points, out var profile, out var fault) ? profile : throw new InvalidOperationException(fault);

    /// <summary>J. Mahun, Open Access Surveying Library, vertical curves, example 2.</summary>
    [Fact]
    public void Stations_SagOfTheLibrary_HasItsLowPoint()
    {
        var profile = Parabola(-0.035, 0.02, 400, 1217.53, 634.25);
        var low = Assert.Single(profile.Stations(), station => Math.Abs(station - 1272.07) < 0.01);
        Assert.Equal(636.80, profile.HeightAt(low)!.Value, 0.01);
        Assert.Equal(641.25, profile.HeightAt(1017.53)!.Value, 1e-9);
        Assert.Equal(638.25, profile.HeightAt(1417.53)!.Value, 1e-9);
        Assert.Equal(0, profile.GradeAt(low)!.Value, 1e-12);
    }

    /// <summary>A worked answer of a mathematics forum (118633).</summary>
    [Theory]
    [InlineData(100, 1068.32)]
    [InlineData(200, 1068.726)]
    [InlineData(250, 1068.696)]
    [InlineData(300, 1068.511)]
    [InlineData(400, 1067.674)]
    [InlineData(500, 1066.215)]
    public void HeightAt_CrestOfTheForum_IsAsPrinted(double station, double height) =>
        Assert.Equal(height, Parabola(0.0134, -0.0177, 500, 250, 1070.64).HeightAt(station)!.Value, 0.0015);

    /// <summary>buildingSMART, IFC rail alignment reference set.</summary>
    [Theory]
    [InlineData("02_vertical_parabola_0.5_1.0.csv")]
    [InlineData("02_vertical_arc_0.5_1.0.csv")]
    public void HeightAt_ReferenceSet_AgreesToANanometre(string file)
    {
        double a1 = Math.Atan(0.5), a2 = Math.Atan(1), radius = 100 / (Math.Sin(a2) - Math.Sin(a1)), tangent = radius * Math.Tan((a2 - a1) / 2);
        var at = file.Contains("arc", StringComparison.Ordinal) ? tangent * Math.Cos(a1) : 50;
        var meeting = file.Contains("arc", StringComparison.Ordinal) ? new ProfilePoint(at, 10 + 0.5 * at, VerticalCurveKind.Circle, Radius: radius) : new ProfilePoint(at, 10 + 0.5 * at, VerticalCurveKind.Parabola, 50, 50);
        var profile = Made(new(-100, -40), meeting, new(300, 10 + 0.5 * at + (300 - at)));
        foreach (var line in Reference.File(file).Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1))
        {
            var cells = line.Split(',');
            Assert.Equal(double.Parse(cells[1], CultureInfo.InvariantCulture), profile.HeightAt(double.Parse(cells[0], CultureInfo.InvariantCulture))!.Value, 1e-9);
        }
    }

    [Fact]
    public void HeightAt_UnsymmetricParabola_IsTangentAtBothEndsAndInOneAtItsMiddle()
    {
        var profile = Made(new(0, 10), new(100, 13, VerticalCurveKind.Parabola, 30, 60), new(300, 9));
        Assert.Equal(12.1, profile.HeightAt(70)!.Value, 1e-12);
        Assert.Equal(13 - 0.02 * 60, profile.HeightAt(160)!.Value, 1e-12);
        Assert.Equal(profile.GradeAt(100 - 1e-9)!.Value, profile.GradeAt(100 + 1e-9)!.Value, 1e-9);
        Assert.Equal(13 + (-0.02 - 0.03) * 30 * 60 / (2 * 90.0), profile.HeightAt(100)!.Value, 1e-12);
    }

    [Fact]
    public void HeightAt_Outside_IsNull()
    {
        var profile = Made(new(0, 10), new(100, 13));
        Assert.Null(profile.HeightAt(-0.01));
        Assert.Null(profile.HeightAt(100.01));
        Assert.Equal(11.5, profile.HeightAt(50)!.Value, 1e-12);
    }

    [Fact]
    public void TryOf_CurvesThatOverlap_SaysWhere()
    {
        Assert.False(Profile.TryOf([new(0, 10), new(100, 13, VerticalCurveKind.Parabola, 60, 60), new(200, 9, VerticalCurveKind.Parabola, 60, 60), new(300, 12)], out _, out var fault));
        Assert.Equal("the vertical curves at 100.000 m and 200.000 m overlap", fault);
        Assert.False(Profile.TryOf([new(0, 10), new(0, 13)], out _, out fault));
        Assert.StartsWith("the point at 0.000 m does not lie behind", fault, StringComparison.Ordinal);
    }

    [Fact]
    public void Stationing_WithEquations_GoesBothWays()
    {
        var stationing = new Stationing(1000, [new(200, 1200, 2000), new(300, 2100, 2050)]);
        Assert.Equal([1000.0, 1199, 2000, 2099, 2050, 2150], new[] { 0.0, 199, 200, 299, 300, 400 }.Select(stationing.StationAt));
        Assert.Equal([260.0, 310], stationing.ChainagesOf(2060, 500)); // stationed twice
        Assert.Empty(stationing.ChainagesOf(1500, 500));
        Assert.Equal([50.0], stationing.ChainagesOf(1050, 500));
        Assert.Equal(7, default(Stationing).StationAt(7));
    }
}
