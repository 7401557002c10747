namespace Aslaid.Exchange;

/// <summary>Times by ISO 8601, extended form: date, <c>T</c> or a space, hours and minutes, perhaps seconds with decimals, perhaps a zone.</summary>
internal static class TimeText
{
    public const string Wanted = "a date and time such as 2026-05-04T13:30:00+02:00 (ISO 8601) was expected";

    /// <summary>Reads a time.</summary>
    /// <param name="ticks">Of UTC where a zone is written, else of the time as it stands.</param>
    /// <param name="zone">Minutes ahead of UTC; <see cref="short.MinValue"/> where none is written.</param>
    /// <remarks>Decimals beyond a tick (100 ns) are dropped. Years 1950 to 2149: others are marks of instruments that had no time.</remarks>
    public static bool TryRead(ReadOnlySpan<byte> text, out long ticks, out short zone)
    {
        (ticks, zone) = (long.MinValue, short.MinValue);
        if (text.Length < 16 || text[4] != '-' || text[7] != '-' || text[10] is not ((byte)'T' or (byte)'t' or (byte)' ') || text[13] != ':') return false;
        var year = (100 * Two(text)) + Two(text[2..]);
        var (month, day, hour, minute) = (Two(text[5..]), Two(text[8..]), Two(text[11..]), Two(text[14..]));
        if (year is < 1950 or > 2149 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month)
            || hour is < 0 or > 23 || minute is < 0 or > 59) return false;
        var rest = text[16..];
        var second = 0;
        long parts = 0;
        if (rest.Length >= 3 && rest[0] == ':')
        {
            second = Two(rest[1..]);
            if (second is < 0 or > 59) return false;
            rest = rest[3..];
            if (rest.Length > 0 && rest[0] is (byte)'.' or (byte)',')
            {
                rest = rest[1..];
                var count = 0;
                var weight = TimeSpan.TicksPerSecond / 10;
                for (; count < rest.Length && (uint)(rest[count] - '0') <= 9; count++, weight /= 10) parts += weight * (rest[count] - '0');
                if (count == 0) return false;
                rest = rest[count..];
            }
        }

        if (!TryZone(rest, out zone)) return false;
        ticks = new DateTime(year, month, day, hour, minute, second, DateTimeKind.Unspecified).Ticks + parts;
        if (zone != short.MinValue) ticks -= zone * TimeSpan.TicksPerMinute;
        return true;
    }

    private static bool TryZone(ReadOnlySpan<byte> text, out short zone)
    {
        zone = short.MinValue;
        if (text.Length == 0) return true;
        if (text.Length == 1 && text[0] is (byte)'Z' or (byte)'z')
        {
            zone = 0;
            return true;
        }

        if (text[0] is not ((byte)'+' or (byte)'-') || text.Length is not (3 or 5 or 6)) return false;
        if (text.Length == 6 && text[3] != ':') return false;
        var (hours, minutes) = (Two(text[1..]), text.Length == 3 ? 0 : Two(text[^2..]));
        if (hours < 0 || minutes is < 0 or > 59 || (60 * hours) + minutes > 14 * 60) return false;
        zone = (short)((60 * hours) + minutes);
        if (text[0] == '-') zone = (short)-zone;
        return true;
    }

    /// <summary>Two digits, or a large negative number.</summary>
    private static int Two(ReadOnlySpan<byte> text)
    {
        var (tens, ones) = ((uint)(text[0] - '0'), (uint)(text[1] - '0'));
        return tens <= 9 && ones <= 9 ? (int)((10 * tens) + ones) : -100_000;
    }
}
