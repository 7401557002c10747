using System.Buffers.Binary;

namespace Aslaid.Exchange;

/// <summary>Reads one geometry, member by member; each member states its own byte order.</summary>
internal ref struct CurveWkbReader(ReadOnlySpan<byte> wkb, CurveShape into)
{
    private const uint EwkbHeight = 0x80000000, EwkbMeasure = 0x40000000, EwkbSrs = 0x20000000;
    private readonly ReadOnlySpan<byte> _wkb = wkb;
    private readonly CurveShape _into = into;
    private int _at;
    private bool _bigEndian;
    private CurveDimensions _dimensions;

    public void Read()
    {
        var (kind, dimensions, srsId) = Start();
        _dimensions = dimensions;
        _into.Start(kind, dimensions);
        _into.SrsId = srsId;
        if (kind == CurveKind.Polygon)
            for (var rings = Count(sizeof(int)); rings > 0; rings--)
            {
                Straight(firstIsKnown: false);
                _into.EndRing();
            }
        else if (kind == CurveKind.CurvePolygon)
            for (var rings = Count(9); rings > 0; rings--)
            {
                Curve(Member());
                _into.EndRing();
            }
        else if (kind == CurveKind.Point) Point();
        else Curve(kind);
        if (_at != _wkb.Length) throw Fault($"the geometry ends here and {_wkb.Length - _at} bytes follow");
    }

    private void Curve(CurveKind kind)
    {
        switch (kind)
        {
            case CurveKind.LineString: Straight(firstIsKnown: false); break;
            case CurveKind.CircularString: Arcs(firstIsKnown: false); break;
            case CurveKind.CompoundCurve:
                var members = Count(9);
                for (var i = 0; i < members; i++)
                    switch (Member())
                    {
                        case CurveKind.LineString: Straight(firstIsKnown: i > 0); break;
                        case CurveKind.CircularString: Arcs(firstIsKnown: i > 0); break;
                        case var other: throw Fault($"a compound curve has a member of kind {other}");
                    }
                break;
            default: throw Fault($"a curve was expected and {kind} found");
        }
    }

    private void Point()
    {
        var vertex = Vertex(onArc: false, finite: false);
        if (!double.IsNaN(vertex.East) || !double.IsNaN(vertex.North)) // both NaN: the empty point of GeoPackage
            _into.Add(Finite(vertex));
    }

    private void Straight(bool firstIsKnown)
    {
        var count = Count(CurveWkbWriter.BytesPerVertex(_dimensions));
        for (var i = 0; i < count; i++) Place(Vertex(onArc: false, finite: true), joins: firstIsKnown && i == 0);
    }

    private void Arcs(bool firstIsKnown)
    {
        var count = Count(CurveWkbWriter.BytesPerVertex(_dimensions));
        if (count > 0 && (count < 3 || count % 2 == 0)) throw Fault($"a circular string has {count} vertices, where 3, 5, 7 ... are right");
        for (var i = 0; i < count; i++) Place(Vertex(onArc: i % 2 == 1, finite: true), joins: firstIsKnown && i == 0);
    }

    private void Place(in CurveVertex vertex, bool joins)
    {
        if (!joins || _into.Count == 0) _into.Add(vertex);
        else if (vertex.East != _into.Last.East || vertex.North != _into.Last.North) throw Fault("a member does not start where the one before ends");
    }

    private CurveKind Member()
    {
        var (kind, dimensions, _) = Start();
        if (dimensions != _dimensions) throw Fault($"a member carries {dimensions}, its parent {_dimensions}");
        return kind;
    }

    private (CurveKind Kind, CurveDimensions Dimensions, int? SrsId) Start()
    {
        Need(1);
        _bigEndian = _wkb[_at] switch { 0 => true, 1 => false, var order => throw Fault($"byte order {order} is neither 0 nor 1") };
        _at++;
        var code = Integer();
        var dimensions = (CurveDimensions)((code & 0x1FFFFFFF) / 1000);
        var kind = (CurveKind)((code & 0x1FFFFFFF) % 1000);
        if (dimensions > CurveDimensions.HeightAndMeasure || kind == CurveKind.None || !Enum.IsDefined(kind))
            throw Fault($"geometry code {code} is not read; points, lines, arcs, compound curves and areas are");
        if ((code & EwkbHeight) != 0) dimensions |= CurveDimensions.Height;
        if ((code & EwkbMeasure) != 0) dimensions |= CurveDimensions.Measure;
        return (kind, dimensions, (code & EwkbSrs) != 0 ? (int)Integer() : null);
    }

    private CurveVertex Vertex(bool onArc, bool finite)
    {
        var vertex = new CurveVertex(Real(), Real(),
            (_dimensions & CurveDimensions.Height) != 0 ? Real() : double.NaN,
            (_dimensions & CurveDimensions.Measure) != 0 ? Real() : double.NaN, onArc);
        return finite ? Finite(vertex) : vertex;
    }

    private readonly CurveVertex Finite(in CurveVertex vertex) =>
        double.IsFinite(vertex.East) && double.IsFinite(vertex.North) ? vertex : throw Fault("a coordinate is not finite");

    // A count is believed only as far as the bytes that are there can hold it.
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

    private readonly FormatException Fault(string what) => new($"Well-known binary, byte {_at} of {_wkb.Length}: {what}.");
}
