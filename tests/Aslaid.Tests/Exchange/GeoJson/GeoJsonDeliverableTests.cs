using System.Globalization;
using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;
using NetTopologySuite.Geometries;
using Shape = NetTopologySuite.Geometries.Geometry;

namespace Aslaid.Tests;

public class GeoJsonDeliverableTests
{
    private const string Utm = "EPSG:25832";

    [Fact]
    public void Write_DecimalCommaCulture_SameBytes() => DeliveryFolder.AssertSameBytes(new GeoJsonDeliverable(), () => ExchangeSite.Small(Utm));

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.005)]
    [InlineData(0.0001)]
    public void Write_SampleSite_ChordedCopiesAreValidAndAsLongAsTheSagittaAllows(double sagitta)
    {
        var handover = ExchangeSite.Sample(SampleSites.Clean(11));
        var runs = Runs(handover, new() { Sagitta = sagitta });
        var record = handover.Record;
        Assert.Equal(record.Runs.Count, runs.Count);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            var copy = runs[run.Key];
            Assert.True(copy.IsValid, run.Key);
            var lost = Enumerable.Range(0, run.PieceCount).Select(run.Piece).Where(p => p.Kind == PieceKind.Arc).Sum(p => p.PlanLength * Lost(p.Arc.Radius, sagitta));
            Assert.InRange(copy.Length, run.PlanLength - lost - 0.001, run.PlanLength + 0.001); // written to 0.1 mm
            if (copy is Polygon area) Assert.Equal(run.Area!.Value, area.Area, run.PlanLength * sagitta + 0.001);
        }

        // Of an arc x = half the angle of a chord, sagitta = R(1 − cos x), the share 1 − sin(x)/x is lost.
        static double Lost(double radius, double sagitta)
        {
            var x = Math.Acos(1 - Math.Min(1, sagitta / radius));
            return 1 - Math.Sin(x) / x;
        }
    }

    [Fact]
    public void Write_AreaRings_RunAnticlockwise()
    {
        var areas = Runs(ExchangeSite.Small(), new()).Values.OfType<Polygon>().ToArray();
        Assert.Equal(3, areas.Length);
        Assert.All(areas, area => Assert.True(area.Shell.IsCCW));
    }

    [Fact]
    public void Write_WithCoordinateSystem_ForeignProgramLeadsBackToTheGrid()
    {
        var handover = ExchangeSite.Small(Utm);
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), handover);
        var lines = ForeignTool.Python("""
            import sys
            from osgeo import ogr, osr
            ogr.UseExceptions()
            grid, earth = osr.SpatialReference(), osr.SpatialReference()
            grid.ImportFromEPSG(25832); earth.CopyGeogCSFrom(grid)
            for s in (grid, earth): s.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
            back = osr.CoordinateTransformation(earth, grid)
            earthly, site = ogr.Open(sys.argv[1]), ogr.Open(sys.argv[2])
            worst = count = 0
            def rings(g): return [g] if g.GetGeometryCount() == 0 else [g.GetGeometryRef(i) for i in range(g.GetGeometryCount())]
            for a, b in zip(earthly.GetLayer(0), site.GetLayer(0)):
                for ga, gb in zip(rings(a.geometry()), rings(b.geometry())):
                    assert ga.GetPointCount() == gb.GetPointCount() and not ga.Is3D()
                    for p, q in zip(ga.GetPoints(), gb.GetPoints()):
                        e, n = back.TransformPoint(p[0], p[1])[:2]
                        worst = max(worst, abs(e - q[0]), abs(n - q[1])); count += 1
            print(count, worst)
            """, ["osgeo"], folder.PathOf("record.geojson"), folder.PathOf("record.site.geojson")).Split(' ');
        Assert.True(int.Parse(lines[0], CultureInfo.InvariantCulture) > 50);
        Assert.True(double.Parse(lines[1], CultureInfo.InvariantCulture) < 0.001, lines[1]); // m
    }

    [Theory]
    [InlineData(null, "Site grid|None")]
    [InlineData(Utm, "ETRS89 / UTM zone 32N|WGS 84")]
    public void Write_AnySite_ForeignProgramTakesMetresForMetres(string? system, string seen)
    {
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), ExchangeSite.Small(system));
        Assert.Equal(seen, ForeignTool.Python("""
            import os, sys
            from osgeo import ogr
            ogr.UseExceptions()
            def name(path):
                if not os.path.exists(path): return None
                file = ogr.Open(path)
                system = file.GetLayer(0).GetSpatialRef()
                return system and system.GetName()
            print(*map(name, sys.argv[1:]), sep='|')
            """, ["osgeo"], folder.PathOf("record.site.geojson"), folder.PathOf("record.geojson")).Trim());
    }

    [Fact]
    public void Write_WithCoordinateSystem_BoxHoldsEveryPosition()
    {
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), ExchangeSite.Small(Utm));
        foreach (var name in new[] { "record.geojson", "record.site.geojson" })
        {
            var file = JsonSerializer.Deserialize<JsonElement>(folder.Text(name));
            var box = file.GetProperty("bbox").EnumerateArray().Select(side => side.GetDouble()).ToArray();
            Assert.All(file.GetProperty("features").EnumerateArray().SelectMany(f => Positions(f.GetProperty("geometry").GetProperty("coordinates"))), at =>
            {
                Assert.InRange(at.X, box[0], box[2]);
                Assert.InRange(at.Y, box[1], box[3]);
            });
        }
    }

    [Theory]
    [InlineData(null, "no coordinate system is set")]
    [InlineData("EPSG:4326", "is not known here")]
    public void Write_WithoutUsableCoordinateSystem_OnlyTheSiteFileAndWhy(string? system, string why)
    {
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), ExchangeSite.Small(system));
        Assert.Equal("record.site.geojson", Assert.Single(folder.Names));
        var about = JsonSerializer.Deserialize<JsonElement>(folder.Text("record.site.geojson")).GetProperty("aslaid");
        Assert.Contains(why, about.GetProperty("about").GetString(), StringComparison.Ordinal);
        Assert.Equal(0.005, about.GetProperty("chord_sagitta_m").GetDouble());
        Assert.Equal("journal 1, head 0123456789abcdef", about.GetProperty("stamp").GetString());
    }

    [Fact]
    public void Write_RunProperties_CarryArcsHeightsAndVertices()
    {
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), ExchangeSite.Small());
        var features = JsonSerializer.Deserialize<JsonElement>(folder.Text("record.site.geojson")).GetProperty("features").EnumerateArray().ToArray();
        var (line, main) = Labelled("WM-1");
        var arc = main.GetProperty("pieces")[1];
        Assert.Equal(("arc", "left", 10.0, 90.0), (arc.GetProperty("kind").GetString(), arc.GetProperty("turns").GetString(), arc.GetProperty("radius_m").GetDouble(), arc.GetProperty("sweep_deg").GetDouble()));
        var vertex = main.GetProperty("vertices")[2];
        Assert.Equal((true, "stated", "gnss"), (vertex.GetProperty("through").GetBoolean(), vertex.GetProperty("accuracy").GetString(), vertex.GetProperty("method").GetString()));
        Assert.Equal(line.GetArrayLength(), main.GetProperty("height_m").GetArrayLength());
        Assert.Equal(5.4, line[line.GetArrayLength() - 1][2].GetDouble());
        var (flat, gas) = Labelled("G-1"); // one of its heights is missing
        Assert.Equal(JsonValueKind.Null, gas.GetProperty("height_m")[0].ValueKind);
        Assert.All(flat.EnumerateArray(), at => Assert.Equal(2, at.GetArrayLength()));

        (JsonElement Coordinates, JsonElement Properties) Labelled(string label)
        {
            var feature = features.Single(f => f.GetProperty("properties").TryGetProperty("label", out var own) && own.GetString() == label);
            return (feature.GetProperty("geometry").GetProperty("coordinates"), feature.GetProperty("properties"));
        }
    }

    [Fact]
    public void Write_SampleSite_EveryFindingIsThere()
    {
        var handover = ExchangeSite.Sample(SampleSites.WithMistakes(3));
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), handover);
        var found = JsonSerializer.Deserialize<JsonElement>(folder.Text("record.site.geojson")).GetProperty("features").EnumerateArray()
            .Select(f => f.GetProperty("properties")).Where(p => p.GetProperty("what").GetString() == "finding").Select(p => p.GetProperty("id").GetString());
        Assert.NotEqual(0, handover.Record.Findings.Count);
        Assert.Equal(Enumerable.Range(0, handover.Record.Findings.Count).Select(number => handover.Record.Findings[number].Id), found);
    }

    private static Dictionary<string, Shape> Runs(Handover handover, GeoJsonDeliverable deliverable)
    {
        using var folder = DeliveryFolder.With(deliverable, handover);
        return JsonSerializer.Deserialize<JsonElement>(folder.Text("record.site.geojson")).GetProperty("features").EnumerateArray()
            .Where(f => f.GetProperty("properties").GetProperty("what").GetString() == "run")
            .ToDictionary(f => f.GetProperty("properties").GetProperty("run").GetString()!, f => ShapeOf(f.GetProperty("geometry")));
    }

    private static Shape ShapeOf(JsonElement geometry)
    {
        Coordinate[] places = [.. Positions(geometry.GetProperty("coordinates"))];
        var factory = GeometryFactory.Default;
        return geometry.GetProperty("type").GetString() == "Polygon" ? factory.CreatePolygon(places) : factory.CreateLineString(places);
    }

    private static IEnumerable<Coordinate> Positions(JsonElement coordinates) => coordinates[0].ValueKind == JsonValueKind.Number
        ? [new(coordinates[0].GetDouble(), coordinates[1].GetDouble())]
        : coordinates.EnumerateArray().SelectMany(Positions);
}
