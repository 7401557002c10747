using System.IO;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>A drawing: entities, the layers that they use, and the tables and sections that the format asks for about them (version AC1015).</summary>
/// <remarks>Layers, extent and the count of handles stand before the entities in the file. So the same drawing is made twice, first
/// to learn them, then to be written; no drawing is ever held in memory.</remarks>
internal sealed class DxfDrawing
{
    private const string Application = "ASLAID";
    private readonly DxfText entities;
    private readonly Dictionary<string, int> layerPlaces = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<(string Name, DxfLook Look)> layers = [];
    private readonly int modelSpace;
    private readonly int paperSpace;
    private int handles;
    private Box2 box = Box2.Empty;
    private double lowest;
    private double highest;

    private DxfDrawing(Stream? to)
    {
        entities = new(to);
        (modelSpace, paperSpace) = (Next(), Next());
        Layer("0", new(7, DxfStyles.Continuous, 25));
    }

    /// <summary>Handles that tables, blocks and objects take: those of the layers and a few dozen.</summary>
    private int FrameHandles => layers.Count + 100;

    /// <summary>Lines before everything else, which programs skip and people read.</summary>
    public List<string> Comments { get; } = [];

    /// <summary>Writes a drawing.</summary>
    /// <param name="draw">Draws all of it, the same each time it is asked.</param>
    public static void Save(string path, Action<DxfDrawing> draw)
    {
        var known = new DxfDrawing(null);
        draw(known);
        using var stream = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 16);
        var frame = new DxfText(stream);
        known.Before(frame);
        draw(new(stream));
        known.After(frame);
    }

    /// <summary>A layer; the first look given to a name stays.</summary>
    public string Layer(string name, DxfLook look)
    {
        if (layerPlaces.TryGetValue(name, out var place)) return layers[place].Name;
        layerPlaces.Add(name, layers.Count);
        layers.Add((name, look));
        return name;
    }

    /// <summary>A chain of straights and arcs in plan at elevation 0: an arc is a bulge, tan(sweep / 4), positive to the left.</summary>
    public void Chain(string layer, IReadOnlyList<PlanSegment> chain, bool closed, params IEnumerable<string> told)
    {
        Begin("LWPOLYLINE", layer, "AcDbPolyline");
        entities.Whole(90, chain.Count + (closed ? 0 : 1)).Whole(70, closed ? 1 : 0).Metres(43, 0);
        foreach (var segment in chain)
        {
            Vertex(segment.From);
            if (segment.Arc is not { } arc) continue;
            entities.Ratio(42, Math.Tan(arc.Sweep / 4) * (arc.Turn == Turn.Left ? 1 : -1));
            box = box.Union(arc.Box);
        }

        if (!closed) Vertex(chain[^1].To);
        Tell(told);

        void Vertex(Point2 at)
        {
            entities.Metres(10, at.East).Metres(20, at.North);
            Reach(at, 0);
        }
    }

    /// <summary>An arc or a circle in plan at elevation 0. The format's arcs run anticlockwise, so one to the right is written from its end.</summary>
    public void Arc(string layer, Arc arc, params IEnumerable<string> told)
    {
        Begin(arc.IsFullCircle ? "CIRCLE" : "ARC", layer, "AcDbCircle");
        entities.Place(10, arc.Centre.East, arc.Centre.North, 0).Ratio(40, arc.Radius);
        if (!arc.IsFullCircle)
        {
            var (first, last) = arc.Turn == Turn.Left ? (arc.From, arc.To) : (arc.To, arc.From);
            entities.Word(100, "AcDbArc").Ratio(50, Degrees(first)).Ratio(51, Degrees(last));
        }

        box = box.Union(arc.Box);
        Tell(told);

        double Degrees(Point2 end)
        {
            var outward = end - arc.Centre;
            var degrees = double.RadiansToDegrees(Math.Atan2(outward.North, outward.East));
            return degrees < 0 ? degrees + 360 : degrees;
        }
    }

    /// <summary>A polyline in space.</summary>
    public void Space(string layer, ReadOnlySpan<PathPoint> points, bool closed, params IEnumerable<string> told)
    {
        var polyline = Begin("POLYLINE", layer, "AcDb3dPolyline");
        entities.Whole(66, 1).Place(10, 0, 0, 0).Whole(70, closed ? 9 : 8);
        Tell(told);
        foreach (var point in closed ? points[..^1] : points)
        {
            var height = point.Height ?? throw new ArgumentException("A polyline in space needs every height.", nameof(points));
            Begin("VERTEX", layer, "AcDbVertex", polyline);
            entities.Word(100, "AcDb3dPolylineVertex").Place(10, point.At.East, point.At.North, height).Whole(70, 32);
            Reach(point.At, height);
        }

        entities.Word(0, "SEQEND").Handle(5, Next()).Handle(330, polyline).Word(100, "AcDbEntity").Word(8, layer);
    }

    public void Point(string layer, Point2 at, double height, params IEnumerable<string> told)
    {
        Begin("POINT", layer, "AcDbPoint");
        entities.Place(10, at.East, at.North, height);
        Reach(at, height);
        Tell(told);
    }

    /// <summary>Words beside a place, or centred above it.</summary>
    /// <param name="size">Metres on the ground.</param>
    /// <param name="degrees">Anticlockwise from east.</param>
    public void Text(string layer, Point2 at, double height, double size, string words, double degrees = 0, bool centred = false)
    {
        if (string.IsNullOrWhiteSpace(words)) return;
        Begin("TEXT", layer, "AcDbText");
        entities.Place(10, at.East, at.North, height).Metres(40, size).Text(1, words).Ratio(50, degrees).Word(7, "STANDARD");
        if (centred) entities.Whole(72, 1).Place(11, at.East, at.North, height);
        entities.Word(100, "AcDbText");
        if (centred) entities.Whole(73, 1);
    }

    /// <summary>All sections up to the entities.</summary>
    private void Before(DxfText file)
    {
        foreach (var comment in Comments) file.Text(999, comment);
        Section(file, "HEADER", Header);
        Section(file, "CLASSES", _ => { });
        Section(file, "TABLES", Tables);
        Section(file, "BLOCKS", Blocks);
        file.Word(0, "SECTION").Word(2, "ENTITIES");
    }

    /// <summary>What follows the entities.</summary>
    private void After(DxfText file)
    {
        file.Word(0, "ENDSEC");
        Section(file, "OBJECTS", Objects);
        file.Word(0, "EOF");
    }

    private int Begin(string type, string layer, string kind, int? owner = null)
    {
        var handle = Next();
        entities.Word(0, type).Handle(5, handle).Handle(330, owner ?? modelSpace).Word(100, "AcDbEntity").Word(8, layer).Word(100, kind);
        return handle;
    }

    /// <summary>Extended data: what the entity stands for, a sentence each.</summary>
    private void Tell(IEnumerable<string> told)
    {
        if (!entities.IsWritten) return; // the sentences need no making
        var first = true;
        foreach (var words in told)
        {
            if (first) entities.Word(1001, Application);
            first = false;
            entities.Text(1000, words);
        }
    }

    private void Reach(Point2 at, double height)
    {
        box = box.Union(at);
        (lowest, highest) = (Math.Min(lowest, height), Math.Max(highest, height));
    }

    private int Next() => ++handles;

    private Box2 Extent => box.IsEmpty ? default : box;

    private void Header(DxfText header)
    {
        Variable("ACADVER").Word(1, "AC1015");
        Variable("DWGCODEPAGE").Word(3, "ANSI_1252");
        Variable("INSBASE").Place(10, 0, 0, 0);
        Variable("EXTMIN").Place(10, Extent.MinEast, Extent.MinNorth, lowest);
        Variable("EXTMAX").Place(10, Extent.MaxEast, Extent.MaxNorth, highest);
        Variable("LTSCALE").Ratio(40, 1);
        Variable("LUNITS").Whole(70, 2);
        Variable("LUPREC").Whole(70, 4);
        Variable("PDMODE").Whole(70, 3); // a cross
        Variable("PDSIZE").Ratio(40, 0.1);
        Variable("INSUNITS").Whole(70, 6); // metres
        Variable("MEASUREMENT").Whole(70, 1);
        Variable("HANDSEED").Handle(5, handles + FrameHandles);

        DxfText Variable(string name) => header.Word(9, "$" + name);
    }

    private void Tables(DxfText tables)
    {
        Of("VPORT", 1, table =>
        {
            Record("VPORT", "AcDbViewportTableRecord", table).Word(2, "*ACTIVE").Whole(70, 0);
            var (e, n) = ((Extent.MinEast + Extent.MaxEast) / 2, (Extent.MinNorth + Extent.MaxNorth) / 2);
            var (wide, high) = (Extent.MaxEast - Extent.MinEast, Extent.MaxNorth - Extent.MinNorth);
            tables.Metres(10, 0).Metres(20, 0).Metres(11, 1).Metres(21, 1).Metres(12, e).Metres(22, n)
                .Metres(16, 0).Metres(26, 0).Metres(36, 1).Metres(17, 0).Metres(27, 0).Metres(37, 0)
                .Metres(40, Math.Max(1, 1.1 * Math.Max(high, wide / 1.5))).Ratio(41, 1.5);
        });
        Of("LTYPE", 3 + DxfStyles.LineTypes.Count, table =>
        {
            foreach (var type in new DxfLineType[] { new("BYBLOCK", ""), new("BYLAYER", ""), new(DxfStyles.Continuous, "solid") }.Concat(DxfStyles.LineTypes))
            {
                Record("LTYPE", "AcDbLinetypeTableRecord", table).Word(2, type.Name).Whole(70, 0).Text(3, type.About).Whole(72, 65)
                    .Whole(73, type.Pattern.Length).Ratio(40, type.Pattern.Sum(Math.Abs));
                foreach (var part in type.Pattern) tables.Ratio(49, part).Whole(74, 0);
            }
        });
        Of("LAYER", layers.Count, table =>
        {
            foreach (var (name, look) in layers)
                Record("LAYER", "AcDbLayerTableRecord", table).Word(2, name).Whole(70, 0).Whole(62, look.Colour).Word(6, look.LineType).Whole(370, look.Weight);
        });
        Of("STYLE", 1, table => Record("STYLE", "AcDbTextStyleTableRecord", table).Word(2, "STANDARD").Whole(70, 0)
            .Ratio(40, 0).Ratio(41, 1).Ratio(50, 0).Whole(71, 0).Ratio(42, 0.25).Word(3, "txt").Word(4, ""));
        Of("VIEW", 0, _ => { });
        Of("UCS", 0, _ => { });
        Of("APPID", 2, table =>
        {
            Record("APPID", "AcDbRegAppTableRecord", table).Word(2, "ACAD").Whole(70, 0);
            Record("APPID", "AcDbRegAppTableRecord", table).Word(2, Application).Whole(70, 0);
        });
        Of("DIMSTYLE", 1, table =>
        {
            tables.Word(100, "AcDbDimStyleTable").Whole(71, 0);
            tables.Word(0, "DIMSTYLE").Handle(105, Next()).Handle(330, table).Word(100, "AcDbSymbolTableRecord")
                .Word(100, "AcDbDimStyleTableRecord").Word(2, "STANDARD").Whole(70, 0);
        });
        Of("BLOCK_RECORD", 2, table =>
        {
            Space(modelSpace, "*Model_Space");
            Space(paperSpace, "*Paper_Space");

            void Space(int handle, string name) => tables.Word(0, "BLOCK_RECORD").Handle(5, handle).Handle(330, table)
                .Word(100, "AcDbSymbolTableRecord").Word(100, "AcDbBlockTableRecord").Word(2, name).Handle(340, 0);
        });

        void Of(string name, int records, Action<int> fill)
        {
            var table = Next();
            tables.Word(0, "TABLE").Word(2, name).Handle(5, table).Handle(330, 0).Word(100, "AcDbSymbolTable").Whole(70, records);
            fill(table);
            tables.Word(0, "ENDTAB");
        }

        DxfText Record(string type, string kind, int table) => tables.Word(0, type).Handle(5, Next()).Handle(330, table)
            .Word(100, "AcDbSymbolTableRecord").Word(100, kind);
    }

    private void Blocks(DxfText blocks)
    {
        Block(modelSpace, "*Model_Space", false);
        Block(paperSpace, "*Paper_Space", true);

        void Block(int owner, string name, bool paper)
        {
            blocks.Word(0, "BLOCK").Handle(5, Next()).Handle(330, owner).Word(100, "AcDbEntity");
            if (paper) blocks.Whole(67, 1);
            blocks.Word(8, "0").Word(100, "AcDbBlockBegin").Word(2, name).Whole(70, 0).Place(10, 0, 0, 0).Word(3, name).Word(1, "");
            blocks.Word(0, "ENDBLK").Handle(5, Next()).Handle(330, owner).Word(100, "AcDbEntity");
            if (paper) blocks.Whole(67, 1);
            blocks.Word(8, "0").Word(100, "AcDbBlockEnd");
        }
    }

    private void Objects(DxfText objects)
    {
        var (root, groups) = (Next(), Next());
        objects.Word(0, "DICTIONARY").Handle(5, root).Handle(330, 0).Word(100, "AcDbDictionary").Whole(281, 1).Word(3, "ACAD_GROUP").Handle(350, groups)
            .Word(0, "DICTIONARY").Handle(5, groups).Handle(330, root).Word(100, "AcDbDictionary").Whole(281, 1);
    }

    private static void Section(DxfText file, string name, Action<DxfText> inside)
    {
        file.Word(0, "SECTION").Word(2, name);
        inside(file);
        file.Word(0, "ENDSEC");
    }
}
