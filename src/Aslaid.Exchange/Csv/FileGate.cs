using System.Globalization;
using System.Text.Unicode;

namespace Aslaid.Exchange;

/// <summary>What every text file must be before a line of it is read: UTF-8, without NUL bytes, of lines that are not too long.</summary>
internal static class FileGate
{
    /// <summary>Bytes to a line at most: a longer one is no table, and would be held in memory whole.</summary>
    public const int LongestLine = 1_000_000;

    /// <summary>The text without its byte order mark; null when the file was rejected.</summary>
    public static ReadOnlyMemory<byte>? Open(ReadOnlyMemory<byte> file, Rejections rejected)
    {
        var bytes = file.Span;
        if (bytes.Length == 0) return Refuse(rejected, 0, "the file is empty; a header line and rows below it were expected");
        if (IsUtf16(bytes)) return Refuse(rejected, 0, "the file is UTF-16; UTF-8 was expected: save it again as 'CSV UTF-8'");
        if (bytes.IndexOf((byte)0) is >= 0 and var nul)
            return Refuse(rejected, LineAt(bytes, nul), string.Create(CultureInfo.InvariantCulture,
                $"there is a NUL byte at byte {nul}; text was expected: the file is damaged or no text, export it again"));
        if (!Utf8.IsValid(bytes))
        {
            var bad = FirstInvalid(bytes);
            return Refuse(rejected, LineAt(bytes, bad), string.Create(CultureInfo.InvariantCulture,
                $"byte {bad} (0x{bytes[bad]:X2}) is not valid UTF-8; UTF-8 was expected: save the file again as 'CSV UTF-8'"));
        }

        if (TooLong(bytes) is >= 0 and var start)
            return Refuse(rejected, LineAt(bytes, start), string.Create(CultureInfo.InvariantCulture,
                $"the line is longer than {LongestLine} bytes; one row a line was expected: look for a missing line end"));
        var text = bytes.StartsWith("\uFEFF"u8) ? file[3..] : file;
        if (text.Span.IndexOfAnyExcept(" \t\r\n"u8) >= 0) return text;
        return Refuse(rejected, 0, "the file holds nothing but blanks; a header line and rows below it were expected");
    }

    private static ReadOnlyMemory<byte>? Refuse(Rejections rejected, int line, string why)
    {
        rejected.Add(line, null, (string?)null, why);
        return null;
    }

    /// <summary>A byte order mark of UTF-16, or every second byte zero at the beginning, as text without a mark would have.</summary>
    private static bool IsUtf16(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xff, 0xfe]) || bytes.StartsWith((ReadOnlySpan<byte>)[0xfe, 0xff])) return true;
        var look = Math.Min(bytes.Length, 200) & ~1;
        if (look < 4) return false;
        var (even, odd) = (0, 0);
        for (var at = 0; at < look; at += 2)
        {
            if (bytes[at] == 0) even++;
            if (bytes[at + 1] == 0) odd++;
        }

        return Math.Max(even, odd) > 0.8 * look / 2 && Math.Min(even, odd) < 0.2 * look / 2;
    }

    /// <summary>Line of a byte, from 1; a line ends with LF, CR LF or CR.</summary>
    private static int LineAt(ReadOnlySpan<byte> bytes, int at)
    {
        var line = 1;
        for (var i = 0; i < at; i++)
            if (bytes[i] == '\n' || (bytes[i] == '\r' && (i + 1 >= bytes.Length || bytes[i + 1] != '\n'))) line++;
        return line;
    }

    private static int FirstInvalid(ReadOnlySpan<byte> bytes)
    {
        var at = 0;
        while (System.Text.Rune.DecodeFromUtf8(bytes[at..], out _, out var used) == System.Buffers.OperationStatus.Done) at += used;
        return at;
    }

    /// <summary>Where a line begins that is too long, or −1. Looks backwards for a line end in each window, so it reads little.</summary>
    private static int TooLong(ReadOnlySpan<byte> bytes)
    {
        var start = 0;
        while (bytes.Length - start > LongestLine)
        {
            var end = bytes.Slice(start, LongestLine + 1).LastIndexOfAny((byte)'\n', (byte)'\r');
            if (end < 0) return start;
            start += end + 1;
        }

        return -1;
    }
}
