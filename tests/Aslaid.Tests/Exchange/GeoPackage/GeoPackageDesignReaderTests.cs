using System.IO;
using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class GeoPackageDesignReaderTests
{
    private static DesignIntake Intake(string path, string? system = null)
    {
        using var stream = File.OpenRead(path);
        return DesignReaders.Read(stream, new("design.gpkg", null, system));
    }

    [Fact]
    public void Read_OwnRecord_IsTheSameGeometry()
    {
        var record = Derivation.Derive(SampleInputs.Of(Workbench.SampleSites.Clean(4) with { Design = null }));
        using var folder = DeliveryFolder.With(new GeoPackageDeliverable(), ExchangeSite.Small() with { Record = record });
        var file = Intake(folder.PathOf("record.gpkg")).Design!;
        Assert.Contains(file.Skipped, line => line.StartsWith("table lines_chorded skipped", StringComparison.Ordinal));
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            var path = run.Path;
            var line = file.Lines.First(one => one.Words[0] == run.Code && one.Path.Vertices[0].At.DistanceTo(path.Vertices[0].At) < 1e-9 && Math.Abs(one.Path.PlanLength - run.PlanLength) < 1e-6);
            Assert.Equal(run.PieceCount, line.Path.Pieces.Length);
            for (var along = 0.0; along < path.PlanLength; along += 0.9) Assert.True(line.Path.Locate(path.PointAt(along)).Distance < 1e-8);
        }
    }

    [Fact]
    public void Read_StreamOfBytes_IsTheSameAsTheFile()
    {
        using var folder = DeliveryFolder.With(new GeoPackageDeliverable(), ExchangeSite.Small());
        var bytes = DesignReaders.Read(new MemoryStream(File.ReadAllBytes(folder.PathOf("record.gpkg"))), new("record.gpkg")).Design!;
        Assert.Equal(Intake(folder.PathOf("record.gpkg")).Design!.Lines.Select(line => line.Path.PlanLength), bytes.Lines.Select(line => line.Path.PlanLength));
    }

    private const string Write = """
        import sys
        from osgeo import ogr, osr
        ogr.UseExceptions(); osr.UseExceptions()
        def made(path, epsg, rows, kind=ogr.wkbUnknown):
            ds = ogr.GetDriverByName('GPKG').CreateDataSource(path)
            srs = osr.SpatialReference(); srs.ImportFromEPSG(epsg); srs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
            layer = ds.CreateLayer('lines', srs, kind)
            layer.CreateField(ogr.FieldDefn('code', ogr.OFTString))
            for code, wkt in rows:
                f = ogr.Feature(layer.GetLayerDefn()); f['code'] = code
                if wkt: f.SetGeometry(ogr.CreateGeometryFromWkt(wkt))
                layer.CreateFeature(f)
        made(sys.argv[1] + '/grid.gpkg', 25832, [
            ('A', 'LINESTRING Z (512000 6243000 5, 512010 6243000 6)'),
            ('B', 'CIRCULARSTRING (512000 6243000, 512010 6243010, 512020 6243000)'),
            ('C', 'COMPOUNDCURVE Z ((512000 6243000 5, 512010 6243000 5), CIRCULARSTRING Z (512010 6243000 5, 512017.0710678 6243002.9289322 5, 512020 6243010 5))'),
            ('D', 'CURVEPOLYGON (CIRCULARSTRING (512000 6243000, 512010 6243000, 512000 6243000))'),
            ('E', 'MULTILINESTRING ((512000 6243000, 512000 6243007), (512001 6243000, 512001 6243009))'),
            ('F', 'POLYGON ((512000 6243000, 512010 6243000, 512010 6243010, 512000 6243000))'),
            ('G', 'POINT ZM (512000 6243000 7 1)'), ('H', None), ('I', 'LINESTRING EMPTY')])
        made(sys.argv[1] + '/degrees.gpkg', 4326, [('A', 'POINT (9.19 56.33)')])
        """;

    [Fact]
    public void Read_WhatGdalWrites_IsThat()
    {
        using var folder = new TempFolder();
        ForeignTool.Python(Write, ["osgeo"], folder[""]);
        var file = Intake(folder["grid.gpkg"], "EPSG:25832").Design!;
        double Length(string code) => file.Lines.Where(line => line.Words[0] == code).Sum(line => line.Path.PlanLength);
        Assert.Equal(10, Length("A"), 1e-9);
        Assert.Equal(10 * Math.PI, Length("B"), 1e-8);
        Assert.Equal(10 + 5 * Math.PI, Length("C"), 1e-6);
        Assert.Equal(10 * Math.PI, Length("D"), 1e-8);
        Assert.Equal(16, Length("E"), 1e-9);
        Assert.True(file.Lines.Single(line => line.Words[0] == "F").Path.IsClosed);
        Assert.Equal(7, file.Points.Single().Height);
        Assert.Equal(5.5, file.Lines[0].HeightAt(5)!.Value, 1e-9);
        Assert.Equal(2, file.Skipped.Count(line => line.Contains("no geometry", StringComparison.Ordinal) || line.Contains("empty", StringComparison.Ordinal)));
        Assert.Contains("another coordinate system than the site's", Intake(folder["grid.gpkg"], "EPSG:25833").Refused!.Message("design.gpkg"), StringComparison.Ordinal);
        Assert.Contains("was taken as the site grid", Intake(folder["grid.gpkg"]).Design!.Skipped[0], StringComparison.Ordinal);
        Assert.Contains("names no coordinate system", Intake(folder["degrees.gpkg"]).Refused!.Message("design.gpkg"), StringComparison.Ordinal);
        var point = Assert.Single(Intake(folder["degrees.gpkg"], "EPSG:25832").Design!.Points);
        Assert.True(point.At.DistanceTo(GridToGeographic.For("EPSG:25832").Back(new(9.19, 56.33))) < 1e-6);
    }

    [Fact]
    public void Read_DamagedPages_EndInADesignOrARefusal()
    {
        using var folder = DeliveryFolder.With(new GeoPackageDeliverable(), ExchangeSite.Small());
        var good = File.ReadAllBytes(folder.PathOf("record.gpkg"));
        var numbers = new Random(6);
        for (var i = 0; i < 300; i++)
        {
            var bytes = good.AsSpan(0, numbers.Next(5) == 0 ? numbers.Next(1000, good.Length) : good.Length).ToArray();
            for (var k = numbers.Next(20); k >= 0; k--) bytes[numbers.Next(100, bytes.Length)] = (byte)numbers.Next(256);
            var intake = DesignReaders.Read(new MemoryStream(bytes), new("design.gpkg"));
            Assert.True(intake.Design is null != intake.Refused is null);
        }

        Assert.Contains("is damaged", DesignReaders.Read(new MemoryStream([.. "SQLite format 3\0"u8, 1, 2, 3]), new("design.gpkg")).Refused!.Message("design.gpkg"), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_AnyGeometryBytes_EndWithoutHarm()
    {
        var good = Convert.FromHexString(Reference.File("09_curve_wkb.csv").Split('\n').Skip(1).Select(line => line.Split(',').FirstOrDefault(cell => cell.Length > 20 && cell.All(char.IsAsciiHexDigit))).First(hex => hex is not null)!);
        var numbers = new Random(2);
        for (var i = 0; i < 20_000; i++)
        {
            var bytes = good.AsSpan(0, numbers.Next(6) == 0 ? numbers.Next(good.Length) : good.Length).ToArray();
            for (var k = numbers.Next(4); k >= 0 && bytes.Length > 0; k--) bytes[numbers.Next(bytes.Length)] = (byte)numbers.Next(numbers.Next(2) == 0 ? 18 : 256);
            try
            {
                new WkbDesign(bytes, null).Read();
            }
            catch (DesignRefusedException)
            {
                continue;
            }
        }
    }
}
