using System.Buffers;
using System.Buffers.Binary;
using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>Lays one geometry into a span of exactly its size.</summary>
internal ref struct CurveWkbWriter
{
    private const int Header = 5; // byte order, kind
    private readonly CurveDimensions _dimensions;
    private Span<byte> _rest;

    private CurveWkbWriter(Span<byte> to, CurveDimensions dimensions)
    {
        _rest = to;
        _dimensions = dimensions;
    }

    public static void Write(IBufferWriter<byte> to, CurveKind kind, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> ringEnds, CurveDimensions dimensions)
    {
        Span<int> oneRing = [vertices.Length];
        var isArea = kind is CurveKind.Polygon or CurveKind.CurvePolygon;
        scoped ReadOnlySpan<int> rings = isArea && ringEnds.IsEmpty ? oneRing : ringEnds;
        Demand(kind, vertices, rings);
        var size = SizeOf(kind, vertices, rings, dimensions);
        var writer = new CurveWkbWriter(to.GetSpan(size)[..size], dimensions);
        if (isArea) writer.Area(kind, vertices, rings);
        else if (kind == CurveKind.CompoundCurve) writer.Compound(vertices);
        else writer.Simple(kind, vertices);
        to.Advance(size);
    }

    private static void Demand(CurveKind kind, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> rings)
    {
        switch (kind)
        {
            case CurveKind.Point:
                if (vertices.Length != 1) throw new ArgumentException($"A point has 1 vertex, not {vertices.Length}.", nameof(vertices));
                break;
            case CurveKind.LineString or CurveKind.CircularString or CurveKind.CompoundCurve:
                DemandCurve(kind, vertices);
                break;
            case CurveKind.Polygon or CurveKind.CurvePolygon:
                var start = 0;
                foreach (var end in rings)
                {
                    if (end <= start || end > vertices.Length)
                        throw new ArgumentException($"A ring ends at {end}, outside {start + 1} to {vertices.Length}.", nameof(rings));
                    var ring = vertices[start..end];
                    DemandCurve(kind == CurveKind.Polygon ? CurveKind.LineString : CurveKind.CompoundCurve, ring);
                    if (ring[0].East != ring[^1].East || ring[0].North != ring[^1].North)
                        throw new ArgumentException("A ring must end where it starts.", nameof(vertices));
                    start = end;
                }
                if (start != vertices.Length) throw new ArgumentException($"{vertices.Length - start} vertices follow the last ring.", nameof(vertices));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(kind), kind, "This kind is not written.");
        }
    }

    private static void DemandCurve(CurveKind kind, ReadOnlySpan<CurveVertex> vertices)
    {
        CurveMembers.Demand(vertices);
        if (kind == CurveKind.CompoundCurve) return;
        var first = new CurveMembers(vertices);
        first.Next();
        if (first.Current.Length != vertices.Length || first.IsArcs != (kind == CurveKind.CircularString))
            throw new ArgumentException(kind == CurveKind.CircularString ? "A circular string holds arcs only." : "A line string holds no arcs.", nameof(vertices));
    }

    private static int SizeOf(CurveKind kind, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> rings, CurveDimensions dimensions)
    {
        var each = BytesPerVertex(dimensions);
        switch (kind)
        {
            case CurveKind.Point: return Header + each;
            case CurveKind.CompoundCurve: return CompoundSize(vertices, each);
            case CurveKind.Polygon: return Header + sizeof(int) + rings.Length * sizeof(int) + vertices.Length * each;
            case CurveKind.CurvePolygon:
                var size = Header + sizeof(int);
                var start = 0;
                foreach (var end in rings)
                {
                    var ring = vertices[start..end];
                    size += CurveMembers.CountOf(ring) == 1 ? Header + sizeof(int) + ring.Length * each : CompoundSize(ring, each);
                    start = end;
                }
                return size;
            default: return Header + sizeof(int) + vertices.Length * each;
        }
    }

    private static int CompoundSize(ReadOnlySpan<CurveVertex> vertices, int each)
    {
        var members = CurveMembers.CountOf(vertices);
        var written = vertices.Length + members - 1; // neighbours share a vertex, and both write it
        return (members + 1) * (Header + sizeof(int)) + written * each;
    }

    internal static int BytesPerVertex(CurveDimensions dimensions) =>
        sizeof(double) * (2 + (dimensions.HasFlag(CurveDimensions.Height) ? 1 : 0) + (dimensions.HasFlag(CurveDimensions.Measure) ? 1 : 0));

    private void Area(CurveKind kind, ReadOnlySpan<CurveVertex> vertices, scoped ReadOnlySpan<int> rings)
    {
        Start(kind);
        Integer(rings.Length);
        var start = 0;
        foreach (var end in rings)
        {
            var ring = vertices[start..end];
            start = end;
            if (kind == CurveKind.Polygon) Vertices(ring);
            else if (CurveMembers.CountOf(ring) > 1) Compound(ring);
            else Simple(ring[1].OnArc ? CurveKind.CircularString : CurveKind.LineString, ring);
        }
    }

    private void Compound(ReadOnlySpan<CurveVertex> vertices)
    {
        Start(CurveKind.CompoundCurve);
        Integer(CurveMembers.CountOf(vertices));
        for (var members = new CurveMembers(vertices); members.Next();)
            Simple(members.IsArcs ? CurveKind.CircularString : CurveKind.LineString, members.Current);
    }

    private void Simple(CurveKind kind, ReadOnlySpan<CurveVertex> vertices)
    {
        Start(kind);
        if (kind == CurveKind.Point) Vertex(vertices[0]);
        else Vertices(vertices);
    }

    private void Vertices(ReadOnlySpan<CurveVertex> vertices)
    {
        Integer(vertices.Length);
        foreach (ref readonly var vertex in vertices) Vertex(vertex);
    }

    private void Start(CurveKind kind)
    {
        _rest[0] = 1; // little endian
        _rest = _rest[1..];
        Integer((int)kind + 1000 * (int)_dimensions);
    }

    private void Vertex(in CurveVertex vertex)
    {
        Real(vertex.East, "east");
        Real(vertex.North, "north");
        if ((_dimensions & CurveDimensions.Height) != 0) Real(vertex.Height, "height");
        if ((_dimensions & CurveDimensions.Measure) != 0) Real(vertex.Measure, "measure");
    }

    private void Integer(int value)
    {
        BinaryPrimitives.WriteInt32LittleEndian(_rest, value);
        _rest = _rest[sizeof(int)..];
    }

    private void Real(double value, string what)
    {
        if (!double.IsFinite(value))
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"A vertex has {what} {value}; a geometry holds finite numbers only."));
        BinaryPrimitives.WriteDoubleLittleEndian(_rest, value);
        _rest = _rest[sizeof(double)..];
    }
}
