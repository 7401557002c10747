using System.Buffers.Binary;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>Reads one WKB geometry, ISO or extended, as lines, points and triangles of a design; measures are left aside.</summary>
internal ref struct WkbDesign(ReadOnlySpan<byte> wkb, Func<Point2, Point2>? toGrid)
{
    private const int Deepest = 16;
    private readonly ReadOnlySpan<byte> wkb = wkb;
    private readonly Func<Point2, Point2>? toGrid = toGrid;
    private int at;
    private bool bigEndian;

    public List<Path> Lines { get; } = [];

    public List<(Point2 At, double? Height)> Points { get; } = [];

    /// <summary>Corners of triangles, three a triangle.</summary>
    public List<(Point2 At, double? Height)> Triangles { get; } = [];

    /// <summary>Kinds that hold nothing of use, by name.</summary>
    public List<string> PassedOver { get; } = [];

    public void Read()
    {
        Geometry(0);
        if (at != wkb.Length) throw Wrong($"{wkb.Length - at} bytes follow its end");
    }

    private void Geometry(int depth)
    {
        if (depth > Deepest) throw Wrong("it holds geometries too deep in each other");
        var (kind, size) = Head();
        switch (kind)
        {
            case 1:
                var place = Place(size, mayBeEmpty: true);
                if (place is { } known) Points.Add(known);
                break;
            case 2 or 8: Curve(kind, size, null); break;
            case 3:
                for (var rings = Count(4); rings > 0; rings--) Curve(2, size, null);
                break;
            case 9: Compound(); break;
            case 10:
                for (var rings = Count(9); rings > 0; rings--) Member(depth);
                break;
            case 4 or 5 or 6 or 7 or 11 or 12:
                for (var members = Count(5); members > 0; members--) Geometry(depth + 1);
                break;
            case 15 or 16:
                for (var members = Count(9); members > 0; members--) Geometry(depth + 1);
                break;
            case 17:
                if (Count(4) is var triangleRings and > 0)
                    for (; triangleRings > 0; triangleRings--) Triangle(size);
                break;
            default: throw Wrong(string.Create(CultureInfo.InvariantCulture, $"kind {kind} is not known here"));
        }
    }

    /// <summary>A ring of a curve polygon: a line string, a circular string or a compound curve.</summary>
    private void Member(int depth)
    {
        var before = at;
        var (kind, size) = Head();
        if (kind is 2 or 8) Curve(kind, size, null);
        else if (kind == 9) Compound();
        else
        {
            at = before;
            Geometry(depth + 1);
        }
    }

    private void Compound()
    {
        var chain = new PathChain();
        for (var members = Count(9); members > 0; members--)
        {
            var (kind, size) = Head();
            if (kind is not (2 or 8)) throw Wrong(string.Create(CultureInfo.InvariantCulture, $"a compound curve has a member of kind {kind}"));
            Curve(kind, size, chain);
        }

        Take(chain);
    }

    /// <summary>A string of places, as a line of its own or as the next part of one.</summary>
    private void Curve(int kind, int size, PathChain? whole)
    {
        var count = Count(8 * size);
        var chain = whole ?? new PathChain();
        (Point2 At, double? Height)? through = null;
        for (var i = 0; i < count; i++)
        {
            var place = Place(size, mayBeEmpty: false)!.Value;
            if (!chain.IsStarted) chain.Start(place.At, place.Height);
            else if (i == 0)
            {
                if (chain.End.DistanceTo(place.At) > 1e-6) throw Wrong("the parts of a compound curve do not join");
            }
            else if (kind == 2) chain.LineTo(place.At, place.Height);
            else if (i % 2 == 1) through = place;
            else Arc(chain, through!.Value, place);
        }

        if (kind == 8 && count > 0 && count % 2 == 0) throw Wrong("a circular string has an even number of places");
        if (whole is null) Take(chain);
    }

    private static void Arc(PathChain chain, (Point2 At, double? Height) through, (Point2 At, double? Height) to)
    {
        var from = chain.End;
        if (from == to.At && through.At != from) chain.ArcTo(Aslaid.Geometry.Arc.FullCircle(from, through.At, Turn.Left), to.Height);
        else if (Aslaid.Geometry.Arc.TryThrough(from, through.At, to.At, 0, out var arc, out _)) chain.ArcTo(arc, to.Height);
        else
        {
            chain.LineTo(through.At, through.Height);
            chain.LineTo(to.At, to.Height);
        }
    }

    private void Triangle(int size)
    {
        var count = Count(8 * size);
        var corners = new List<(Point2, double?)>();
        for (var i = 0; i < count; i++) corners.Add(Place(size, mayBeEmpty: false)!.Value);
        if (count >= 3) Triangles.AddRange(corners.Take(3));
    }

    private void Take(PathChain chain)
    {
        if (chain.IsStarted && chain.Build() is { } path) Lines.Add(path);
        else PassedOver.Add(chain.IsStarted ? "line without length" : "empty line");
    }

    private (int Kind, int Size) Head()
    {
        if (at >= wkb.Length) throw Wrong("it is cut off");
        bigEndian = wkb[at++] switch { 0 => true, 1 => false, var other => throw Wrong(string.Create(CultureInfo.InvariantCulture, $"its byte order {other} is neither 0 nor 1")) };
        var code = (uint)Whole();
        var (z, m) = ((code & 0x80000000) != 0, (code & 0x40000000) != 0);
        if ((code & 0x20000000) != 0) Whole();
        code &= 0x1fffffff;
        var dimensions = code / 1000;
        if (dimensions > 3) throw Wrong(string.Create(CultureInfo.InvariantCulture, $"kind {code} is not known here"));
        (z, m) = (z || dimensions is 1 or 3, m || dimensions is 2 or 3);
        hasHeight = z;
        return ((int)(code % 1000), 2 + (z ? 1 : 0) + (m ? 1 : 0));
    }

    private bool hasHeight;

    private int Whole()
    {
        if (wkb.Length - at < 4) throw Wrong("it is cut off");
        var value = bigEndian ? BinaryPrimitives.ReadInt32BigEndian(wkb[at..]) : BinaryPrimitives.ReadInt32LittleEndian(wkb[at..]);
        at += 4;
        return value;
    }

    /// <summary>How many follow; each takes so many bytes at least.</summary>
    private int Count(int each)
    {
        var count = Whole();
        return count >= 0 && (long)count * each <= wkb.Length - at ? count : throw Wrong(string.Create(CultureInfo.InvariantCulture, $"it claims {(uint)count} parts and has no room for them"));
    }

    private (Point2 At, double? Height)? Place(int size, bool mayBeEmpty)
    {
        if (wkb.Length - at < 8 * size) throw Wrong("it is cut off");
        Span<double> values = stackalloc double[4];
        for (var i = 0; i < size; i++, at += 8) values[i] = bigEndian ? BinaryPrimitives.ReadDoubleBigEndian(wkb[at..]) : BinaryPrimitives.ReadDoubleLittleEndian(wkb[at..]);
        if (mayBeEmpty && double.IsNaN(values[0]) && double.IsNaN(values[1])) return null;
        if (!double.IsFinite(values[0]) || !double.IsFinite(values[1])) throw Wrong("a coordinate is not finite");
        var place = toGrid is null ? new Point2(values[0], values[1]) : toGrid(new(values[0], values[1]));
        return (DesignGather.Place(place.East, place.North, 0), hasHeight && double.IsFinite(values[2]) ? DesignGather.Height(values[2], 0) : null);
    }

    private readonly DesignRefusedException Wrong(string why) => new(0, null, string.Create(CultureInfo.InvariantCulture, $"a geometry cannot be read at byte {at}: {why}"));
}
