using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class DxfDeliverableTests
{
    private const string Read = """
        import sys, json, math, ezdxf
        from ezdxf.math import bulge_radius, bulge_center
        doc = ezdxf.readfile(sys.argv[1])
        audit = doc.audit()
        out = dict(errors=[str(e.code) + ' ' + e.message for e in audit.errors], fixes=[str(e.code) + ' ' + e.message for e in audit.fixes], units=doc.header['$INSUNITS'],
            version=doc.dxfversion, layers=sorted(l.dxf.name for l in doc.layers), lines={}, arcs=[], circles=[], space={}, points=[], texts=[], radii={})
        look = {l.dxf.name: (l.dxf.color, l.dxf.linetype) for l in doc.layers}
        out['look'] = look
        def told(e):
            return [v for c, v in e.get_xdata('ASLAID') if c == 1000] if e.has_xdata('ASLAID') else []
        for e in doc.modelspace():
            kind = e.dxftype()
            if kind == 'LWPOLYLINE':
                v = [(p[0], p[1], p[4]) for p in e.get_points()]
                pairs = list(zip(v, v[1:] + v[:1]))
                if not e.closed: pairs = pairs[:-1]
                length, radii = 0, []
                for a, b in pairs:
                    chord = math.dist(a[:2], b[:2])
                    if a[2] == 0: length += chord
                    else:
                        r = abs(bulge_radius(a[:2], b[:2], a[2])); radii.append(r)
                        length += r * 4 * math.atan(abs(a[2]))
                out['lines'][told(e)[0]] = length
                out['radii'][told(e)[0]] = radii
            elif kind == 'ARC':
                s, t = e.start_point, e.end_point
                out['arcs'].append([told(e)[0], e.dxf.radius, (e.dxf.end_angle - e.dxf.start_angle) % 360, s.x, s.y, t.x, t.y])
            elif kind == 'CIRCLE': out['circles'].append([told(e)[0], e.dxf.radius])
            elif kind == 'POLYLINE':
                p = [tuple(v.dxf.location) for v in e.vertices]
                if e.is_closed: p.append(p[0])
                out['space'][told(e)[0]] = sum(math.dist(a, b) for a, b in zip(p, p[1:]))
            elif kind == 'POINT': out['points'].append([e.dxf.layer, e.dxf.location.z] + told(e)[:1])
            elif kind == 'TEXT': out['texts'].append(e.dxf.text)
        print(json.dumps(out))
        """;

    [Fact]
    public void Write_DecimalCommaCulture_SameBytes() => DeliveryFolder.AssertSameBytes(new DxfDeliverable(), () => ExchangeSite.Small());

    [Fact]
    public void Write_SmallSite_ForeignAuditFindsNothing()
    {
        var handover = ExchangeSite.Small();
        var drawing = Reread(handover);
        Assert.Empty(drawing.GetProperty("errors").EnumerateArray().Select(e => e.GetString()));
        Assert.Empty(drawing.GetProperty("fixes").EnumerateArray().Select(e => e.GetString()));
        Assert.Equal(6, drawing.GetProperty("units").GetInt32());
        Assert.Equal("AC1015", drawing.GetProperty("version").GetString());
    }

    [Fact]
    public void Write_DeliveryNamesLayer_ForeignReaderFindsTheClientsLayer()
    {
        var handover = ExchangeSite.Small();
        var code = handover.Record.Runs[0].Code;
        var delivery = new DeliveryTable([new(code, "material", false) { Layer = "client_line" }]);
        var named = handover with { Record = Derivation.Derive(handover.Record.Inputs with { Delivery = delivery }) };
        var layers = Reread(named).GetProperty("layers").EnumerateArray().Select(layer => layer.GetString()).ToList();
        Assert.Contains("client_line", layers);
        Assert.DoesNotContain(code, layers);
    }

    [Fact]
    public void Write_SampleSite_ForeignReaderMeasuresTheSameLengthsAndRadii()
    {
        var handover = ExchangeSite.Sample(SampleSites.Clean(5));
        AssertMeasures(handover, Reread(handover));
    }

    [Fact]
    public void Write_SmallSite_ForeignReaderMeasuresTheSameLengthsAndRadii()
    {
        var handover = ExchangeSite.Small();
        AssertMeasures(handover, Reread(handover));
    }

    [Fact]
    public void Write_SmallSite_LayersAndLooksOfTheCodeBook()
    {
        var drawing = Reread(ExchangeSite.Small());
        var look = drawing.GetProperty("look").EnumerateObject().ToDictionary(p => p.Name, p => (p.Value[0].GetInt32(), p.Value[1].GetString()));
        Assert.Equal((5, "CONTINUOUS"), look["water-main"]);
        Assert.Equal((8, "ASLAID-DASHED"), look["TREE-PIT"]);
        Assert.Equal((2, "ASLAID-LONG-TWO-SHORT"), look["GAS-RECORD"]);
        Assert.Equal((1, "CONTINUOUS"), look["lamp_column"]); // a slash is no layer name
        Assert.Contains("unknown thing", look);
        var points = drawing.GetProperty("points").EnumerateArray().ToDictionary(p => p[2].GetString()!, p => (p[0].GetString(), p[1].GetDouble()));
        Assert.Equal(("lamp_column", 6.2), points["shot 1:23 =1+1"]);
        Assert.Equal(("lamp_column-NO-HEIGHT", 0.0), points["shot 1:24 -7"]);
        Assert.Equal(("water-main-SHOTS", 5.2), points["shot 1:4 3"]);
        Assert.DoesNotContain(points.Keys, key => key.EndsWith(" 52", StringComparison.Ordinal)); // set aside
    }

    [Fact]
    public void Write_RunWithoutAHeight_IsDrawnInPlanAndSaidSo()
    {
        using var folder = DeliveryFolder.With(new DxfDeliverable(), ExchangeSite.Small());
        var text = folder.Text("record.dxf");
        Assert.Contains("999\nGAS-RECORD/G-1@North lacks a height and is drawn in plan only.\n", text, StringComparison.Ordinal);
        Assert.Contains("journal 1, head 0123456789abcdef", text, StringComparison.Ordinal);
        Assert.DoesNotContain("GAS-RECORD-3D", text, StringComparison.Ordinal);
        Assert.All(text, letter => Assert.True(char.IsAscii(letter)));
    }

    [Fact]
    public void Write_RunWithStatusFlowAndEnds_TellsThemAndLiesOnALayerOfItsOwn()
    {
        var handover = ExchangeSite.Small();
        var inputs = handover.Record.Inputs;
        foreach (var (name, word) in ((string, string)[])[("status", "abandoned"), ("flow", "against"), ("start", "cap"), ("end", "limit of works")]) inputs = inputs.Then(new AttributeSet("WATER-MAIN/WM-1@North", name, word));
        using var folder = DeliveryFolder.With(new DxfDeliverable(), handover with { Record = Derivation.Derive(inputs) });
        var text = folder.Text("record.dxf");
        Assert.Contains("1000\nstatus abandoned\n1000\nflow against\n1000\nstart cap\n1000\nend limit of works\n", text, StringComparison.Ordinal);
        foreach (var layer in (string[])["", "-ARCS", "-3D", "-TEXT"]) Assert.Contains($"8\nwater-main-ABANDONED{layer}\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain("8\nwater-main\n", text, StringComparison.Ordinal);
        using var plain = DeliveryFolder.With(new DxfDeliverable(), ExchangeSite.Small());
        Assert.Contains("1000\nstatus new\n1000\nplan_length_m", plain.Text("record.dxf"), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_SampleSite_EveryHandleIsItsOwnAndBelowTheSeed()
    {
        using var folder = DeliveryFolder.With(new DxfDeliverable(), ExchangeSite.Sample(SampleSites.Clean(6)));
        var lines = folder.Text("record.dxf").Split('\n');
        var pairs = Enumerable.Range(0, lines.Length / 2).Select(i => (Code: lines[2 * i].Trim(), Value: lines[2 * i + 1])).ToArray();
        var seed = Handle(pairs[Array.FindIndex(pairs, pair => pair.Value == "$HANDSEED") + 1].Value);
        var handles = pairs.Where(pair => pair.Code is "5" or "105").Select(pair => Handle(pair.Value)).Skip(1).ToArray(); // the first is the seed
        var known = handles.ToHashSet();
        Assert.Equal(handles.Length, known.Count);
        Assert.True(handles.Max() < seed);
        Assert.All(pairs.Where(pair => pair.Code == "330"), pair => Assert.True(pair.Value == "0" || known.Contains(Handle(pair.Value))));

        static int Handle(string text) => int.Parse(text, System.Globalization.NumberStyles.HexNumber, System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public void Write_SmallSite_GdalReadsEveryLayer()
    {
        using var folder = DeliveryFolder.With(new DxfDeliverable(), ExchangeSite.Small());
        var layers = ForeignTool.Python("""
            import sys
            from osgeo import ogr
            ogr.UseExceptions()
            drawing = ogr.Open(sys.argv[1])
            print(' '.join(sorted({f['Layer'].replace(' ', '_') for f in drawing.GetLayer(0)})))
            """, ["osgeo"], folder.PathOf("record.dxf"));
        Assert.Equal(
            "GAS-RECORD GAS-RECORD-NO-HEIGHT GAS-RECORD-SHOTS GAS-RECORD-TEXT ISLAND-KERB ISLAND-KERB-3D ISLAND-KERB-ARCS ISLAND-KERB-SHOTS ISLAND-KERB-TEXT "
            + "TREE-PIT TREE-PIT-3D TREE-PIT-ARCS TREE-PIT-SHOTS TREE-PIT-TEXT lamp_column lamp_column-NO-HEIGHT lamp_column-TEXT "
            + "unknown_thing unknown_thing-3D unknown_thing-SHOTS unknown_thing-TEXT "
            + "water-main water-main-3D water-main-ARCS water-main-SHOTS water-main-TEXT", layers.Trim());
    }

    private static JsonElement Reread(Handover handover)
    {
        using var folder = DeliveryFolder.With(new DxfDeliverable(), handover);
        return JsonSerializer.Deserialize<JsonElement>(ForeignTool.Python(Read, ["ezdxf"], folder.PathOf("record.dxf")));
    }

    private static void AssertMeasures(Handover handover, JsonElement drawing)
    {
        var record = handover.Record;
        var arcs = drawing.GetProperty("arcs").EnumerateArray().Concat(drawing.GetProperty("circles").EnumerateArray()).ToLookup(a => a[0].GetString()!);
        Assert.NotEmpty(arcs);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            var key = $"run {run.Key}";
            Assert.Equal(run.PlanLength, drawing.GetProperty("lines").GetProperty(key).GetDouble(), 1e-6);
            var pieces = Enumerable.Range(0, run.PieceCount).Select(i => run.Piece(i)).Where(p => p.Kind == PieceKind.Arc).Select(p => p.Arc).ToArray();
            Assert.Equal(pieces.Select(a => a.Radius).Order(), arcs[key].Select(a => a[1].GetDouble()).Order(), Near(1e-6));
            Assert.Equal(pieces.SelectMany(a => a.IsFullCircle ? new[] { a.Radius, a.Radius } : [a.Radius]), drawing.GetProperty("radii").GetProperty(key).EnumerateArray().Select(r => r.GetDouble()), Near(1e-6));
            foreach (var found in arcs[key].Where(a => a.GetArrayLength() > 2))
            {
                var arc = pieces.Single(a => Math.Abs(a.Radius - found[1].GetDouble()) < 1e-9 && Math.Abs(double.RadiansToDegrees(a.Sweep) - found[2].GetDouble()) < 1e-6);
                var (first, last) = arc.Turn == Turn.Left ? (arc.From, arc.To) : (arc.To, arc.From);
                Assert.True(first.DistanceTo(new(found[3].GetDouble(), found[4].GetDouble())) < 1e-6);
                Assert.True(last.DistanceTo(new(found[5].GetDouble(), found[6].GetDouble())) < 1e-6);
            }

            if (run.SlopeLength is not { } slope) continue;
            var chords = drawing.GetProperty("space").GetProperty(key).GetDouble();
            var lost = pieces.Select(a => new DxfDeliverable().Sagitta / (3 * a.Radius)).Append(0).Max(); // 1 - sin(x)/x at a sagitta of R x² / 2
            Assert.InRange(chords, slope * (1 - 1.05 * lost) - 1e-6, slope + 1e-6);
        }
    }

    private static Func<double, double, bool> Near(double metres) => (a, b) => Math.Abs(a - b) < metres;
}
