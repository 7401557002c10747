using System.Globalization;
using System.Text.Json;
using Aslaid.Exchange;
using static Aslaid.Tests.GeoPackageSample;

namespace Aslaid.Tests;

/// <summary>What GDAL makes of a file of ours, and we of one of GDAL's.</summary>
public sealed class GeoPackageForeignTests : IDisposable
{
    private readonly TemporaryFile _at = new(".gpkg");

    public void Dispose() => _at.Dispose();

    // Coordinates that a double holds exactly, so that lengths and areas have nothing to do with rounding.
    private static readonly CurveVertex[] Bend =
        [Vertex(0, 0), Vertex(30, 0, measure: 30), Vertex(36, 2, onArc: true), Vertex(40, 10), Vertex(38, 16, onArc: true), Vertex(30, 20), Vertex(10, 20)];

    private static readonly CurveVertex[] Circle = [Vertex(103, 104), Vertex(97, 96, onArc: true), Vertex(103, 104)];

    private static readonly CurveVertex[] Straight = [Vertex(200, 0), Vertex(203, 4), Vertex(203, 10)];

    // A rectangle of 20 by 10 with a half circle at each end, and a round hole of radius 5.
    private static readonly CurveVertex[] Stadium =
        [Vertex(0, 0), Vertex(20, 0), Vertex(25, 5, onArc: true), Vertex(20, 10), Vertex(0, 10), Vertex(-5, 5, onArc: true), Vertex(0, 0),
         Vertex(13, 9), Vertex(7, 1, onArc: true), Vertex(13, 9)];

    private GeoPackageFile Filled()
    {
        var file = Create(_at.Name, Points, Runs, Areas, Linear, Entries);
        using var transaction = file.Begin();
        Fill(file, Points, Enumerable.Range(0, 900).Select(i => ((long)i + 1, (CurveVertex[])[Vertex(i % 30, i / 30)])));
        Fill(file, Runs, [(1, Bend), (2, Circle), (3, Straight)]);
        using (var areas = file.Fill(Areas))
        {
            areas.Start(1, Stadium, [7, 10]);
            areas.Rows.Real(areas.FirstColumn, 200.0);
            areas.Rows.Row();
            areas.Complete(Noon);
        }
        Fill(file, Linear, [(1, Straight)]);
        using (var entries = file.Fill(Entries))
        {
            entries.Start(1);
            entries.Rows.Text(entries.FirstColumn, "recoded — ö");
            entries.Rows.Blob(entries.FirstColumn + 1, [1, 2, 3]);
            entries.Rows.Text(entries.FirstColumn + 2, "2031-05-04T07:30:00.000Z");
            entries.Rows.Row();
            entries.Complete(Noon);
        }
        transaction.Commit();
        return file;
    }

    private JsonElement Gdal(string body) => JsonDocument.Parse(ForeignTool.Python($"""
        import json, sys
        from osgeo import ogr, gdal
        gdal.UseExceptions()
        gdal.SetConfigOption('OGR_ARC_STEPSIZE', '0.05')
        name = sys.argv[1]
        answer = dict()
        {body}
        print(json.dumps(answer))
        """, ["osgeo"], _at.Name)).RootElement;

    [Fact]
    public void Filled_ByGdalsValidator_IsPassed()
    {
        using (Filled()) { }
        Validate();
    }

    [Fact]
    public void Empty_ByGdalsValidator_IsPassed()
    {
        using (Create(_at.Name, Points, Runs, Areas, Linear, Entries)) { }
        Validate();
    }

    // Every row's type and geometry is looked at too (--extra); the output lists all that is wrong, not the first only (-k).
    private void Validate() => ForeignTool.Python("""
        import sys
        from osgeo_utils.samples import validate_gpkg
        sys.exit(validate_gpkg.main(['validate_gpkg', '-k', '--extra', '--warning-as-error', sys.argv[1]]))
        """, ["osgeo_utils.samples.validate_gpkg"], _at.Name);

    [Fact]
    public void Filled_ByGdal_HasTheLayersDeclared()
    {
        using (Filled()) { }
        var layers = Gdal("""
            d = ogr.Open(name)
            for l in d: answer[l.GetName()] = [ogr.GeometryTypeToName(l.GetGeomType()), l.GetFeatureCount()]
            """);
        Assert.Equal("""{"points": ["3D Point", 900], "runs": ["3D Measured Compound Curve", 3], "areas": ["3D Curve Polygon", 1], "runs_linear": ["3D Line String", 1], "journal": ["None", 1]}""", layers.GetRawText());
    }

    [Fact]
    public void Filled_ByGdal_HasTheLengthsAndAreas()
    {
        using (Filled()) { }
        var figures = Gdal("""
            d = ogr.Open(name)
            answer['lengths'] = [f.GetGeometryRef().Length() for f in d.GetLayerByName('runs')]
            answer['areas'] = [f.GetGeometryRef().GetArea() for f in d.GetLayerByName('areas')]
            answer['texts'] = [f.GetGeometryRef().ExportToIsoWkt() for f in d.GetLayerByName('runs')]
            """);
        // The bend's two arcs are quarters of the circle of radius 10 about (30, 10).
        double[] lengths = [30 + 10 * Math.PI + 20, 10 * Math.PI, 5 + 6];
        for (var i = 0; i < 3; i++)
            Assert.Equal(lengths[i], figures.GetProperty("lengths")[i].GetDouble(), 1e-9); // m
        var area = 200 + 25 * Math.PI - 25 * Math.PI;
        Assert.Equal(area, figures.GetProperty("areas")[0].GetDouble(), 1e-6 * area); // m²: GDAL measures a fine polygon
        Assert.StartsWith("COMPOUNDCURVE ZM ((512000 6243000 5 0,512030 6243000 5 30),CIRCULARSTRING ZM (512030 6243000 5 30,", figures.GetProperty("texts")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Filled_ByGdalsSpatialFilter_GivesTheFeaturesOfTheIndex()
    {
        const string count = """
            d = ogr.Open(name)
            l = d.GetLayerByName('points')
            l.SetSpatialFilterRect(512004.5, 6243009.5, 512008.5, 6243012.5)
            answer['ids'] = [f.GetFID() for f in l]
            """;
        long[] expected = [.. from north in Enumerable.Range(10, 3) from east in Enumerable.Range(5, 4) select (long)north * 30 + east + 1];
        using (Filled()) { }
        Assert.Equal(expected, Ids());

        // The proof that GDAL went by our index: what is taken out of it alone is no longer found.
        using (var file = GeoPackageFile.Open(_at.Name))
        {
            using var command = file.Connection.CreateCommand();
            command.CommandText = $"DELETE FROM rtree_points_geom WHERE id = {expected[5].ToString(CultureInfo.InvariantCulture)}";
            command.ExecuteNonQuery();
        }
        Assert.Equal(expected.Except([expected[5]]), Ids());

        long[] Ids() => [.. Gdal(count).GetProperty("ids").EnumerateArray().Select(id => id.GetInt64()).Order()];
    }

    [Fact]
    public void Filled_EditedByGdal_KeepsItsIndex()
    {
        using (Filled()) { }
        Gdal("""
            d = ogr.Open(name, update=1)
            l = d.GetLayerByName('points')
            f = l.GetFeature(5)
            f.SetGeometry(ogr.CreateGeometryFromWkt('POINT Z (512777 6243777 6)'))
            l.SetFeature(f)
            l.DeleteFeature(6)
            f = ogr.Feature(l.GetLayerDefn())
            f.SetGeometry(ogr.CreateGeometryFromWkt('POINT Z (512778 6243778 6)'))
            l.CreateFeature(f)
            d = None
            """);
        using var file = GeoPackageFile.Open(_at.Name);
        Assert.Equal("ok", Scalar(file, "SELECT rtreecheck('rtree_points_geom')"));
        Assert.Equal("5,901", Scalar(file, "SELECT min(id) || ',' || max(id) FROM rtree_points_geom WHERE minx > 512700"));
        Assert.Equal("900", Scalar(file, "SELECT count(*) FROM rtree_points_geom"));
    }

    [Fact]
    public void Read_FileWrittenByGdal_GivesItsCurves()
    {
        Gdal("""
            d = ogr.GetDriverByName('GPKG').CreateDataSource(name)
            l = d.CreateLayer('Kerb design', geom_type=ogr.wkbCompoundCurveZ)
            f = ogr.Feature(l.GetLayerDefn())
            f.SetGeometry(ogr.CreateGeometryFromWkt('COMPOUNDCURVE Z ((512000 6243000 5,512030 6243000 5),CIRCULARSTRING Z (512030 6243000 5,512036 6243002 5,512040 6243010 5))'))
            l.CreateFeature(f)
            d = None
            """);
        using var file = GeoPackageFile.Open(_at.Name, readOnly: true);
        var listing = Assert.Single(file.Contents());
        Assert.Equal(("Kerb design", "geom", "COMPOUNDCURVE", true), (listing.Name, listing.GeometryColumn, listing.GeometryType, listing.HasIndex));
        using var read = new BulkRead(file.Connection, "SELECT geom FROM \"Kerb design\"");
        Assert.True(read.Next());
        var shape = new CurveShape();
        var header = GeoPackageBlob.Read(read.Bytes(0), shape);
        Assert.Equal(Bend[..4], shape.Vertices.ToArray().Select(v => v with { Measure = v.East == 512_030 ? 30 : 0 }));
        Assert.Equal(CurveBox.Of(shape.Vertices) with { MaxEast = 512_040 }, header.Box);
    }
}
