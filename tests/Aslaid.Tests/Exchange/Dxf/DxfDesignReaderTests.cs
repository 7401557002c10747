using System.Globalization;
using System.IO;
using System.Text;
using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

public class DxfDesignReaderTests
{
    private const string Metres = "0 SECTION 2 HEADER 9 $INSUNITS 70 6 0 ENDSEC ";

    /// <summary>Pairs written one after the other, blanks for line ends; an underscore is a blank.</summary>
    private static byte[] Drawing(string entities, string before = Metres, string blocks = "") => Encoding.UTF8.GetBytes(
        (before + (blocks.Length > 0 ? $"0 SECTION 2 BLOCKS {blocks} 0 ENDSEC " : "") + $"0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF").Replace(' ', '\n').Replace('_', ' ') + "\n");

    private static DesignIntake Intake(byte[] bytes, double? unit = null) => DesignReaders.Read(new MemoryStream(bytes), new("design.dxf", unit));

    private static DesignFile Read(string entities, string before = Metres, string blocks = "")
    {
        var intake = Intake(Drawing(entities, before, blocks));
        Assert.Null(intake.Refused?.Message("design.dxf"));
        return intake.Design!;
    }

    private static string Refusal(string entities, string blocks = "") => Intake(Drawing(entities, blocks: blocks)).Refused!.Message("design.dxf");

    [Fact]
    public void Read_Lines_HaveLayerAndHeights()
    {
        var line = Assert.Single(Read("0 LINE 5 2F 8 WATER-MAIN 10 512000 20 6243000 30 5 11 512010 21 6243000 31 5.5").Lines);
        Assert.Equal(("WATER-MAIN 2F", "WATER-MAIN"), (line.Name, line.Words[0]));
        Assert.Equal((10, 5.25), (line.Path.PlanLength, line.HeightAt(5)!.Value));
    }

    [Fact]
    public void Read_FlatPlan_HasNoHeights()
    {
        var file = Read("0 LINE 8 A 10 0 20 0 30 0 11 9 21 0 31 0");
        Assert.Null(file.Lines[0].HeightAt(0));
        Assert.Contains("1 entities lie at height 0 exactly", file.Skipped[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ArcAndCircle_AreExact()
    {
        var file = Read("0 ARC 8 A 10 100 20 200 40 10 50 350 51 80 0 CIRCLE 8 A 10 100 20 200 40 2 0 ARC 8 A 10 0 20 0 40 10 50 0 51 90 210 0 220 0 230 -1");
        var (arc, circle, below) = (file.Lines[0].Path.Pieces[0].Arc, file.Lines[1].Path, file.Lines[2].Path.Pieces[0].Arc);
        Assert.Equal((Math.PI / 2, 10, Turn.Left), (Math.Round(arc.Sweep, 12) == Math.Round(Math.PI / 2, 12) ? Math.PI / 2 : arc.Sweep, Math.Round(arc.Radius, 9), arc.Turn));
        Assert.Equal(100 + 10 * Math.Cos(-Math.PI / 18), arc.From.East, 1e-9);
        Assert.Equal(4 * Math.PI, circle.PlanLength, 1e-9);
        Assert.Equal((-10, 0, Turn.Right), (Math.Round(below.From.East, 9), Math.Round(below.From.North, 9), below.Turn)); // east turns about
        Assert.Equal((0, 10), (Math.Round(below.To.East, 9), Math.Round(below.To.North, 9)));
    }

    [Fact]
    public void Read_Bulges_TurnLeftAndRight()
    {
        var path = Read("0 LWPOLYLINE 8 A 90 3 70 1 38 4.5 10 0 20 0 42 1 10 10 20 0 42 -0.41421356237309503 10 10 20 10").Lines[0].Path;
        Assert.Equal([PieceKind.Arc, PieceKind.Arc, PieceKind.Straight], path.Pieces.Select(piece => piece.Kind));
        Assert.Equal((Turn.Left, Turn.Right), (path.Pieces[0].Arc.Turn, path.Pieces[1].Arc.Turn));
        Assert.Equal(5 * Math.PI + Math.PI / 2 * 10 / Math.Sqrt(2) + Math.Sqrt(200), path.PlanLength, 1e-9);
        Assert.True(path.IsClosed);
        Assert.Equal(4.5, path.Vertices[0].Height);
    }

    [Fact]
    public void Read_Polylines_OfBothKinds()
    {
        var file = Read("0 POLYLINE 8 A 66 1 70 0 0 VERTEX 8 A 10 0 20 0 42 1 0 VERTEX 8 A 10 10 20 0 0 SEQEND 0 POLYLINE 8 B 66 1 70 8 0 VERTEX 8 B 10 0 20 0 30 5 70 32 0 VERTEX 8 B 10 3 20 4 30 6 70 32 0 SEQEND");
        Assert.Equal(5 * Math.PI, file.Lines[0].Path.PlanLength, 1e-9);
        Assert.Equal((5.0, 6.0), (file.Lines[1].Path.PlanLength, file.Lines[1].HeightAt(5)!.Value));
    }

    [Fact]
    public void Read_Faces_AreASurfaceOfTheirLayer()
    {
        var surface = Assert.Single(Read("0 3DFACE 8 GROUND 10 0 20 0 30 5 11 10 21 0 31 6 12 10 22 10 32 7 13 0 23 10 33 6 0 3DFACE 8 GROUND 10 10 20 0 30 6 11 20 21 0 31 7 12 10 22 10 32 7 13 10 23 10 33 7").Surfaces);
        Assert.Equal(("GROUND", 3), (surface.Name, surface.Tin.TriangleCount));
        Assert.Equal(6, surface.Tin.HeightAt(new(5, 5))!.Value, 1e-9);
    }

    [Fact]
    public void Read_Inserts_AreExpanded()
    {
        const string blocks = "0 BLOCK 8 0 2 B 70 0 10 1 20 0 30 0 0 LINE 8 0 10 1 20 0 30 5 11 3 21 0 31 5 0 ARC 8 0 10 1 20 0 40 2 50 0 51 90 0 ENDBLK";
        var file = Read("0 INSERT 5 9 8 DUCT 2 B 10 100 20 200 30 1 41 2 42 2 43 1 50 90", blocks: blocks);
        Assert.Equal(["DUCT", "B"], file.Lines[0].Words.Take(2));
        Assert.Equal((new Point2(100, 200), 100, 204), (file.Lines[0].Path.Vertices[0].At, Math.Round(file.Lines[0].Path.Vertices[1].At.East, 9), Math.Round(file.Lines[0].Path.Vertices[1].At.North, 9)));
        Assert.Equal(6, file.Lines[0].HeightAt(0));
        var arc = file.Lines[1].Path.Pieces[0].Arc;
        Assert.Equal((4, Turn.Left), (Math.Round(arc.Radius, 9), arc.Turn));
        Assert.Equal(("B 9", "B"), (file.Points[0].Name, file.Points[0].Words[0]));
        var mirrored = Read("0 INSERT 8 DUCT 2 B 10 0 20 0 41 -1 42 1", blocks: blocks).Lines[1].Path.Pieces[0].Arc;
        Assert.Equal(Turn.Right, mirrored.Turn);
        Assert.Contains("ARC skipped: it lies in a block stretched unequally and is no circle there.", Read("0 INSERT 8 DUCT 2 B 10 0 20 0 41 2 42 1", blocks: blocks).Skipped);
        Assert.Equal(12, Read("0 INSERT 8 DUCT 2 B 10 0 20 0 70 3 71 2 44 10 45 20", blocks: blocks).Lines.Length);
    }

    [Fact]
    public void Read_Units_BecomeMetres()
    {
        Assert.Equal(3.048, Read("0 LINE 8 A 10 0 20 0 11 10 21 0", "0 SECTION 2 HEADER 9 $INSUNITS 70 2 0 ENDSEC ").Lines[0].Path.PlanLength, 1e-12);
        Assert.Equal(12000.0 / 3937, Read("0 LINE 8 A 10 0 20 0 11 10 21 0", "0 SECTION 2 HEADER 9 $INSUNITS 70 21 0 ENDSEC ").Lines[0].Path.PlanLength, 1e-12);
        Assert.Equal(0.01, Intake(Drawing("0 LINE 8 A 10 0 20 0 11 10 21 0", ""), 0.001).Design!.Lines[0].Path.PlanLength, 1e-12);
        Assert.Contains("metres were assumed", Read("0 LINE 8 A 10 0 20 0 11 10 21 0", "").Skipped[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_WhatIsNoLine_IsCounted() => Assert.Equal(
        [
            "2 × TEXT skipped: it is no line, point or surface that is read.", "ARC skipped: its radius is not above 0.", "CIRCLE skipped: its extrusion is not vertical: it does not lie in plan.",
            "LINE skipped: it lies in paper space.", "SPLINE skipped: it is neither straights nor circular arcs.",
        ],
        Read("0 TEXT 1 hello 0 TEXT 1 you 0 SPLINE 0 LINE 67 1 0 ARC 40 0 0 CIRCLE 40 1 210 1 230 0").Skipped.Order(StringComparer.Ordinal));

    [Theory]
    [InlineData("0 INSERT 2 B", "0 BLOCK 2 B 10 0 20 0 0 INSERT 2 C 0 ENDBLK 0 BLOCK 2 C 10 0 20 0 0 INSERT 2 B 0 ENDBLK", "'B' is a block that holds itself, by way of B, C")]
    [InlineData("0 INSERT 2 B 70 100000 71 100000", "0 BLOCK 2 B 0 LINE 11 5 0 ENDBLK", "more rows and columns")]
    [InlineData("0 INSERT 2 B", "0 BLOCK 2 B 0 ENDBLK 0 BLOCK 2 B 0 ENDBLK", "is the name of two blocks")]
    [InlineData("0 LINE 10 NaN", "", "'NaN' is no finite number; group 10")]
    [InlineData("0 LINE 10 1e300 11 5", "", "is a place on no grid")]
    [InlineData("0 LINE x 5", "", "'x' is no group code")]
    [InlineData("0 LINE 10 5 0 SECTION", "", "'SECTION' stands where ENDSEC was expected")]
    public void Read_WrongOrHostile_IsRefused(string entities, string blocks, string says) => Assert.Contains(says, Refusal(entities, blocks), StringComparison.Ordinal);

    [Fact]
    public void Read_BlocksThatMultiply_AreRefused()
    {
        var blocks = new StringBuilder("0 BLOCK 2 B0 0 LINE 11 5 0 ENDBLK");
        for (var i = 1; i < 10; i++)
        {
            blocks.Append(CultureInfo.InvariantCulture, $" 0 BLOCK 2 B{i}");
            for (var k = 0; k < 10; k++) blocks.Append(CultureInfo.InvariantCulture, $" 0 INSERT 2 B{i - 1}");
            blocks.Append(" 0 ENDBLK");
        }

        Assert.Contains("expand to more than", Refusal("0 INSERT 2 B9", blocks.ToString()), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_CutOffOrBinary_IsRefused()
    {
        var whole = Drawing("0 LINE 8 A 10 0 20 0 11 10 21 0");
        Assert.Contains("the file ends before its EOF", Intake(whole[..^12]).Refused!.Message("design.dxf"), StringComparison.Ordinal);
        Assert.Contains("binary DXF", Intake([.. "AutoCAD Binary DXF\r\n"u8, 26, 0]).Refused!.Message("design.dxf"), StringComparison.Ordinal);
        Assert.Contains("longer than", Intake([.. "0\nSECTION\n2\n"u8, .. new byte[200_000]]).Refused!.Message("design.dxf"), StringComparison.Ordinal);
    }

    private const string Write = """
        import sys, json, math, ezdxf
        from ezdxf import disassemble
        out = {}
        for version in ('R12', 'R2000', 'R2010', 'R2018'):
            doc = ezdxf.new(version)
            doc.header['$INSUNITS'] = 6
            msp = doc.modelspace()
            msp.add_arc((512000, 6243000), 10, 350, 80, dxfattribs={'layer': 'A'})
            msp.add_arc((512000, 6243000), 10, 10, 120, dxfattribs={'layer': 'A', 'extrusion': (0, 0, -1)})
            points = [(512000, 6243000, -0.5), (512010, 6243002, 0.3), (512020, 6243000, 0)]
            if version == 'R12':
                msp.add_polyline2d(points, format='xyb', dxfattribs={'layer': 'B'})
            else:
                msp.add_lwpolyline(points, format='xyb', dxfattribs={'layer': 'B'})
            inner = doc.blocks.new('INNER')
            inner.add_line((0, 0), (1, 2))
            inner.add_arc((1, 1), 2, 30, 100)
            outer = doc.blocks.new('OUTER', base_point=(1, 1))
            outer.add_blockref('INNER', (3, 4), dxfattribs={'xscale': 2, 'yscale': 2, 'zscale': 2, 'rotation': 25})
            outer.add_blockref('INNER', (-3, 1), dxfattribs={'xscale': -1.5, 'yscale': 1.5, 'zscale': 1.5, 'rotation': -70})
            msp.add_blockref('OUTER', (512100, 6243100), dxfattribs={'layer': 'C', 'rotation': 40, 'xscale': 3, 'yscale': 3, 'zscale': 3})
            msp.add_blockref('OUTER', (512200, 6243100), dxfattribs={'layer': 'C', 'rotation': 15, 'extrusion': (0, 0, -1)})
            doc.saveas(sys.argv[1] + '/' + version + '.dxf')
            found = []
            for e in disassemble.recursive_decompose(msp):
                if e.dxftype() == 'LINE': found.append([e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y, 0])
                elif e.dxftype() == 'ARC':
                    ocs = e.ocs()
                    s, t = ocs.to_wcs(e.start_point) if False else e.start_point, e.end_point
                    sweep = math.radians((e.dxf.end_angle - e.dxf.start_angle) % 360)
                    found.append([s.x, s.y, t.x, t.y, e.dxf.radius * sweep])
            out[version] = found
        print(json.dumps(out))
        """;

    /// <summary>ezdxf writes and takes its own blocks apart; both see the same lines and arcs.</summary>
    [Fact]
    public void Read_WhatEzdxfWrites_IsWhatItTakesApart()
    {
        using var folder = new TempFolder();
        using var told = JsonDocument.Parse(ForeignTool.Python(Write, ["ezdxf"], folder[""]));
        foreach (var version in told.RootElement.EnumerateObject())
        {
            using var stream = File.OpenRead(folder[version.Name + ".dxf"]);
            var file = DesignReaders.Read(stream, new(version.Name + ".dxf")).Design!;
            Assert.Equal(11, file.Lines.Length); // two arcs, a polyline, two inserts of two blocks of a line and an arc
            foreach (var expected in version.Value.EnumerateArray())
            {
                var e = expected.EnumerateArray().Select(x => x.GetDouble()).ToArray();
                Point2 from = new(e[0], e[1]), to = new(e[2], e[3]);
                var length = e[4] > 0 ? e[4] : from.DistanceTo(to);
                Assert.Contains(file.Lines, line => Math.Abs(line.Path.PlanLength - length) < 1e-6
                    && (line.Path.Vertices[0].At.DistanceTo(from) < 1e-6 && line.Path.Vertices[^1].At.DistanceTo(to) < 1e-6 || line.Path.Vertices[0].At.DistanceTo(to) < 1e-6 && line.Path.Vertices[^1].At.DistanceTo(from) < 1e-6));
            }

            var bulged = file.Lines.Single(line => line.Words[0] == "B").Path;
            Assert.Equal((Turn.Right, Turn.Left), (bulged.Pieces[0].Arc.Turn, bulged.Pieces[1].Arc.Turn));
            Assert.Equal(Math.Sqrt(104) / 2 / Math.Sin(2 * Math.Atan(0.5)), bulged.Pieces[0].Arc.Radius, 1e-6);
            Assert.Equal(Turn.Right, file.Lines[1].Path.Pieces[0].Arc.Turn); // from below
        }
    }

    [Fact]
    public void Read_AnyMutation_EndsInADesignOrARefusal()
    {
        var good = Drawing("0 INSERT 2 B 10 5 41 2 50 30 0 LWPOLYLINE 8 A 90 2 70 1 10 0 20 0 42 1 10 10 20 0 0 3DFACE 8 G 10 0 20 0 30 5 11 10 21 0 12 10 22 10 13 0 23 10 0 POLYLINE 70 8 0 VERTEX 10 5 20 5 30 1 0 VERTEX 10 9 20 2 0 SEQEND",
            blocks: "0 BLOCK 2 B 10 1 20 2 0 LINE 8 0 10 1 11 5 0 INSERT 2 C 0 ENDBLK 0 BLOCK 2 C 0 ARC 10 5 40 3 50 10 51 60 0 ENDBLK");
        var numbers = new Random(3);
        for (var i = 0; i < 20_000; i++)
        {
            var bytes = good.AsSpan(0, numbers.Next(4) == 0 ? numbers.Next(good.Length) : good.Length).ToArray();
            for (var k = numbers.Next(5); k >= 0 && bytes.Length > 0; k--) bytes[numbers.Next(bytes.Length)] = (byte)"\n 0123456789e.-NBCLIAS"[numbers.Next(22)];
            var intake = Intake(bytes);
            Assert.True(intake.Design is null != intake.Refused is null);
        }
    }
}
