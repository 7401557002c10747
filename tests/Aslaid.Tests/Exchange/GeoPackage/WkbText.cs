using System.Buffers.Binary;

namespace Aslaid.Tests;

/// <summary>Well-known binary put together by hand, for readers to be tried with what our own writer never writes.</summary>
internal sealed class WkbText(bool bigEndian = false)
{
    private readonly List<byte> bytes = [];

    /// <summary>A geometry as GeoPackage stores it, without an envelope.</summary>
    public static byte[] Blob(int srsId, byte[] wkb)
    {
        var header = new byte[8];
        (header[0], header[1], header[3]) = ((byte)'G', (byte)'P', 1);
        BinaryPrimitives.WriteInt32LittleEndian(header.AsSpan(4), srsId);
        return [.. header, .. wkb];
    }

    public byte[] Bytes => [.. bytes];

    /// <summary>Byte order and code.</summary>
    public WkbText Kind(uint code)
    {
        bytes.Add(bigEndian ? (byte)0 : (byte)1);
        return Count(code);
    }

    public WkbText Count(uint count)
    {
        var four = new byte[4];
        if (bigEndian) BinaryPrimitives.WriteUInt32BigEndian(four, count);
        else BinaryPrimitives.WriteUInt32LittleEndian(four, count);
        bytes.AddRange(four);
        return this;
    }

    public WkbText Reals(params double[] values)
    {
        var eight = new byte[8];
        foreach (var value in values)
        {
            if (bigEndian) BinaryPrimitives.WriteDoubleBigEndian(eight, value);
            else BinaryPrimitives.WriteDoubleLittleEndian(eight, value);
            bytes.AddRange(eight);
        }

        return this;
    }

    /// <summary>A member made elsewhere, with its own byte order.</summary>
    public WkbText Member(WkbText member)
    {
        bytes.AddRange(member.bytes);
        return this;
    }

    /// <summary>A count and the vertices, each shifted onto the invented site by its first two numbers.</summary>
    public WkbText Places(params double[][] places)
    {
        Count((uint)places.Length);
        foreach (var place in places) Reals([512_000 + place[0], 6_243_000 + place[1], .. place[2..]]);
        return this;
    }
}
