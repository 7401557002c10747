using System.Runtime.InteropServices;

namespace Aslaid.Exchange;

/// <summary>A geometry read from well-known binary; one shape may be read into again and again.</summary>
/// <remarks>Not safe for use from two threads. The spans are valid until the next read.</remarks>
public sealed class CurveShape
{
    private readonly List<CurveVertex> _vertices = [];
    private readonly List<int> _ringEnds = [];

    /// <summary>The outermost kind; <see cref="CurveKind.None"/> before the first read.</summary>
    public CurveKind Kind { get; private set; }

    /// <summary>What every vertex carries; the others are NaN in the vertices.</summary>
    public CurveDimensions Dimensions { get; private set; }

    /// <summary>The spatial reference named inside the geometry (EWKB only); null where it names none.</summary>
    public int? SrsId { get; internal set; }

    /// <summary>All vertices, ring after ring; a vertex shared by two members of a compound curve stands once.</summary>
    public ReadOnlySpan<CurveVertex> Vertices => CollectionsMarshal.AsSpan(_vertices);

    /// <summary>For polygons, the index after each ring's last vertex; empty for other kinds.</summary>
    public ReadOnlySpan<int> RingEnds => CollectionsMarshal.AsSpan(_ringEnds);

    /// <summary>True for a geometry without vertices, as an empty line or a point of NaN.</summary>
    public bool IsEmpty => _vertices.Count == 0;

    internal void Start(CurveKind kind, CurveDimensions dimensions)
    {
        Kind = kind;
        Dimensions = dimensions;
        SrsId = null;
        _vertices.Clear();
        _ringEnds.Clear();
    }

    internal int Count => _vertices.Count;

    internal void Add(in CurveVertex vertex) => _vertices.Add(vertex);

    internal CurveVertex Last => _vertices[^1];

    internal void EndRing() => _ringEnds.Add(_vertices.Count);
}
