using System.Globalization;
using System.IO;
using Aslaid.Exchange;
using Aslaid.Record;
using static Aslaid.Tests.GeoPackageSample;

namespace Aslaid.Tests;

/// <summary>Designs out of GeoPackages of our own, of GDAL, made by hand, and broken.</summary>
public sealed class GeoPackageDesignReaderTests : IDisposable
{
    private const string Site = "EPSG:25832";
    private readonly TemporaryFile _at = new(".gpkg");

    public void Dispose() => _at.Dispose();

    private static readonly SpatialReference Utm = SpatialReference.Epsg(25832, "ETRS89 / UTM zone 32N", "PROJCS[\"ETRS89 / UTM zone 32N\",UNIT[\"metre\",1],AUTHORITY[\"EPSG\",\"25832\"]]");

    private DesignIntake Read(string? system = null, double? unit = null)
    {
        using var file = new FileStream(_at.Name, FileMode.Open, FileAccess.Read);
        return DesignReaders.Read(file, new("design.gpkg", unit, system));
    }

    private DesignFile Design(string? system = null, double? unit = null)
    {
        var intake = Read(system, unit);
        Assert.Null(intake.Refused?.Message("design.gpkg"));
        return intake.Design!;
    }

    private string Refused(string? system = null)
    {
        var intake = Read(system);
        Assert.Null(intake.Design);
        return intake.Refused!.Message("design.gpkg");
    }

    private GeoPackageFile New(params SpatialReference[] more) => GeoPackageFile.Create(_at.Name, [SpatialReference.SiteGrid, .. more]);

    private static void Sql(GeoPackageFile file, string sql, params object?[] values)
    {
        using var command = file.Connection.CreateCommand();
        command.CommandText = sql;
        for (var i = 0; i < values.Length; i++) command.Parameters.AddWithValue($"${i}", values[i] ?? DBNull.Value);
        command.ExecuteNonQuery();
    }

    /// <summary>A table with a text column code, filled with blobs.</summary>
    private static void Table(GeoPackageFile file, string name, int srsId, params byte[]?[] blobs)
    {
        var quoted = '"' + name.Replace("\"", "\"\"", StringComparison.Ordinal) + '"';
        Sql(file, $"CREATE TABLE {quoted} (fid INTEGER PRIMARY KEY, geom GEOMETRY, code TEXT)");
        Sql(file, "INSERT INTO gpkg_contents (table_name, data_type, srs_id) VALUES ($0, 'features', $1)", name, srsId);
        Sql(file, "INSERT INTO gpkg_geometry_columns VALUES ($0, 'geom', 'GEOMETRY', $1, 2, 2)", name, srsId);
        foreach (var blob in blobs) Sql(file, $"INSERT INTO {quoted} (geom, code) VALUES ($0, 'KB')", blob);
    }

    private void One(int srsId, params WkbText[] wkb)
    {
        using var file = New(Utm);
        Table(file, "kerbs", srsId, [.. wkb.Select(one => WkbText.Blob(srsId, one.Bytes))]);
    }

    private static void AssertPlaces(DesignLine line, params (double East, double North)[] places)
    {
        Assert.Equal(places.Length, line.Path.Vertices.Length);
        for (var i = 0; i < places.Length; i++)
            Assert.InRange(line.Path.Vertices[i].At.DistanceTo(new(512_000 + places[i].East, 6_243_000 + places[i].North)), 0, 1e-9);
    }

    [Fact]
    public void Read_OwnFile_GivesItsCurves()
    {
        CurveVertex[] bend = [Vertex(0, 0), Vertex(30, 0), Vertex(36, 2, onArc: true), Vertex(40, 10), Vertex(38, 16, onArc: true), Vertex(30, 20), Vertex(10, 20)];
        CurveVertex[] circle = [Vertex(103, 104), Vertex(97, 96, onArc: true), Vertex(103, 104)];
        CurveVertex[] stadium = [Vertex(0, 0), Vertex(20, 0), Vertex(25, 5, onArc: true), Vertex(20, 10), Vertex(0, 10), Vertex(-5, 5, onArc: true), Vertex(0, 0),
            Vertex(13, 9), Vertex(7, 1, onArc: true), Vertex(13, 9)];
        using (var file = Create(_at.Name, Points, Runs, Areas, Entries))
        {
            using var transaction = file.Begin();
            Fill(file, Points, [(7, [Vertex(1, 2)])]);
            Fill(file, Runs, [(1, bend), (2, circle)]);
            using (var areas = file.Fill(Areas))
            {
                areas.Start(1, stadium, [7, 10]);
                areas.Rows.Real(areas.FirstColumn, 200.0);
                areas.Rows.Row();
                areas.Complete(Noon);
            }

            transaction.Commit();
        }

        var design = Design();
        Assert.Empty(design.Skipped);
        Assert.Equal(["areas/1", "areas/1 (2)", "runs/1", "runs/2"], design.Lines.Select(line => line.Name));
        var point = Assert.Single(design.Points);
        Assert.Equal(("points/7", new Point2(512_001, 6_243_002), 5.0), (point.Name, point.At, point.Height));
        Assert.Equal(["WM1", "points", "points/7"], point.Words);

        var (outer, hole, run, ring) = (design.Lines[0].Path, design.Lines[1].Path, design.Lines[2].Path, design.Lines[3].Path);
        Assert.Equal(30 + 10 * Math.PI + 20, run.PlanLength, 1e-9);
        Assert.Equal(2, run.Pieces.Count(piece => piece.Kind == PieceKind.Arc && Math.Abs(piece.Arc.Radius - 10) < 1e-8 && piece.Arc.Centre.DistanceTo(new(512_030, 6_243_010)) < 1e-8));
        Assert.Equal(5.0, run.HeightAt(35));
        Assert.True(ring is { IsClosed: true, Pieces: [{ Arc: { IsFullCircle: true, Radius: 5 } }] });
        Assert.Equal(new(512_100, 6_243_100), ring.Pieces[0].Arc.Centre);
        Assert.True(outer.IsClosed && hole.IsClosed);
        Assert.Equal(200 + 25 * Math.PI, outer.SignedArea!.Value, 1e-9);
        Assert.Equal(25 * Math.PI, Math.Abs(hole.SignedArea!.Value), 1e-9);
    }

    [Fact]
    public void Read_AnyArcWritten_IsTheSameArc() => CurveGen.Arc.Array[20].Sample(arcs =>
    {
        using var at = new TemporaryFile(".gpkg");
        using (var file = Create(at.Name, Runs))
        {
            using var transaction = file.Begin();
            Fill(file, Runs, arcs.Select((arc, i) => ((long)i + 1, arc.Vertices)));
            transaction.Commit();
        }

        using var stream = new FileStream(at.Name, FileMode.Open, FileAccess.Read);
        var lines = DesignReaders.Read(stream, new("design.gpkg")).Design!.Lines;
        for (var i = 0; i < arcs.Length; i++)
        {
            var (truth, path) = (arcs[i], lines[i].Path);
            var found = Assert.Single(path.Pieces).Arc;
            Assert.Equal(new(truth.At(0, false).East, truth.At(0, false).North), found.From);
            for (var share = 0.1; share < 1; share += 0.1)
            {
                var (at1, there) = (truth.At(share, false), found.PointAt(found.PlanLength * share));
                Assert.InRange(there.DistanceTo(new(at1.East, at1.North)), 0, 1e-7 + 1e-8 * truth.Radius); // m: three rounded places tell the arc between them
            }

            Assert.InRange(path.Vertices[1].At.DistanceTo(new(truth.At(0.5, true).East, truth.At(0.5, true).North)), 0, 1e-9);
            Assert.Equal(5.5, path.Vertices[1].Height);
        }
    }, iter: 20);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Read_EveryKind_InEitherByteOrder(bool big)
    {
        WkbText W(bool other = false) => new(big ^ other);
        One(25832,
            W().Kind(1001).Reals(512_001, 6_243_001, 7),
            W().Kind(4).Count(2).Member(W(true).Kind(1).Reals(512_002, 6_243_002)).Member(W().Kind(1).Reals(512_003, 6_243_003)),
            W().Kind(2002).Places([0, 0, 99], [3, 4, 98]), // measures are passed over
            W().Kind(3005).Count(2).Member(W(true).Kind(3002).Places([0, 0, 1, 99], [1, 0, 2, 98])).Member(W().Kind(3002).Places([0, 1, 1, 99], [1, 1, 2, 98])),
            W().Kind(8).Places([0, 0], [5, 5], [10, 0]),
            W().Kind(1011).Count(2)
                .Member(W(true).Kind(1009).Count(2).Member(W().Kind(1002).Places([0, 0, 1], [10, 0, 2])).Member(W(true).Kind(1008).Places([10, 0, 2], [15, 5, 3], [10, 10, 4])))
                .Member(W().Kind(1008).Places([20, 0, 1], [25, 5, 1], [20, 10, 1])),
            W().Kind(3).Count(2).Places([0, 0], [10, 0], [10, 10], [0, 0]).Places([5, 1], [6, 1], [6, 2], [5, 1]),
            W().Kind(6).Count(1).Member(W(true).Kind(3).Count(1).Places([0, 0], [10, 0], [10, 10], [0, 0])),
            W().Kind(12).Count(1).Member(W().Kind(10).Count(1).Member(W(true).Kind(8).Places([0, 0], [10, 0], [0, 0]))),
            W().Kind(7).Count(1).Member(W().Kind(0xA0000002).Count(25832).Places([0, 0, 1], [0, 9, 2])), // EWKB
            W().Kind(8).Places([0, 0], [5, 0], [10, 0])); // in line: a straight
        var design = Design(Site);
        Assert.Empty(design.Skipped);
        Assert.Equal([7.0, null, null], design.Points.Select(point => point.Height));
        Assert.All(design.Points, point => Assert.Equal("KB", point.Words[0]));
        Assert.Equal(12, design.Lines.Length);
        AssertPlaces(design.Lines[0], (0, 0), (3, 4));
        Assert.Null(design.Lines[0].Path.Vertices[0].Height);
        Assert.Equal(2.0, design.Lines[2].Path.Vertices[1].Height);
        Assert.Equal(5 * Math.PI, design.Lines[3].Path.PlanLength, 1e-9);
        AssertPlaces(design.Lines[4], (0, 0), (10, 0), (15, 5), (10, 10));
        Assert.Equal([1.0, 2.0, 3.0, 4.0], design.Lines[4].Path.Vertices.Select(vertex => vertex.Height));
        Assert.Equal(10 + 5 * Math.PI, design.Lines[4].Path.PlanLength, 1e-9);
        Assert.All(design.Lines[6..10], line => Assert.True(line.Path.IsClosed));
        Assert.Equal(5.0, design.Lines[9].Path.Pieces[0].Arc.Radius);
        Assert.Equal(2.0, design.Lines[10].Path.Vertices[1].Height);
        Assert.Equal((2, 10.0), (design.Lines[11].Path.Pieces.Length, design.Lines[11].Path.PlanLength));
        Assert.Equal("kerbs/11", design.Lines[11].Name);
    }

    [Fact]
    public void Read_Triangles_AreOneSurfaceOfTheTable()
    {
        WkbText Face(uint kind, params double[][] corners) => new WkbText().Kind(kind).Count(1).Places(corners);
        One(0,
            new WkbText().Kind(1016).Count(2).Member(Face(1017, [0, 0, 1], [10, 0, 2], [0, 10, 3], [0, 0, 1])).Member(Face(1017, [10, 0, 2], [10, 10, 4], [0, 10, 3], [10, 0, 2])),
            Face(1017, [10, 0, 2], [20, 0, 2], [10, 10, 4], [10, 0, 2]),
            new WkbText().Kind(1015).Count(1).Member(Face(1003, [0, 0, 1], [1, 0, 1], [1, 1, 1], [0, 1, 1], [0, 0, 1])));
        var design = Design();
        var surface = Assert.Single(design.Surfaces);
        Assert.Equal(("kerbs", 3), (surface.Name, surface.Tin.TriangleCount));
        Assert.Equal(["face of the surface of table kerbs skipped: it has other than three corners."], design.Skipped);
    }

    [Fact]
    public void Read_Columns_SayNameAndWords()
    {
        using (var file = New())
        {
            Sql(file, "CREATE TABLE \"a \"\" 'b\" (id INTEGER PRIMARY KEY, \"the geom\" BLOB, \"Type\" TEXT, LAYER TEXT, Desc INTEGER, code BLOB, Name TEXT, label REAL)");
            Sql(file, "INSERT INTO gpkg_contents (table_name, data_type, srs_id) VALUES ('a \" ''b', 'features', -1)");
            Sql(file, "INSERT INTO gpkg_geometry_columns VALUES ('a \" ''b', 'THE GEOM', 'LINESTRING', -1, 0, 0)");
            var line = WkbText.Blob(-1, new WkbText().Kind(2).Places([0, 0], [1, 0]).Bytes);
            Sql(file, "INSERT INTO \"a \"\" 'b\" VALUES (3, $0, 'kerb', ' roads ', 17, x'4142', 'Line A', 1.5)", line);
            Sql(file, "INSERT INTO \"a \"\" 'b\" VALUES (4, $0, NULL, NULL, NULL, 'KB', ' ', 1.5)", line);
            Sql(file, "INSERT INTO \"a \"\" 'b\" VALUES (5, $0, NULL, NULL, NULL, NULL, NULL, NULL)", line);
            Sql(file, "INSERT INTO \"a \"\" 'b\" VALUES (6, NULL, NULL, NULL, NULL, NULL, NULL, NULL)");
        }

        var design = Design();
        Assert.Equal(["Line A", "1.5", "a \" 'b/5"], design.Lines.Select(line => line.Name));
        Assert.Equal(["17", "roads", "kerb", "a \" 'b", "Line A"], design.Lines[0].Words);
        Assert.Equal(["KB", "a \" 'b", "1.5"], design.Lines[1].Words);
        Assert.Equal(["feature of table a \" 'b skipped: it has no geometry."], design.Skipped);
    }

    [Fact]
    public void Read_OwnLayers_LeavesTheChordedCopiesOut()
    {
        using (var file = New())
        {
            using var transaction = file.Begin();
            foreach (var table in RecordLayers.Tables(SpatialReference.SiteGrid.SrsId)) file.Add(table, Noon);
            transaction.Commit();
        }

        Assert.Equal(["table areas_chorded skipped: it is a copy of areas without arcs.", "table lines_chorded skipped: it is a copy of lines without arcs."], Design(Site).Skipped);
    }

    [Fact]
    public void Read_EmptyGeometries_AreCounted()
    {
        using (var file = New())
        {
            var blob = WkbText.Blob(0, new WkbText().Kind(1).Reals(double.NaN, double.NaN).Bytes);
            var stated = WkbText.Blob(0, new WkbText().Kind(2).Count(0).Bytes);
            stated[3] |= 0x10;
            Table(file, "kerbs", 0, blob, stated, WkbText.Blob(0, new WkbText().Kind(2).Count(0).Bytes), WkbText.Blob(0, new WkbText().Kind(9).Count(0).Bytes),
                WkbText.Blob(0, new WkbText().Kind(10).Count(0).Bytes), WkbText.Blob(0, new WkbText().Kind(2).Places([1, 1], [1, 1]).Bytes),
                WkbText.Blob(0, new WkbText().Kind(3).Count(1).Places([0, 0], [1, 0], [1, 1]).Bytes));
        }

        var design = Design();
        Assert.Empty(design.Lines);
        Assert.Equal(["5 × geometry of table kerbs skipped: it is empty.", "line of table kerbs skipped: it has no length.", "ring of table kerbs skipped: its last position is not its first."], design.Skipped);
    }

    [Fact]
    public void Read_View_IsNotRun()
    {
        using (var file = New())
        {
            Table(file, "kerbs", 0);
            Sql(file, "CREATE VIEW endless AS WITH RECURSIVE n(fid) AS (SELECT 1 UNION ALL SELECT fid + 1 FROM n) SELECT fid, NULL AS geom FROM n");
            Sql(file, "INSERT INTO gpkg_contents (table_name, data_type, srs_id) VALUES ('endless', 'features', 0)");
            Sql(file, "INSERT INTO gpkg_geometry_columns VALUES ('endless', 'geom', 'POINT', 0, 0, 0)");
        }

        Assert.Equal(["table endless skipped: it is no table stored in the file; views are not run."], Design().Skipped);
    }

    private static WkbText Straight => new WkbText().Kind(1002).Places([0, 0, 1], [3, 4, 2]);

    [Theory]
    [InlineData(25832, "EPSG:32632", "'EPSG:25832' is the coordinate system of table kerbs, and that of the site is EPSG:32632")]
    [InlineData(25832, null, "'EPSG:25832' is the coordinate system of table kerbs, and the site names none")]
    [InlineData(4326, null, "'EPSG:4326' is the coordinate system of table kerbs, and the site names none")]
    [InlineData(4326, "EPSG:2154", "cannot be brought to that of the site, EPSG:2154. EPSG:2154 is not known here")]
    [InlineData(4326, Site, "512000, 6243000 is no longitude and latitude")]
    [InlineData(777, Site, "'777' is the spatial reference of table kerbs, and the file does not say what that is")]
    public void Read_AnotherSystem_IsRefused(int srsId, string? system, string told)
    {
        using (var file = New(Utm))
        {
            Sql(file, "PRAGMA foreign_keys=OFF");
            Table(file, "kerbs", srsId, WkbText.Blob(srsId, Straight.Bytes));
        }

        Assert.Contains(told, Refused(system), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_SiteGrids_AreTaken()
    {
        foreach (var srsId in (int[])[-1, 0, 100001])
        {
            File.Delete(_at.Name);
            One(srsId, Straight);
            AssertPlaces(Assert.Single(Design().Lines), (0, 0), (3, 4));
            AssertPlaces(Assert.Single(Design(Site).Lines), (0, 0), (3, 4));
        }
    }

    [Fact]
    public void Read_Units_AreMetresAfterwards()
    {
        using (var file = New(new SpatialReference(100002, "plant grid", "NONE", 100002, "LOCAL_CS[\"plant grid\",UNIT[\"foot\",0.3048]]")))
        {
            Table(file, "feet", 100002, WkbText.Blob(100002, new WkbText().Kind(1001).Reals(10_000, 20_000, 10).Bytes));
            Table(file, "unstated", 0, WkbText.Blob(0, new WkbText().Kind(1001).Reals(100, 200, 10).Bytes));
        }

        var points = Design(unit: 0.5).Points;
        Assert.Equal((new Point2(3048, 6096), 3.048), (points[0].At, points[0].Height!.Value));
        Assert.Equal((new Point2(50, 100), 5.0), (points[1].At, points[1].Height!.Value));
    }

    [Fact]
    public void Read_SystemByText_IsThatOfTheSite()
    {
        const string site = "PROJCS[\"own\", GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]]], UNIT[\"metre\",1]]";
        using (var file = New(new SpatialReference(100003, "own", "NONE", 100003, site.Replace(" ", "", StringComparison.Ordinal).Replace("WGS84", "WGS 84", StringComparison.Ordinal))))
            Table(file, "kerbs", 100003, WkbText.Blob(100003, Straight.Bytes));
        AssertPlaces(Assert.Single(Design(site).Lines), (0, 0), (3, 4));
        Assert.Contains("'own' is the coordinate system of table kerbs, and that of the site is EPSG:25832", Refused(Site), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_LongitudeAndLatitude_AreBroughtToTheGrid()
    {
        var grid = GridToGeographic.For(Site);
        var (from, to) = (grid.Of(new(512_000, 6_243_000)), grid.Of(new(512_030, 6_243_040)));
        One(4326, new WkbText().Kind(1002).Count(2).Reals(from.Longitude, from.Latitude, 4, to.Longitude, to.Latitude, 5));
        var design = Design(Site);
        var line = Assert.Single(design.Lines);
        Assert.InRange(line.Path.Vertices[0].At.DistanceTo(new(512_000, 6_243_000)), 0, 1e-4);
        Assert.InRange(line.Path.Vertices[1].At.DistanceTo(new(512_030, 6_243_040)), 0, 1e-4);
        Assert.Equal(5.0, line.Path.Vertices[1].Height);
        Assert.Contains("Longitude and latitude in table kerbs were brought from WGS 84 to ETRS89 / UTM zone 32N", Assert.Single(design.Skipped), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(9.0, 55.0, 0, "an arc through longitudes and latitudes is none")]
    [InlineData(120.0, 55.0, 1, "lies too far from ETRS89 / UTM zone 32N")]
    [InlineData(9.0, 95.0, 1, "is no longitude and latitude")]
    public void Read_DegreesThatCannotBeBrought_AreRefused(double longitude, double latitude, int straight, string told)
    {
        One(4326, straight == 1
            ? new WkbText().Kind(1).Reals(longitude, latitude)
            : new WkbText().Kind(8).Count(3).Reals(longitude, latitude, longitude + 0.001, latitude, longitude, latitude + 0.001));
        Assert.Contains(told, Refused(Site), StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Broken => new()
    {
        { "counts", "4294967295 items are announced, more than the bytes left can hold" },
        { "nesting", "geometries lie in one another more than 8 deep" },
        { "short", "more bytes are needed" },
        { "long", "the geometry ends here and 3 bytes follow" },
        { "far", "1E+300, 6243000 is a place on no grid" },
        { "nan", "NaN, 6243000 is a place on no grid" },
        { "high", "1E+300 is a height of no site" },
        { "order", "byte order 9 is neither 0 nor 1" },
        { "kind", "geometry code 99 is not read" },
        { "even", "a circular string has 4 vertices" },
        { "gap", "a member of a curve does not start where the one before ends" },
        { "back", "the middle of an arc lies in line with its ends but not between them" },
        { "member", "a compound curve has a member of kind 3" },
        { "srs", "its geometry names spatial reference 31, its table 25832" },
        { "text", "its geometry is a text; bytes were expected" },
        { "letters", "does not start with the letters GP" },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void Read_BrokenGeometry_IsRefusedWithItsPlace(string how, string told)
    {
        var nest = new WkbText().Kind(1).Reals(512_000, 6_243_000);
        for (var i = 0; i < 10; i++) nest = new WkbText().Kind(7).Count(1).Member(nest);
        var wkb = how switch
        {
            "counts" => new WkbText().Kind(2).Count(uint.MaxValue).Bytes,
            "nesting" => nest.Bytes,
            "short" => new WkbText().Kind(1).Reals(512_000, 6_243_000).Bytes[..^3],
            "long" => [.. Straight.Bytes, 0, 0, 0],
            "far" => new WkbText().Kind(1).Reals(1e300, 6_243_000).Bytes,
            "nan" => new WkbText().Kind(1).Reals(double.NaN, 6_243_000).Bytes,
            "high" => new WkbText().Kind(1001).Reals(512_000, 6_243_000, 1e300).Bytes,
            "order" => [9, 0, 0, 0, 0],
            "kind" => new WkbText().Kind(99).Count(0).Bytes,
            "even" => new WkbText().Kind(8).Places([0, 0], [1, 1], [2, 0], [3, 0]).Bytes,
            "gap" => new WkbText().Kind(9).Count(2).Member(new WkbText().Kind(2).Places([0, 0], [1, 0])).Member(new WkbText().Kind(2).Places([1, 0.001], [2, 0])).Bytes,
            "back" => new WkbText().Kind(8).Places([0, 0], [9, 0], [4, 0]).Bytes,
            "member" => new WkbText().Kind(9).Count(1).Member(new WkbText().Kind(3).Count(1).Places([0, 0], [1, 0])).Bytes,
            _ => Straight.Bytes,
        };
        using (var file = New(Utm))
        {
            Table(file, "kerbs", 25832, WkbText.Blob(25832, Straight.Bytes), how == "letters" ? wkb : WkbText.Blob(how == "srs" ? 31 : 25832, wkb));
            if (how == "text") Sql(file, "UPDATE kerbs SET geom = 'POINT (1 2)' WHERE fid = 2");
        }

        var message = Refused(Site);
        Assert.Contains(told, message, StringComparison.Ordinal);
        Assert.StartsWith("design.gpkg: table kerbs, feature 2: ", message, StringComparison.Ordinal);
        Assert.EndsWith(".", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_WhatIsNoDesign_IsRefused()
    {
        using (var file = New()) { }
        Assert.Contains("lists no table of features", Refused(), StringComparison.Ordinal);
        using (var file = GeoPackageFile.Open(_at.Name))
        {
            Table(file, "kerbs", 0);
            Sql(file, "UPDATE gpkg_geometry_columns SET column_name = 'shape'");
        }

        Assert.Contains("'shape' is no column of table kerbs", Refused(), StringComparison.Ordinal);
        using (var file = GeoPackageFile.Open(_at.Name)) Sql(file, "PRAGMA foreign_keys=OFF; DROP TABLE gpkg_contents");
        Assert.Contains("of SQLite but no GeoPackage", Refused(), StringComparison.Ordinal);
        File.Delete(_at.Name);
        using (var file = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={_at.Name};Pooling=False"))
        {
            file.Open();
            using var command = file.CreateCommand();
            command.CommandText = "PRAGMA encoding = 'UTF-16'; CREATE TABLE gpkg_contents (table_name TEXT)";
            command.ExecuteNonQuery();
        }

        Assert.Contains("keeps its texts in UTF-16", Refused(), StringComparison.Ordinal);
        File.WriteAllText(_at.Name, "SQLite format 3\0and then nothing of the kind");
        Assert.Contains("SQLite cannot read the file", Refused(), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ChangesBesideTheFile_AreAskedFor()
    {
        One(0, Straight);
        File.WriteAllBytes(_at.Name + "-wal", [1, 2, 3]);
        Assert.Contains("holds changes that are not in it yet", Refused(), StringComparison.Ordinal);
        File.WriteAllBytes(_at.Name + "-wal", []);
        Assert.Single(Design().Lines);
    }

    [Fact]
    public void Read_FromMemory_IsTheSameAndLeavesNothingBehind()
    {
        One(0, Straight);
        using var memory = new MemoryStream(File.ReadAllBytes(_at.Name));
        var intake = DesignReaders.Read(memory, new("design.gpkg"));
        Assert.Equal(Design().Lines[0].Path.Vertices, intake.Design!.Lines[0].Path.Vertices);
    }

    [Fact]
    public void Read_FileInWalMode_IsReadAsItStands()
    {
        One(0, Straight);
        var bytes = File.ReadAllBytes(_at.Name);
        (bytes[18], bytes[19]) = (2, 2); // the header's mark of a write-ahead log
        File.WriteAllBytes(_at.Name, bytes);
        Assert.Single(Design().Lines);
        Assert.Equal(bytes, File.ReadAllBytes(_at.Name));
        Assert.False(File.Exists(_at.Name + "-wal") || File.Exists(_at.Name + "-shm"));
    }

    [Fact]
    public void Read_FileWrittenByGdal_GivesItsCurves()
    {
        ForeignTool.Python("""
            import sys
            from osgeo import ogr, osr
            ogr.UseExceptions()
            grid = osr.SpatialReference()
            grid.ImportFromEPSG(25832)
            d = ogr.GetDriverByName('GPKG').CreateDataSource(sys.argv[1])
            def layer(name, kind, wkts):
                l = d.CreateLayer(name, grid, kind)
                l.CreateField(ogr.FieldDefn('Code', ogr.OFTString))
                for w in wkts:
                    f = ogr.Feature(l.GetLayerDefn())
                    f.SetField('Code', 'KB')
                    f.SetGeometry(ogr.CreateGeometryFromWkt(w))
                    l.CreateFeature(f)
            layer('Kerb design', ogr.wkbCompoundCurveZ, ['COMPOUNDCURVE Z ((512000 6243000 5,512030 6243000 5),CIRCULARSTRING Z (512030 6243000 5,512036 6243002 5,512040 6243010 5))'])
            layer('many', ogr.wkbMultiCurve, ['MULTICURVE (CIRCULARSTRING (512000 6243000,512005 6243005,512010 6243000),(512000 6243000,512003 6243004))'])
            layer('slab', ogr.wkbCurvePolygon, ['CURVEPOLYGON (CIRCULARSTRING (512000 6243000,512010 6243000,512000 6243000))'])
            layer('lots', ogr.wkbMultiPolygonZM, ['MULTIPOLYGON ZM (((512000 6243000 1 9,512010 6243000 2 9,512010 6243010 3 9,512000 6243000 1 9)))'])
            layer('pegs', ogr.wkbMultiPointM, ['MULTIPOINT M ((512000 6243000 9),(512001 6243000 9))', 'MULTIPOINT M EMPTY'])
            layer('ground', ogr.wkbTINZ, ['TIN Z (((512000 6243000 1,512010 6243000 2,512010 6243010 3,512000 6243000 1)))'])
            d = None
            """, ["osgeo"], _at.Name);
        var design = Design(Site);
        var lines = design.Lines.ToDictionary(line => line.Name);
        Assert.Equal(["Kerb design/1", "lots/1", "many/1", "many/1 (2)", "slab/1"], lines.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(30 + 5 * Math.PI, lines["Kerb design/1"].Path.PlanLength, 1e-9);
        Assert.Equal(5.0, lines["Kerb design/1"].HeightAt(35));
        Assert.Equal(5 * Math.PI, lines["many/1"].Path.PlanLength, 1e-9);
        Assert.Equal(10 * Math.PI, lines["slab/1"].Path.PlanLength, 1e-9);
        Assert.Equal(3.0, lines["lots/1"].Path.Vertices[2].Height);
        Assert.Equal(2, design.Points.Length);
        Assert.Null(design.Points[0].Height);
        Assert.All(design.Lines, line => Assert.Equal("KB", line.Words[0]));
        Assert.Equal("ground", Assert.Single(design.Surfaces).Name);
        Assert.Equal(["geometry of table pegs skipped: it is empty."], design.Skipped);
        Assert.Contains("'EPSG:25832'", Refused("EPSG:25833"), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_DegreesWrittenByAnotherProgram_AgreeWithItsGrid()
    {
        using var source = new TemporaryFile(".csv");
        File.WriteAllText(source.Name, "x,y,name\n512000,6243000,a\n512345.678,6243210.987,b\n400000,6243000,c\n600000,6200000,d\n");
        ForeignTool.Run("ogr2ogr", "-f", "GPKG", _at.Name, source.Name, "-oo", "X_POSSIBLE_NAMES=x", "-oo", "Y_POSSIBLE_NAMES=y", "-s_srs", "EPSG:32632", "-t_srs", "EPSG:4326", "-nln", "pegs");
        var points = Design("EPSG:32632").Points.ToDictionary(point => point.Name);
        foreach (var (name, at) in (ReadOnlySpan<(string, Point2)>)[("a", new(512_000, 6_243_000)), ("b", new(512_345.678, 6_243_210.987)), ("c", new(400_000, 6_243_000)), ("d", new(600_000, 6_200_000))])
            Assert.InRange(points[name].At.DistanceTo(at), 0, 0.001); // m
    }

    // ---- What is broken by chance.

    private static WkbText[] Good =>
    [
        new WkbText().Kind(1001).Reals(512_001, 6_243_001, 7),
        new WkbText(true).Kind(4).Count(2).Member(new WkbText().Kind(1).Reals(512_002, 6_243_002)).Member(new WkbText(true).Kind(1).Reals(512_003, 6_243_003)),
        new WkbText().Kind(3002).Places([0, 0, 5, 0], [3, 4, 5, 5], [9, 9, 5, 12]),
        new WkbText().Kind(1009).Count(2).Member(new WkbText().Kind(1002).Places([0, 0, 1], [10, 0, 2])).Member(new WkbText().Kind(1008).Places([10, 0, 2], [15, 5, 3], [10, 10, 4])),
        new WkbText().Kind(10).Count(1).Member(new WkbText().Kind(8).Places([0, 0], [10, 0], [0, 0])),
        new WkbText().Kind(6).Count(1).Member(new WkbText().Kind(3).Count(2).Places([0, 0], [9, 0], [9, 9], [0, 0]).Places([5, 1], [6, 1], [6, 2], [5, 1])),
        new WkbText().Kind(1016).Count(1).Member(new WkbText().Kind(1017).Count(1).Places([0, 0, 1], [9, 0, 2], [0, 9, 3], [0, 0, 1])),
    ];

    private static DesignIntake InMemory(byte[] bytes)
    {
        using var memory = new MemoryStream(bytes, writable: false);
        return DesignReaders.Read(memory, new("design.gpkg", null, Site));
    }

    [Fact]
    public void Read_GeometriesChangedByChance_AreTakenOrRefused()
    {
        One(25832, Good);
        var whole = File.ReadAllBytes(_at.Name);
        var blobs = Array.ConvertAll(Good, good => WkbText.Blob(25832, good.Bytes));
        var places = Array.ConvertAll(blobs, blob => whole.AsSpan().IndexOf(blob));
        Assert.DoesNotContain(-1, places);
        Assert.NotNull(InMemory(whole).Design);
        var chance = new Random(20310504);
        var taken = 0;
        for (var round = 0; round < 20_000; round++)
        {
            var which = chance.Next(blobs.Length);
            var blob = whole.AsSpan(places[which], blobs[which].Length);
            Change(blob, chance);
            var intake = InMemory(whole);
            Assert.True(intake.Design is null != intake.Refused is null);
            if (intake.Refused is { } refused) Assert.NotEmpty(refused.Message("design.gpkg"));
            else taken++;
            blobs[which].CopyTo(blob);
        }

        Assert.InRange(taken, 1_000, 19_000); // both happen
    }

    private static void Change(Span<byte> blob, Random chance)
    {
        uint[] counts = [0, 1, 2, 3, 4, 5, 255, 65_536, int.MaxValue, uint.MaxValue, 7, 9, 1_010, 3_016, 0x80000002];
        double[] reals = [double.NaN, double.PositiveInfinity, 1e300, -1e300, 5e-324, 0, -0.0, 512_000, 6_243_000];
        for (var times = chance.Next(1, 4); times > 0; times--)
        {
            var at = chance.Next(blob.Length);
            switch (chance.Next(4))
            {
                case 0: blob[at] ^= (byte)(1 << chance.Next(8)); break;
                case 1: blob[at] = (byte)chance.Next(256); break;
                case 2: BitConverter.GetBytes(counts[chance.Next(counts.Length)]).AsSpan(0, Math.Min(4, blob.Length - at)).CopyTo(blob[at..]); break;
                default: BitConverter.GetBytes(reals[chance.Next(reals.Length)]).AsSpan(0, Math.Min(8, blob.Length - at)).CopyTo(blob[at..]); break;
            }
        }
    }

    [Fact]
    public void Read_PagesChangedByChance_AreTakenOrRefused()
    {
        One(25832, Good);
        var good = File.ReadAllBytes(_at.Name);
        var chance = new Random(20310505);
        for (var round = 0; round < 600; round++)
        {
            var bytes = round % 10 == 0 ? good[..chance.Next(1, good.Length)] : (byte[])good.Clone();
            var page = chance.Next((bytes.Length + 4095) / 4096) * 4096;
            for (var times = chance.Next(1, 30); times > 0; times--)
                bytes[chance.Next(2) == 0 ? Math.Min(page + chance.Next(120), bytes.Length - 1) : chance.Next(16, Math.Max(17, bytes.Length)) % bytes.Length] = (byte)chance.Next(256);
            var intake = InMemory(bytes);
            Assert.True(intake.Design is null != intake.Refused is null);
        }
    }

    [Fact]
    public void Read_GeometriesCutShort_AreRefused()
    {
        One(25832, Good);
        using var file = GeoPackageFile.Open(_at.Name);
        foreach (var (good, fid) in Good.Select((good, i) => (WkbText.Blob(25832, good.Bytes), i + 1)))
        {
            for (var length = 0; length < good.Length; length += 7)
            {
                Sql(file, "UPDATE kerbs SET geom = $0 WHERE fid = $1", good[..length], fid);
                Assert.StartsWith($"design.gpkg: table kerbs, feature {fid.ToString(CultureInfo.InvariantCulture)}: ", Refused(Site), StringComparison.Ordinal);
            }

            Sql(file, "UPDATE kerbs SET geom = $0 WHERE fid = $1", good, fid);
        }
    }
}
