using System.Buffers;

namespace Aslaid.Exchange;

/// <summary>Well-known binary of points, lines, true arcs and areas bounded by them.</summary>
/// <remarks>Written little endian as ISO 13249-3 (SQL/MM Spatial), section "well-known binary representation", which GeoPackage
/// demands: kind + 1000 for heights + 2000 for measures, members with the code of their parent's dimensions. Coordinates pass
/// unrounded, bit for bit.</remarks>
public static class CurveWkb
{
    /// <summary>Appends one geometry to <paramref name="to"/>.</summary>
    /// <param name="kind">A <see cref="CurveKind.CompoundCurve"/> is always written as one, even of a single straight line, so that it
    /// fits a column of that type; the rings of a <see cref="CurveKind.CurvePolygon"/> take the simplest form that holds them.</param>
    /// <param name="ringEnds">For polygons, the index after each ring's last vertex; empty means one ring. A ring ends where it starts.</param>
    /// <exception cref="ArgumentException">The vertices do not make the kind, or a coordinate is not finite.</exception>
    public static void Write(IBufferWriter<byte> to, CurveKind kind, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> ringEnds, CurveDimensions dimensions)
    {
        ArgumentNullException.ThrowIfNull(to);
        CurveWkbWriter.Write(to, kind, vertices, ringEnds, dimensions);
    }

    /// <inheritdoc cref="Write(IBufferWriter{byte}, CurveKind, ReadOnlySpan{CurveVertex}, ReadOnlySpan{int}, CurveDimensions)"/>
    public static void Write(IBufferWriter<byte> to, CurveKind kind, ReadOnlySpan<CurveVertex> vertices, CurveDimensions dimensions) =>
        Write(to, kind, vertices, [], dimensions);

    /// <summary>Reads one geometry into <paramref name="into"/>, replacing what it held.</summary>
    /// <param name="wkb">ISO or EWKB (high bits for Z, M and a spatial reference), in either byte order, members in their own.</param>
    /// <exception cref="FormatException">The bytes end early, or name a kind not read here; the message says which and where.</exception>
    public static void Read(ReadOnlySpan<byte> wkb, CurveShape into)
    {
        ArgumentNullException.ThrowIfNull(into);
        new CurveWkbReader(wkb, into).Read();
    }
}
