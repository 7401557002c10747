using System.Buffers;
using System.Buffers.Binary;

namespace Aslaid.Exchange;

/// <summary>What stands before the geometry in a GeoPackage blob.</summary>
/// <param name="SrsId">Key into the file's spatial references.</param>
/// <param name="IsEmpty">The blob says that its geometry is empty.</param>
/// <param name="Box">The stated envelope; null where the blob states none. Measures in it are passed over.</param>
/// <param name="WkbOffset">Where the well-known binary starts, bytes.</param>
public readonly record struct GeoPackageHeader(int SrsId, bool IsEmpty, CurveBox? Box, int WkbOffset);

/// <summary>Geometry as a GeoPackage stores it: a header with an envelope, then ISO well-known binary.</summary>
/// <remarks>OGC 12-128r17, clause 2.1.3 (GeoPackageBinary). Little endian; the envelope holds heights when the geometry does; a point
/// is its own envelope and carries none. The envelope covers the bulge of arcs.</remarks>
public static class GeoPackageBlob
{
    /// <summary>Appends one blob and returns the box around its geometry, for the spatial index.</summary>
    /// <inheritdoc cref="CurveWkb.Write(IBufferWriter{byte}, CurveKind, ReadOnlySpan{CurveVertex}, ReadOnlySpan{int}, CurveDimensions)"/>
    public static CurveBox Write(IBufferWriter<byte> to, int srsId, CurveKind kind, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> ringEnds, CurveDimensions dimensions)
    {
        ArgumentNullException.ThrowIfNull(to);
        var box = CurveBox.Of(vertices);
        WriteHeader(to, srsId, kind == CurveKind.Point ? null : box, withHeight: (dimensions & CurveDimensions.Height) != 0);
        CurveWkb.Write(to, kind, vertices, ringEnds, dimensions);
        return box;
    }

    /// <inheritdoc cref="Write(IBufferWriter{byte}, int, CurveKind, ReadOnlySpan{CurveVertex}, ReadOnlySpan{int}, CurveDimensions)"/>
    public static CurveBox Write(IBufferWriter<byte> to, int srsId, CurveKind kind, ReadOnlySpan<CurveVertex> vertices, CurveDimensions dimensions) =>
        Write(to, srsId, kind, vertices, [], dimensions);

    /// <summary>Appends a header, without a geometry.</summary>
    /// <param name="box">The envelope; null for none.</param>
    /// <param name="withHeight">Whether the envelope states heights.</param>
    public static void WriteHeader(IBufferWriter<byte> to, int srsId, CurveBox? box, bool withHeight)
    {
        ArgumentNullException.ThrowIfNull(to);
        var doubles = box is null ? 0 : withHeight ? 6 : 4;
        var size = 8 + doubles * sizeof(double);
        var span = to.GetSpan(size)[..size];
        span[0] = (byte)'G';
        span[1] = (byte)'P';
        span[2] = 0; // version 1
        span[3] = (byte)(1 | doubles switch { 0 => 0, 4 => 1, _ => 2 } << 1);
        BinaryPrimitives.WriteInt32LittleEndian(span[4..], srsId);
        if (box is { } b)
        {
            Span<double> values = [b.MinEast, b.MaxEast, b.MinNorth, b.MaxNorth, b.MinHeight, b.MaxHeight];
            for (var i = 0; i < doubles; i++)
                BinaryPrimitives.WriteDoubleLittleEndian(span[(8 + i * sizeof(double))..], values[i]);
        }
        to.Advance(size);
    }

    /// <summary>Reads the header, in either byte order.</summary>
    /// <exception cref="FormatException">Not a GeoPackage blob of the standard kind; the message says what was found.</exception>
    public static GeoPackageHeader ReadHeader(ReadOnlySpan<byte> blob)
    {
        if (blob.Length < 8 || blob[0] != 'G' || blob[1] != 'P')
            throw new FormatException($"A geometry of {blob.Length} bytes does not start with the letters GP of a GeoPackage geometry.");
        var flags = blob[3];
        if (blob[2] != 0 || (flags & 0x20) != 0)
            throw new FormatException($"A geometry has version byte {blob[2]} and flags {flags}; version 0 without an extension is read.");
        var doubles = (flags >> 1 & 7) switch { 0 => 0, 1 => 4, 2 or 3 => 6, 4 => 8, var code => throw new FormatException($"Envelope code {code} is unknown; 0 to 4 are known.") };
        var offset = 8 + doubles * sizeof(double);
        if (blob.Length < offset) throw new FormatException($"A geometry of {blob.Length} bytes ends within its envelope of {doubles} numbers.");
        var little = (flags & 1) != 0;
        var srsId = little ? BinaryPrimitives.ReadInt32LittleEndian(blob[4..]) : BinaryPrimitives.ReadInt32BigEndian(blob[4..]);
        if (doubles == 0) return new(srsId, (flags & 0x10) != 0, null, offset);
        Span<double> values = [0, 0, 0, 0, double.NaN, double.NaN];
        var hasHeight = (flags >> 1 & 7) is 2 or 4;
        for (var i = 0; i < (hasHeight ? 6 : 4); i++)
        {
            var at = blob[(8 + i * sizeof(double))..];
            values[i] = little ? BinaryPrimitives.ReadDoubleLittleEndian(at) : BinaryPrimitives.ReadDoubleBigEndian(at);
        }
        return new(srsId, (flags & 0x10) != 0, new CurveBox(values[0], values[1], values[2], values[3], values[4], values[5]), offset);
    }

    /// <summary>Reads the geometry into <paramref name="into"/> and returns its header.</summary>
    /// <inheritdoc cref="CurveWkb.Read" path="/exception"/>
    public static GeoPackageHeader Read(ReadOnlySpan<byte> blob, CurveShape into)
    {
        var header = ReadHeader(blob);
        CurveWkb.Read(blob[header.WkbOffset..], into);
        return header;
    }
}
