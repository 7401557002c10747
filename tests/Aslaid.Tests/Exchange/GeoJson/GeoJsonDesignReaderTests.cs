using System.Globalization;
using System.IO;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

public class GeoJsonDesignReaderTests
{
    private static DesignIntake Intake(string text, string? system = null) => DesignReaders.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), new("design.geojson", null, system));

    private static DesignFile Read(string text, string? system = null)
    {
        var intake = Intake(text, system);
        Assert.Null(intake.Refused?.Message("design.geojson"));
        return intake.Design!;
    }

    private const string Site = """
        {"type":"FeatureCollection","features":[
        {"type":"Feature","properties":{"Code":"WATER-MAIN","name":"W1"},"geometry":{"type":"LineString","coordinates":[[512000,6243000,5],[512010,6243000,5.5]]}},
        {"type":"Feature","properties":{"layer":"KERB","status":"existing"},"geometry":{"type":"Polygon","coordinates":[[[512000,6243000],[512010,6243000],[512010,6243010],[512000,6243000]]]}},
        {"type":"Feature","id":7,"properties":{"code":"LAMP"},"geometry":{"type":"MultiPoint","coordinates":[[512001,6243001,6],[512002,6243002]]}},
        {"type":"Feature","properties":null,"geometry":null},
        {"type":"Feature","properties":{},"geometry":{"type":"GeometryCollection","geometries":[{"type":"MultiLineString","coordinates":[[[512000,6243000],[512000,6243007]]]},{"type":"Point","coordinates":[512003,6243003]}]}}]}
        """;

    [Fact]
    public void Read_SiteGrid_HasLinesRingsAndPoints()
    {
        var file = Read(Site);
        Assert.Equal(["W1", "feature 2", "feature 5"], file.Lines.Select(line => line.Name));
        Assert.Equal(("WATER-MAIN", 10, 5.25), (file.Lines[0].Words[0], file.Lines[0].Path.PlanLength, file.Lines[0].HeightAt(5)!.Value));
        Assert.True(file.Lines[1].IsExisting && file.Lines[1].Path.IsClosed);
        Assert.Equal(["7", "7 (2)", "feature 5 (2)"], file.Points.Select(point => point.Name));
        Assert.Contains("taken as the site grid", file.Skipped[0], StringComparison.Ordinal);
        Assert.Equal("feature skipped: it has no geometry.", file.Skipped[1]);
    }

    [Fact]
    public void Read_Degrees_ComeToTheGrid()
    {
        var grid = GridToGeographic.For("EPSG:25832");
        var at = grid.Of(new(512_000, 6_243_000));
        var text = "{\"type\":\"Feature\",\"properties\":{},\"geometry\":{\"type\":\"Point\",\"coordinates\":[" + string.Create(CultureInfo.InvariantCulture, $"{at.Longitude:R},{at.Latitude:R},4") + "]}}";
        var point = Assert.Single(Read(text, "EPSG:25832").Points);
        Assert.True(point.At.DistanceTo(new(512_000, 6_243_000)) < 1e-4);
        Assert.Contains("are degrees", Intake(text).Refused!.Message("design.geojson"), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_OldReference_IsHonouredOrRefused()
    {
        const string named = """{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::25832"}},"features":[{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[50,60]}}]}""";
        Assert.Equal(new Point2(50, 60), Read(named, "EPSG:25832").Points[0].At);
        Assert.Contains("another coordinate system than the site's", Intake(named, "EPSG:25833").Refused!.Message("design.geojson"), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_LongFile_StreamsBy()
    {
        var text = new StringBuilder("{\"features\":[");
        for (var i = 0; i < 20_000; i++) text.Append(CultureInfo.InvariantCulture, $"{(i > 0 ? "," : "")}\n{{\"type\":\"Feature\",\"properties\":{{\"code\":\"A\"}},\"geometry\":{{\"type\":\"LineString\",\"coordinates\":[[{512000 + i},6243000],[{512001 + i},6243000]]}}}}");
        Assert.Equal(20_000, Read(text.Append("],\"type\":\"FeatureCollection\"}").ToString()).Lines.Length);
    }

    [Theory]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\"", "ends too early")]
    [InlineData("{\"a\":1}", "no GeoJSON")]
    [InlineData("{\"type\":\"Point\",\"coordinates\":[1e300,5]}", "is a place on no grid")]
    [InlineData("{\"type\":\"Point\",\"coordinates\":[512000]}", "fewer than two numbers")]
    [InlineData("{\"type\":\"Point\",\"coordinates\":[512000,\"x\"]}", "'x' is no finite number")]
    [InlineData("{\"type\":\"LineString\",\"coordinates\":[5,6]}", "does not hold what GeoJSON says")]
    [InlineData("{\"type\":\"Point\",\"type\":\"Point\"}", "stands twice")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":5}", "no GeoJSON")]
    public void Read_WrongOrHostile_IsRefused(string text, string says) => Assert.Contains(says, Intake(text).Refused!.Message("design.geojson"), StringComparison.Ordinal);

    [Fact]
    public void Read_NestedTooDeep_IsRefused() => Assert.NotNull(Intake("{\"type\":\"Point\",\"coordinates\":" + new string('[', 5000)).Refused);

    [Fact]
    public void Read_AnyMutation_EndsInADesignOrARefusal()
    {
        var good = Encoding.UTF8.GetBytes(Site);
        var numbers = new Random(8);
        for (var i = 0; i < 20_000; i++)
        {
            var bytes = good.AsSpan(0, numbers.Next(5) == 0 ? numbers.Next(good.Length) : good.Length).ToArray();
            for (var k = numbers.Next(5); k >= 0 && bytes.Length > 0; k--) bytes[numbers.Next(bytes.Length)] = (byte)"{}[]\",:0123456789e.-ntf "[numbers.Next(24)];
            var intake = DesignReaders.Read(new MemoryStream(bytes), new("design.geojson"));
            Assert.True(intake.Design is null != intake.Refused is null);
        }
    }

    /// <summary>PROJ brings the same degrees to the same metres.</summary>
    [Fact]
    public void Back_ManyPlaces_AgreesWithAForeignProgram()
    {
        var grid = GridToGeographic.For("EPSG:25832");
        using var folder = new TempFolder();
        var places = new List<Geographic>();
        var text = new StringBuilder();
        for (var i = 0; i < 200; i++)
        {
            places.Add(new(6.5 + 0.025 * i, 47 + 0.04 * i));
            text.Append(CultureInfo.InvariantCulture, $"{places[i].Longitude:R} {places[i].Latitude:R}\n");
        }

        var lines = ForeignTool.Run("cs2cs", "-f", "%.5f", "+proj=longlat", "+ellps=GRS80", "+to", "+proj=utm", "+zone=32", "+ellps=GRS80", folder.Write("degrees.txt", text.ToString())).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        for (var i = 0; i < places.Count; i++)
        {
            var cells = lines[i].Split(['\t', ' '], StringSplitOptions.RemoveEmptyEntries);
            Assert.True(grid.Back(places[i]).DistanceTo(new(double.Parse(cells[0], CultureInfo.InvariantCulture), double.Parse(cells[1], CultureInfo.InvariantCulture))) < 1e-3);
        }
    }
}
