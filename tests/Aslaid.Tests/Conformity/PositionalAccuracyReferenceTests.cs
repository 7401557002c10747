using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Published statistics of positional accuracy.</summary>
public sealed class PositionalAccuracyReferenceTests
{
    private const string Cases = "05_positional_accuracy.json";

    /// <summary>
    /// Network-RTK test on reference point 90M9180, 2019-05-24. Contains data from the National Land Survey of Finland 05/2019,
    /// licence CC BY 4.0.
    /// </summary>
    private const string Readings = "05_rtk_point_90M9180.csv";

    public static TheoryData<string, double> Factors => new()
    {
        // FGDC-STD-007.3-1998, 3.2 and appendix 3-A
        { "horizontal accuracy 95 % from radial RMSE, RMSEx = RMSEy", PositionalAccuracy.PlanOf(1, 1)!.Value / Math.Sqrt(2) },
        { "horizontal accuracy 95 % from one-axis RMSE", PositionalAccuracy.PlanOf(0.8, 1.2)!.Value },
        { "vertical accuracy 95 %", PositionalAccuracy.HeightOf(1)!.Value },
        { "circular map accuracy 90 % from one-axis sigma", CircularNormal.Radius(0.9) },
        { "95 % from CMAS 90 %", CircularNormal.Radius(0.95) / CircularNormal.Radius(0.9) },
        { "95 % from VMAS 90 %", Normal.Quantile(0.975) / Normal.Quantile(0.95) },
        { "95 % from contour interval", Normal.Quantile(0.975) / Normal.Quantile(0.95) / 2 }, // 90 % within half an interval
    };

    [Theory, MemberData(nameof(Factors))]
    public void Factor_IsPublished(string name, double factor)
    {
        var published = Reference.Json(Cases).GetProperty("factors").EnumerateArray().Single(each => each.GetProperty("name").GetString() == name);
        Assert.Equal(published.Number("value"), factor, 5e-5);
        Assert.Equal(published.Number("exact"), factor, 1e-6);
    }

    [Fact]
    public void Factors_AllOfTheFile_AreTested() => Assert.Equal(Reference.Json(Cases).GetProperty("factors").GetArrayLength(), Factors.Count);

    [Fact] // US National Geodetic Survey, Local and Network Accuracy data sheets GV0652 and HZ1629
    public void Circle95_OfAStationsEllipse_IsPublished()
    {
        var rows = Rows("05_ngs_horizontal_95.csv");
        Assert.Equal(4, rows.Count);
        foreach (var row in rows)
        {
            var tolerance = Number(row, "tolerance_cm");
            var circle = new ErrorEllipse(Number(row, "sd_east_cm"), Number(row, "sd_north_cm"), Number(row, "corr_north_east")).Circle95;
            var height = PositionalAccuracy.HeightOf(Number(row, "sd_ellipsoid_height_cm"))!.Value;
            Assert.Equal(Number(row, "published_horizontal_95_cm"), circle, tolerance);
            Assert.Equal(Number(row, "recomputed_horizontal_95_cm"), circle, 1e-4);
            Assert.Equal(Number(row, "published_ellipsoid_height_95_cm"), height, tolerance);
            Assert.Equal(Number(row, "recomputed_height_95_cm"), height, 2e-4);
        }
    }

    [Fact] // USGS vertical accuracy report, Barataria lidar 2013, open terrain class
    public void Rmse_OfLidarCheckPoints_IsPublished()
    {
        var c = Reference.Case(Cases, "cases", "usgs_open_terrain_51");
        var (published, tolerance) = (c.GetProperty("published"), c.Number("tolerance"));
        var heights = new Misfits(c.GetProperty("n").GetInt32(), c.Number("mean"), c.Number("sd_n_minus_1"));
        Assert.Equal(published.Number("RMSE_z"), heights.Rmse, tolerance);
        Assert.Equal(published.Number("accuracy_z_95"), PositionalAccuracy.HeightOf(heights.Rmse)!.Value, 5e-6); // printed with a factor of 1.96
        Assert.Equal(published.Number("accuracy_z_95"), 1.96 * heights.Rmse, tolerance);
    }

    [Fact] // National Land Survey of Finland, tables 1 and 2 of the test
    public void Misfits_OfSatelliteReadings_ArePublished()
    {
        var c = Reference.Case(Cases, "cases", "nls_rtk_90M9180");
        var (published, recomputed, known) = (c.GetProperty("published"), c.GetProperty("recomputed"), c.GetProperty("reference"));
        var all = Rows(Readings).Select(row => (North: Number(row, "northing_m"), East: Number(row, "easting_m"), Height: Number(row, "height_m"))).ToList();
        Assert.Equal(published.GetProperty("count_all").GetInt32(), all.Count);
        var (north, east, height) = (Median([.. all.Select(r => r.North)]), Median([.. all.Select(r => r.East)]), Median([.. all.Select(r => r.Height)]));
        Assert.Equal(published.Number("median_north"), north, 5e-4);
        Assert.Equal(published.Number("median_east"), east, 5e-4);
        Assert.Equal(published.Number("median_height"), height, 5e-4);
        var kept = all.Where(r => Math.Abs(r.North - north) <= 0.1 && Math.Abs(r.East - east) <= 0.1 && Math.Abs(r.Height - height) <= 0.2).ToList();
        Assert.Equal(published.GetProperty("count_kept").GetInt32(), kept.Count);
        Assert.Equal(published.GetProperty("count_rejected").GetInt32(), all.Count - kept.Count);

        var accuracy = new PositionalAccuracy(
            Misfits.Of([.. kept.Select(r => r.East - known.Number("easting"))]), Misfits.Of([.. kept.Select(r => r.North - known.Number("northing"))]),
            Misfits.Of([.. kept.Select(r => r.Height - known.Number("height"))]), 0);
        var precision = double.Hypot(accuracy.East.RmsAboutMean, accuracy.North.RmsAboutMean);
        foreach (var (numbers, within, sd, mean) in new[] { (published, 5e-4, 5e-5, 5e-4), (recomputed, 1e-6, 1e-6, 2e-6) })
        {
            Assert.Equal(numbers.Number("precision_horizontal"), precision, within);
            Assert.Equal(numbers.Number("precision_vertical"), accuracy.Height!.Value.RmsAboutMean, within);
            Assert.Equal(numbers.Number("accuracy_horizontal"), accuracy.RmsePlan, within);
            Assert.Equal(numbers.Number("accuracy_vertical"), accuracy.RmseHeight!.Value, within);
            Assert.Equal(numbers.Number("sd_north"), accuracy.North.Sd!.Value, sd);
            Assert.Equal(numbers.Number("sd_east"), accuracy.East.Sd!.Value, sd);
            Assert.Equal(numbers.Number("sd_height"), accuracy.Height!.Value.Sd!.Value, sd);
            Assert.Equal(numbers.Number("mean_north"), known.Number("northing") + accuracy.North.Mean, mean);
            Assert.Equal(numbers.Number("mean_east"), known.Number("easting") + accuracy.East.Mean, mean);
            Assert.Equal(numbers.Number("mean_height"), known.Number("height") + accuracy.Height!.Value.Mean, mean);
        }

        Assert.Equal(published.Number("precision_horizontal_2d"), 2 * precision, 5e-4);
        Assert.Equal(published.Number("precision_vertical_2"), 2 * accuracy.Height!.Value.RmsAboutMean, 5e-4);
        Assert.Equal(published.Number("accuracy_horizontal_2d"), 2 * accuracy.RmsePlan, 5e-4);
        Assert.Equal(published.Number("accuracy_vertical_2"), 2 * accuracy.RmseHeight!.Value, 5e-4);
    }

    [Fact] // ISO 17123-8: full test of a satellite receiver, 28 degrees of freedom an axis
    public void Limits_OfTheFieldTest_ArePublished()
    {
        var c = Reference.Case(Cases, "cases", "iso17123_8_full_test_constants");
        var (limits, recomputed, tolerance, freedom) = (c.GetProperty("limits"), c.GetProperty("recomputed"), c.Number("tolerance"), c.GetProperty("degrees_of_freedom_per_axis").GetInt32());
        var (plan, height) = (Math.Sqrt(ChiSquared.Limit(0.05, 2 * freedom) / (2 * freedom)), Math.Sqrt(ChiSquared.Limit(0.05, freedom) / freedom));
        Assert.Equal(limits.Number("s_xy_over_sigma_max"), plan, tolerance);
        Assert.Equal(limits.Number("s_h_over_sigma_max"), height, tolerance);
        Assert.Equal(recomputed.Number("s_xy"), plan, 1e-6);
        Assert.Equal(recomputed.Number("s_h"), height, 1e-6);
        foreach (var (name, degrees) in new[] { ("h", freedom), ("xy", 2 * freedom) })
        {
            for (var side = 0; side < 2; side++)
            {
                Assert.Equal(limits.GetProperty($"F_{name}")[side].GetDouble(), recomputed.GetProperty($"F_{name}")[side].GetDouble(), tolerance);
                Assert.Equal(side == 0 ? 0.975 : 0.025, RatioAbove(recomputed.GetProperty($"F_{name}")[side].GetDouble(), degrees), 2e-6);
            }
        }
    }

    /// <summary>Probability that one of two sums of squares of the same degrees of freedom is more than this many times the other.</summary>
    private static double RatioAbove(double ratio, int freedom) => Integral.Of(
        sum => ChiSquared.Above(ratio * sum, freedom) * (ChiSquared.Above(sum - 0.001, freedom) - ChiSquared.Above(sum + 0.001, freedom)) / 0.002, 0.001, 4.0 * freedom, 600);

    private static double Median(double[] values) => Misfits.Percentile(values, 0.5);

    private static List<Dictionary<string, string>> Rows(string file)
    {
        var lines = Reference.File(file).TrimEnd().Split('\n').Select(line => line.TrimEnd('\r').Split(',')).ToArray();
        return [.. lines.Skip(1).Select(cells => lines[0].Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second))];
    }

    private static double Number(Dictionary<string, string> row, string name) => double.Parse(row[name], CultureInfo.InvariantCulture);
}
