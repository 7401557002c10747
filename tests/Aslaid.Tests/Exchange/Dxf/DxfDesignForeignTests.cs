using System.IO;
using System.Text;
using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
using static Aslaid.Tests.DxfByHand;

namespace Aslaid.Tests;

/// <summary>Drawings that another maker's library writes and takes apart itself, in several versions of the format.</summary>
public class DxfDesignForeignTests
{
    private const string Draw = """
        import sys, json, math, ezdxf
        from ezdxf.math import OCS
        version, east, north, name = sys.argv[1], float(sys.argv[2]), float(sys.argv[3]), sys.argv[4]
        doc = ezdxf.new(version)
        doc.header['$INSUNITS'] = 6
        space = doc.modelspace()
        below = {'extrusion': (0, 0, -1)}
        def chain(layout, points, attribs, closed=False, z=0):
            if version == 'R12':
                line = layout.add_polyline2d(points, format='xyb', close=closed, dxfattribs=dict(attribs, elevation=(0, 0, z)))
            else:
                layout.add_lwpolyline(points, format='xyb', close=closed, dxfattribs=dict(attribs, elevation=z))
        inner = doc.blocks.new('INNER', base_point=(3, 2, 0.5))
        inner.add_line((3, 2, 1), (7, 3, 2), dxfattribs={'layer': '0'})
        inner.add_arc((4, 4, 1), 1.75, 20, 310)
        inner.add_arc((-4, 4, -1), 1.25, 200, 250, dxfattribs=below)
        inner.add_circle((9, 1, 1), 0.6)
        chain(inner, [(0, 0, 0.3), (5, 1, -0.7), (6, 6, 0), (2, 8, 1.8)], {}, True, 1)
        chain(inner, [(0, 0, 0.3), (5, 1, -0.7), (6, 6, 0)], below, False, -2)
        inner.add_point((1, 1, 3))
        outer = doc.blocks.new('OUTER', base_point=(100, 50, 0))
        outer.add_blockref('INNER', (101, 52, 1), dxfattribs=dict(xscale=2, yscale=2, zscale=2, rotation=33))
        outer.add_blockref('INNER', (90, 40, 0), dxfattribs=dict(xscale=-1.5, yscale=1.5, zscale=1, rotation=-71.5))
        outer.add_blockref('INNER', (-90, 45, 0), dxfattribs=dict(xscale=0.5, yscale=0.5, zscale=1, rotation=200, extrusion=(0, 0, -1)))
        at = lambda x, y, z=0: (east + x, north + y, z)
        space.add_arc(at(10, 20, 1), 5, 15, 140)
        space.add_arc((-east - 10, north + 20, -1), 5, 15, 140, dxfattribs=below)
        space.add_circle(at(5, 5, 3), 2.5)
        space.add_line(at(0, 0, 1), at(30, 40, 2))
        space.add_polyline3d([at(0, 0, 1), at(4, 4, 2), at(9, 1, 3)], close=True)
        chain(space, [(east, north, 0), (east + 10, north, math.tan(math.pi / 8)), (east + 20, north + 10, -0.25), (east + 40, north + 10, 0)], {}, True, 4)
        chain(space, [(-east, north, -0.5), (-east - 10, north + 3, 0.9), (-east - 20, north, 0)], below, False, -4)
        space.add_blockref('OUTER', at(50, 60, 2))
        space.add_blockref('OUTER', at(150, 60, 2), dxfattribs=dict(xscale=-3, yscale=3, zscale=3, rotation=12.25))
        space.add_blockref('OUTER', at(250, 60, 2), dxfattribs=dict(xscale=-2, yscale=-2, zscale=-1, rotation=99))
        space.add_blockref('OUTER', (-east, north, 7), dxfattribs=dict(xscale=1.25, yscale=1.25, zscale=1, rotation=-45, extrusion=(0, 0, -1)))
        space.add_blockref('INNER', at(400, 60, 2), dxfattribs=dict(xscale=2, yscale=2, zscale=1, rotation=30, column_count=3, row_count=2, column_spacing=11, row_spacing=-13))
        doc.saveas(name)
        out = []
        def apart(entities):
            for e in entities:
                kind = e.dxftype()
                if kind == 'INSERT':
                    for one in (e.multi_insert() if e.mcount > 1 else [e]): apart(one.virtual_entities())
                elif kind == 'LWPOLYLINE' or (kind == 'POLYLINE' and e.is_2d_polyline): apart(e.virtual_entities())
                elif kind == 'POLYLINE': 
                    v = [x.dxf.location for x in e.vertices]
                    if e.is_closed: v.append(v[0])
                    for a, b in zip(v, v[1:]): out.append(['line', *a, *b])
                elif kind == 'LINE': out.append(['line', *e.dxf.start, *e.dxf.end])
                elif kind == 'POINT': out.append(['point', *e.dxf.location])
                elif kind in ('ARC', 'CIRCLE'):
                    first, last = (e.dxf.start_angle, e.dxf.end_angle) if kind == 'ARC' else (0, 360)
                    sweep = (last - first) % 360 or 360
                    c, r, ocs = e.dxf.center, e.dxf.radius, e.ocs()
                    put = lambda degrees: ocs.to_wcs((c.x + r * math.cos(math.radians(degrees)), c.y + r * math.sin(math.radians(degrees)), c.z))
                    out.append(['arc', *put(first), *put(first + sweep), *put(first + sweep / 2), r, math.radians(sweep)])
                else: raise Exception(kind)
        apart(ezdxf.readfile(name).modelspace())
        print(json.dumps(out))
        """;

    [Theory]
    [InlineData("R12", 0, 0, 1e-9)]
    [InlineData("R2000", 0, 0, 1e-9)]
    [InlineData("R2010", 512000, 6243000, 6e-9)] // a double's step there is 1e-9, and two programs add up in their own order
    [InlineData("R2018", 512000, 6243000, 6e-9)]
    public void Read_ForeignDrawing_IsWhatItsMakerTakesItApartTo(string version, double east, double north, double metres)
    {
        using var folder = new DeliveryFolder();
        var name = folder.PathOf("design.dxf");
        var truth = JsonSerializer.Deserialize<JsonElement[][]>(ForeignTool.Python(Draw, ["ezdxf"], version, Text(east), Text(north), name))!;
        var design = Read(File.ReadAllText(name));
        Assert.Empty(design.Skipped.Where(sentence => !sentence.Contains("unit", StringComparison.Ordinal)));
        var pieces = design.Lines.SelectMany(line => line.Path.Pieces.Select(piece => (line.Path, Piece: piece))).ToList();
        var points = design.Points.Where(point => !point.Name.StartsWith("OUTER", StringComparison.Ordinal)).ToList(); // the blocks as symbols are asked elsewhere
        Assert.Equal(truth.Length, pieces.Count + points.Count);
        foreach (var row in truth)
        {
            var number = row.Skip(1).Select(cell => cell.GetDouble()).ToArray();
            switch (row[0].GetString())
            {
                case "point": Assert.Equal(1, points.RemoveAll(point => Is(point.At, number, 0) && Math.Abs(point.Height!.Value - number[2]) < metres)); break;
                case "line": One(number, straight => straight.Kind == PieceKind.Straight); break;
                default: One(number, arc => arc.Kind == PieceKind.Arc && Math.Abs(arc.Arc.Radius - number[9]) < metres && Math.Abs(arc.Arc.Sweep - number[10]) * number[9] < metres && Is(arc.Arc.MidPoint, number, 6)); break;
            }
        }

        bool Is(Point2 at, double[] number, int from) => at.DistanceTo(new(number[from], number[from + 1])) < metres;

        // The maker turns arcs to the left and chords bulges both ways, so either end may come first; circles begin anywhere.
        void One(double[] number, Func<PathPiece, bool> fits)
        {
            var found = pieces.FindIndex(one =>
            {
                var (first, last) = (one.Path.Vertices[one.Piece.First], one.Path.Vertices[one.Piece.Last]);
                if (one.Piece.Arc.IsFullCircle) return number.Length > 9 && number[10] == double.Tau && Math.Abs(one.Piece.Arc.Radius - number[9]) < metres
                    && one.Piece.Arc.Centre.DistanceTo(new((number[0] + number[6]) / 2, (number[1] + number[7]) / 2)) < metres && High(first, number[2]);
                if (!fits(one.Piece)) return false;
                return (Is(first.At, number, 0) && Is(last.At, number, 3) && High(first, number[2]) && High(last, number[5]))
                    || (Is(first.At, number, 3) && Is(last.At, number, 0) && High(first, number[5]) && High(last, number[2]));
            });
            Assert.True(found >= 0, string.Join(' ', number));
            pieces.RemoveAt(found);
        }

        bool High(PathVertex vertex, double height) => Math.Abs((vertex.Height ?? 0) - height) < metres;
    }

    [Fact]
    public void Read_OwnDrawing_ComesBack()
    {
        var handover = ExchangeSite.Sample(SampleSites.Clean(5));
        using var folder = DeliveryFolder.With(new DxfDeliverable(), handover);
        var design = Read(File.ReadAllText(folder.PathOf("record.dxf")));
        var lines = design.Lines.ToLookup(line => line.Words[0]);
        for (var number = 0; number < handover.Record.Runs.Count; number++)
        {
            var run = handover.Record.Runs[number];
            if (run.PieceCount == 0) continue;
            var layer = (run.Entry?.Layer ?? run.Code) + (run.Counts ? "" : $"-{run.Facts.StatusWord.ToUpperInvariant()}");
            var arcs = run.Path.Pieces.Where(piece => piece.Kind == PieceKind.Arc).Select(piece => piece.Arc).ToArray();
            Assert.Contains(lines[layer], line => Same(line.Path, run.Path));
            foreach (var arc in arcs) Assert.Contains(lines[layer + "-ARCS"], line => line.Path.Pieces is [{ Kind: PieceKind.Arc, Arc: var drawn }] && Math.Abs(drawn.Radius - arc.Radius) < 2e-8 && drawn.Centre.DistanceTo(arc.Centre) < 2e-8 && Math.Abs(drawn.Sweep - arc.Sweep) * arc.Radius < 2e-8);
        }

        var shots = handover.Record.Shots;
        foreach (var row in handover.Record.Points.Where(row => shots.HeightOf(row) is not null && shots.Used[row]))
            Assert.Contains(design.Points, point => point.At.DistanceTo(shots.At(row)) < 2e-9 && Math.Abs(point.Height!.Value - shots.HeightOf(row)!.Value) < 2e-9);

        static bool Same(Aslaid.Geometry.Path a, Aslaid.Geometry.Path b) =>
            Math.Abs(a.PlanLength - b.PlanLength) < 1e-6 && a.PointAt(0).DistanceTo(b.PointAt(0)) < 2e-9 && a.PointAt(a.PlanLength / 3).DistanceTo(b.PointAt(b.PlanLength / 3)) < 1e-6;
    }

    private static string Text(double number) => number.ToString("R", System.Globalization.CultureInfo.InvariantCulture);
}
