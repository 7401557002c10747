using System.Globalization;
using System.IO;
using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
using NetTopologySuite.Geometries;

namespace Aslaid.Tests;

/// <summary>The record of the sample site as other makers' programs read it: from the project file itself and from a handover.</summary>
public sealed class RecordForeignTests : IDisposable
{
    private readonly TempFolder folder = new();

    private const string Lengths = """
        import json, sys
        from osgeo import ogr, gdal
        gdal.UseExceptions()
        gdal.SetConfigOption('OGR_ARC_STEPSIZE', '0.05')
        source = ogr.Open(sys.argv[1])
        layers = {}
        for i in range(source.GetLayerCount()):
            layer = source.GetLayer(i)
            rows = []
            for feature in layer:
                g = feature.GetGeometryRef()
                if g is None: continue
                rows.append({'id': feature.GetFID(), 'run': feature.GetField('run') if layer.GetLayerDefn().GetFieldIndex('run') >= 0 else None,
                             'valid': bool(g.IsValid()) if layer.GetName().endswith('chorded') else True,
                             'length': g.Length(), 'area': g.Area() if 'area' in layer.GetName() else 0.0, 'z': bool(g.Is3D()), 'm': bool(g.IsMeasured())})
            layers[layer.GetName()] = {'type': ogr.GeometryTypeToName(layer.GetGeomType()), 'rows': rows}
        print(json.dumps(layers))
        """;

    private string Project(SampleSite site)
    {
        var project = folder["site.gpkg"];
        CommandLine.Fine("new", project, "--by", "Tester");
        CommandLine.Fine("control", project, folder.Write("control.csv", site.Control));
        foreach (var file in site.Shots) CommandLine.Fine("take", project, folder.Write(file.Name, file.Text), "--crew", file.Crew, "--by", "Tester");
        return project;
    }

    [Fact]
    public void Gdal_ProjectFile_ReadsEveryLayerWithOurLengthsAndAreas()
    {
        var site = SampleSites.WithMistakes(1);
        var project = Project(site);
        var layers = JsonDocument.Parse(ForeignTool.Python(Lengths, ["osgeo"], project)).RootElement;
        using var session = ProjectSession.Open(project, TimeProvider.System, readOnly: true);
        var record = session.Record();

        Assert.Equal("3D Measured Compound Curve", layers.GetProperty("lines").GetProperty("type").GetString());
        Assert.Equal("3D Curve Polygon", layers.GetProperty("areas").GetProperty("type").GetString());
        Assert.Equal("3D Point", layers.GetProperty("shots").GetProperty("type").GetString());
        Assert.Equal("3D Point", layers.GetProperty("findings").GetProperty("type").GetString());
        Assert.Equal(Enumerable.Range(0, record.Shots.Count).Count(record.Shots.IsShot), layers.GetProperty("shots").GetProperty("rows").GetArrayLength());
        Assert.Equal(record.Findings.Count, layers.GetProperty("findings").GetProperty("rows").GetArrayLength());

        var lines = layers.GetProperty("lines").GetProperty("rows").EnumerateArray().ToArray();
        var areas = layers.GetProperty("areas").GetProperty("rows").EnumerateArray().ToArray();
        Assert.Equal(Enumerable.Range(0, record.Runs.Count).Count(number => record.Runs[number].PieceCount > 0), lines.Length + areas.Length);
        foreach (var line in lines)
        {
            var run = record.Runs.Find(line.GetProperty("run").GetString()!)!.Value;
            Assert.Equal(run.PlanLength, line.GetProperty("length").GetDouble(), 1e-9);
            Assert.True(line.GetProperty("z").GetBoolean() && line.GetProperty("m").GetBoolean());
        }

        foreach (var area in areas)
        {
            var run = record.Runs.Find(area.GetProperty("run").GetString()!)!.Value;
            Assert.Equal(1, area.GetProperty("area").GetDouble() / run.Area!.Value, 1e-6);
        }

        foreach (var chorded in (string[])["lines_chorded", "areas_chorded"])
            Assert.All(layers.GetProperty(chorded).GetProperty("rows").EnumerateArray(), row => Assert.True(row.GetProperty("valid").GetBoolean()));
    }

    [Fact]
    public void Ogrinfo_ProjectFile_ListsCurveLayers()
    {
        var listed = ForeignTool.Run("ogrinfo", "-ro", "-so", Project(SampleSites.FirstDay(1)));
        Assert.Contains("Compound Curve", listed, StringComparison.Ordinal);
        Assert.Contains("Curve Polygon", listed, StringComparison.Ordinal);
        foreach (var table in RecordLayers.Tables(1).Select(table => table.Name).Append("journal").Append("raw_shots"))
            Assert.Contains(table, listed, StringComparison.Ordinal);
    }

    [Fact]
    public void Gdal_RunsWithoutHeights_AreReadWithoutHeights()
    {
        var project = folder["site.gpkg"];
        CommandLine.Fine("new", project, "--by", "Tester");
        CommandLine.Fine("take", project, folder.Write("shots.csv", "id,east,north,height,code,run\n1,512000,6243000,,KERB-FACE,K\n2,512005,6243000,5,KERB-FACE,K\n3,512000,6243009,5,KERB-FACE,L\n4,512005,6243009,5,KERB-FACE,L\n"));
        var rows = JsonDocument.Parse(ForeignTool.Python(Lengths, ["osgeo"], project)).RootElement.GetProperty("lines").GetProperty("rows").EnumerateArray().ToArray();
        Assert.Equal([false, true], rows.Select(row => row.GetProperty("z").GetBoolean()));
    }

    // A chord within a sagitta s is shorter than its arc by at most 8s²/3c (arc-to-chord, common practice); over a run the sum stays under s here.
    [Fact]
    public void NetTopologySuite_ChordedCopies_AgreeWithTrueLengthsAndAreas()
    {
        var record = Derivation.Derive(SampleInputs.Of(SampleSites.Clean(2)));
        var arcs = 0;
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            const double sagitta = 0.00001;
            var chords = run.Path.Chords(sagitta).Select(point => new Coordinate(point.At.East, point.At.North)).ToArray();
            if (run.IsClosed) chords[^1] = chords[0];
            Assert.Equal(run.PlanLength, new LineString(chords).Length, 0.0005);
            for (var piece = 0; piece < run.PieceCount; piece++) arcs += run.Piece(piece).ArcNumber >= 0 ? 1 : 0;
            if (run.Area is not { } area) continue;
            var ring = new Polygon(new LinearRing(chords));
            Assert.True(ring.IsValid, run.Key);
            Assert.Equal(area, ring.Area, sagitta * run.PlanLength);
        }

        Assert.True(arcs > 20, $"Only {arcs} arcs were compared.");
    }

    public void Dispose() => folder.Dispose();
}
