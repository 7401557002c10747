using System.Buffers.Binary;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>
/// Reads the geometry of a design feature from well-known binary of any kind that ISO 13249-3 knows: ISO or EWKB codes, heights and measures, each
/// member in its own byte order. Measures are passed over.
/// </summary>
/// <remarks>Faults are a <see cref="FormatException"/>. Counts are believed as far as the bytes that are there can hold them, nesting to <see cref="Deepest"/>.</remarks>
internal ref struct DesignWkbReader(ReadOnlySpan<byte> wkb, DesignFrame frame, DesignFeature into, DesignTriangles triangles)
{
    private const uint EwkbHeight = 0x80000000, EwkbMeasure = 0x40000000, EwkbSrs = 0x20000000;
    private const int Deepest = 8;
    private const int ShortestMember = 9; // bytes: order, code and a count
    private readonly ReadOnlySpan<byte> _wkb = wkb;
    private readonly DesignFrame _frame = frame;
    private readonly DesignFeature _into = into;
    private readonly DesignTriangles _triangles = triangles;
    private int _at;
    private bool _bigEndian;
    private bool _hasHeight;
    private bool _hasMeasure;

    public void Read()
    {
        Geometry(0);
        if (_at != _wkb.Length) throw Fault($"the geometry ends here and {_wkb.Length - _at} bytes follow");
    }

    private void Geometry(int depth)
    {
        if (depth > Deepest) throw Fault($"geometries lie in one another more than {Deepest} deep");
        var kind = Start();
        switch (kind)
        {
            case Kind.Point: Point(); break;
            case Kind.Polygon: Polygon(); break;
            case Kind.CurvePolygon:
                var rings = Count(ShortestMember);
                if (rings == 0) _into.Empty();
                for (; rings > 0; rings--)
                {
                    Curve(Start());
                    _into.EndRing();
                }

                break;
            case Kind.MultiPoint or Kind.MultiLineString or Kind.MultiPolygon or Kind.Collection or Kind.MultiCurve or Kind.MultiSurface:
                var members = Count(ShortestMember);
                if (members == 0) _into.Empty();
                for (; members > 0; members--) Geometry(depth + 1);
                break;
            case Kind.PolyhedralSurface or Kind.Tin:
                var faces = Count(ShortestMember);
                if (faces == 0) _into.Empty();
                for (; faces > 0; faces--)
                {
                    if (Start() is not (Kind.Polygon or Kind.Triangle) and var other) throw Fault($"a surface has a face of kind {(int)other}");
                    Face();
                }

                break;
            case Kind.Triangle: Face(); break;
            default:
                Curve(kind);
                _into.EndLine();
                break;
        }
    }

    private void Point()
    {
        var (x, y, z) = Vertex();
        if (double.IsNaN(x) && double.IsNaN(y)) _into.Empty(); // the empty point of GeoPackage
        else _into.Point(x, y, z);
    }

    private void Polygon()
    {
        var rings = Count(sizeof(uint));
        if (rings == 0) _into.Empty();
        for (; rings > 0; rings--)
        {
            Straight(joins: false);
            _into.EndRing();
        }
    }

    private void Curve(Kind kind)
    {
        switch (kind)
        {
            case Kind.LineString: Straight(joins: false); break;
            case Kind.CircularString: Arcs(joins: false); break;
            case Kind.CompoundCurve:
                for (var members = Count(ShortestMember); members > 0; members--)
                    switch (Start())
                    {
                        case Kind.LineString: Straight(joins: true); break;
                        case Kind.CircularString: Arcs(joins: true); break;
                        case var other: throw Fault($"a compound curve has a member of kind {(int)other}; straights and arcs were expected");
                    }

                break;
            default: throw Fault($"geometry kind {(int)kind} stands where a curve was expected");
        }
    }

    private void Straight(bool joins)
    {
        for (var (count, i) = (Count(BytesPerVertex), 0); i < count; i++)
        {
            var (x, y, z) = Vertex();
            if (joins && i == 0) _into.Join(x, y, z);
            else _into.LineTo(x, y, z);
        }
    }

    private void Arcs(bool joins)
    {
        var count = Count(BytesPerVertex);
        if (count == 0) return;
        if (count < 3 || count % 2 == 0) throw Fault($"a circular string has {count} vertices, where 3, 5, 7 ... are right");
        var (x, y, z) = Vertex();
        if (joins) _into.Join(x, y, z);
        else _into.LineTo(x, y, z);
        for (; count > 1; count -= 2)
        {
            var middle = Vertex();
            _into.ArcTo(middle, Vertex());
        }
    }

    /// <summary>A face of a surface: one ring of three corners, the first again at its end.</summary>
    private void Face()
    {
        Span<(Point2 At, double Height)> corners = stackalloc (Point2, double)[4];
        var rings = Count(sizeof(uint));
        var (right, why) = (rings == 1, rings == 0 ? "it is empty" : "it has a hole");
        for (; rings > 0; rings--)
        {
            var count = Count(BytesPerVertex);
            if (count != 4) (right, why) = (false, "it has other than three corners");
            for (var i = 0; i < count; i++)
            {
                var (x, y, z) = Vertex();
                if (!_frame.TryPlace(x, y, out var at, out var wrong)) throw Fault(wrong);
                if (double.IsNaN(z)) (right, why) = (false, "it has no height");
                else if (!_frame.TryHeight(z, out z, out wrong)) throw Fault(wrong);
                if (i < corners.Length) corners[i] = (at, z);
            }
        }

        if (right && corners[0] != corners[3]) (right, why) = (false, "its last corner is not its first");
        if (right) _triangles.Add(corners[..3]);
        else _into.Skip("face of the surface", why);
    }

    private Kind Start()
    {
        Need(1);
        _bigEndian = _wkb[_at] switch { 0 => true, 1 => false, var order => throw Fault($"byte order {order} is neither 0 nor 1") };
        _at++;
        var code = Integer();
        var dimensions = (code & 0x1FFFFFFF) / 1000;
        var kind = (Kind)((code & 0x1FFFFFFF) % 1000);
        if (dimensions > 3 || !Enum.IsDefined(kind)) throw Fault($"geometry code {code} is not read; points, lines, arcs, areas, surfaces and collections of them are");
        _hasHeight = (code & EwkbHeight) != 0 || (dimensions & 1) != 0;
        _hasMeasure = (code & EwkbMeasure) != 0 || (dimensions & 2) != 0;
        if ((code & EwkbSrs) != 0) Integer();
        return kind;
    }

    private readonly int BytesPerVertex => sizeof(double) * (2 + (_hasHeight ? 1 : 0) + (_hasMeasure ? 1 : 0));

    private (double X, double Y, double Z) Vertex()
    {
        var vertex = (Real(), Real(), _hasHeight ? Real() : double.NaN);
        if (_hasMeasure) Real();
        return vertex;
    }

    private int Count(int bytesEach)
    {
        var count = Integer();
        return count <= (uint)((_wkb.Length - _at) / bytesEach) ? (int)count : throw Fault($"{count} items are announced, more than the bytes left can hold");
    }

    private uint Integer()
    {
        Need(sizeof(uint));
        var from = _wkb.Slice(_at, sizeof(uint));
        _at += sizeof(uint);
        return _bigEndian ? BinaryPrimitives.ReadUInt32BigEndian(from) : BinaryPrimitives.ReadUInt32LittleEndian(from);
    }

    private double Real()
    {
        Need(sizeof(double));
        var from = _wkb.Slice(_at, sizeof(double));
        _at += sizeof(double);
        return _bigEndian ? BinaryPrimitives.ReadDoubleBigEndian(from) : BinaryPrimitives.ReadDoubleLittleEndian(from);
    }

    private readonly void Need(int bytes)
    {
        if (_wkb.Length - _at < bytes) throw Fault($"{bytes} more bytes are needed and {_wkb.Length - _at} are left");
    }

    private readonly FormatException Fault(string what) => new($"well-known binary, byte {_at} of {_wkb.Length}: {what}");

    /// <summary>The codes of ISO 13249-3 in their plane form.</summary>
    private enum Kind
    {
        Point = 1,
        LineString = 2,
        Polygon = 3,
        MultiPoint = 4,
        MultiLineString = 5,
        MultiPolygon = 6,
        Collection = 7,
        CircularString = 8,
        CompoundCurve = 9,
        CurvePolygon = 10,
        MultiCurve = 11,
        MultiSurface = 12,
        PolyhedralSurface = 15,
        Tin = 16,
        Triangle = 17,
    }
}
