using System.Buffers.Binary;
using System.Text;

namespace Aslaid.Record;

/// <summary>
/// Values as bytes that are the same on every machine and in every culture: integers as 64 bits and numbers as IEEE 754 bits,
/// little endian (−0 becomes 0, NaN is refused where it does not stand for a missing value), text as UTF-8 behind its length;
/// a missing value is one byte 0, a present one begins with 1.
/// </summary>
public sealed class CanonicalBytes
{
    private byte[] bytes = new byte[256];

    /// <summary>What was written so far.</summary>
    public ReadOnlySpan<byte> Written => bytes.AsSpan(0, Length);

    /// <summary>How many bytes were written so far.</summary>
    public int Length { get; private set; }

    /// <summary>Begins anew.</summary>
    public void Clear() => Length = 0;

    /// <summary>An integer.</summary>
    public void Whole(long value) => BinaryPrimitives.WriteInt64LittleEndian(Take(8), value);

    /// <summary>A number that must be there.</summary>
    /// <exception cref="ArgumentException">It is NaN or infinite.</exception>
    public void Number(double value)
    {
        if (!double.IsFinite(value)) throw new ArgumentException("A number that is not finite has no canonical bytes.", nameof(value));
        BinaryPrimitives.WriteInt64LittleEndian(Take(8), BitConverter.DoubleToInt64Bits(value == 0 ? 0.0 : value));
    }

    /// <summary>A number of a column in which NaN stands for missing.</summary>
    public void Maybe(double value)
    {
        var there = !double.IsNaN(value);
        Take(1)[0] = there ? (byte)1 : (byte)0;
        if (there) Number(value);
    }

    /// <summary>A text; null is missing, which is not the same as empty.</summary>
    public void Text(string? value)
    {
        Take(1)[0] = value is null ? (byte)0 : (byte)1;
        if (value is null) return;
        var length = Encoding.UTF8.GetByteCount(value);
        Whole(length);
        Encoding.UTF8.GetBytes(value, Take(length));
    }

    /// <summary>A text that is UTF-8 already.</summary>
    public void Utf8(ReadOnlySpan<byte> value)
    {
        Take(1)[0] = 1;
        Whole(value.Length);
        value.CopyTo(Take(value.Length));
    }

    private Span<byte> Take(int count)
    {
        if (Length + count > bytes.Length) Array.Resize(ref bytes, Math.Max(2 * bytes.Length, Length + count));
        var span = bytes.AsSpan(Length, count);
        Length += count;
        return span;
    }
}
