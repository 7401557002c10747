using System.Globalization;

namespace Aslaid.Record;

/// <summary>
/// What names a shot for good: its batch (from 1) and the line of the file on which its row begins (the header is line 1).
/// <c>default</c> names nothing.
/// </summary>
/// <remarks>Ids repeat: two crews both number from 1, and a crew may use an id twice. Batch and line never do.</remarks>
public readonly record struct ShotKey(int Batch, int Line) : IComparable<ShotKey>
{
    /// <summary>By batch, then by line.</summary>
    public int CompareTo(ShotKey other) => Batch != other.Batch ? Batch.CompareTo(other.Batch) : Line.CompareTo(other.Line);

    /// <summary>As <c>2:14</c>, batch 2 line 14.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Batch}:{Line}");

    /// <summary>Reads <c>2:14</c>.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out ShotKey key)
    {
        key = default;
        var colon = text.IndexOf(':');
        if (colon < 1
            || !int.TryParse(text[..colon], NumberStyles.None, CultureInfo.InvariantCulture, out var batch)
            || !int.TryParse(text[(colon + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var line)) return false;
        key = new(batch, line);
        return true;
    }

    /// <summary>Earlier key.</summary>
    public static bool operator <(ShotKey left, ShotKey right) => left.CompareTo(right) < 0;

    /// <summary>Later key.</summary>
    public static bool operator >(ShotKey left, ShotKey right) => left.CompareTo(right) > 0;

    /// <summary>Earlier or the same key.</summary>
    public static bool operator <=(ShotKey left, ShotKey right) => left.CompareTo(right) <= 0;

    /// <summary>Later or the same key.</summary>
    public static bool operator >=(ShotKey left, ShotKey right) => left.CompareTo(right) >= 0;
}
