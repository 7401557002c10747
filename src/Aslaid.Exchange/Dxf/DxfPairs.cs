using System.Globalization;
using System.IO;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>Group codes and values of a text DXF, pair by pair as they stream by. Lines are numbered from 1; none may be longer than <see cref="LongestLine"/>.</summary>
internal sealed class DxfPairs(Stream file)
{
    public const int LongestLine = 65_536; // bytes
    private readonly byte[] buffer = new byte[1 << 17];
    private int at;
    private int end;
    private bool ended;
    private bool held;

    /// <summary>Line of the value.</summary>
    public int Line { get; private set; }

    /// <summary>The group code.</summary>
    public int Code { get; private set; }

    /// <summary>The value as a number; 0 for a text.</summary>
    public double Number { get; private set; }

    /// <summary>The value as text, for codes that hold one.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Whether a code holds a number with decimals.</summary>
    private static bool IsReal(int code) => code is >= 10 and <= 59 or >= 110 and <= 149 or >= 210 and <= 239 or >= 460 and <= 469;

    private static bool IsWhole(int code) => code is >= 60 and <= 79 or >= 90 and <= 99 or >= 170 and <= 179 or >= 270 and <= 289;

    /// <summary>Whether a code holds a text that is asked for.</summary>
    private static bool IsText(int code) => code is >= 0 and <= 9;

    /// <summary>Goes to the next pair.</summary>
    /// <exception cref="DesignRefusedException">The file ends, or what should be a code or a number is none.</exception>
    public void Next()
    {
        if (held)
        {
            held = false;
            return;
        }

        var code = NextLine().Trim((byte)' ');
        if (!System.Buffers.Text.Utf8Parser.TryParse(code, out int number, out var used) || used != code.Length)
            throw new DesignRefusedException(Line, Shown(code), "is no group code; a whole number was expected, then its value on the next line");
        Code = number;
        var value = NextLine();
        (Number, Text) = (0, "");
        if (IsText(Code)) Text = Decoded(value).Trim();
        else if (IsReal(Code) || IsWhole(Code)) Number = Parsed(value);
    }

    /// <summary>Lets the next <see cref="Next"/> give this pair again.</summary>
    public void Hold() => held = true;

    private double Parsed(ReadOnlySpan<byte> value)
    {
        value = value.Trim((byte)' ').Trim((byte)'\t');
        if (double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)) return number;
        throw new DesignRefusedException(Line, Shown(value), string.Create(CultureInfo.InvariantCulture, $"is no finite number; group {Code} was expected to hold one"));
    }

    private static string Shown(ReadOnlySpan<byte> value) => Decoded(value[..Math.Min(40, value.Length)]);

    private static string Decoded(ReadOnlySpan<byte> value) => System.Text.Unicode.Utf8.IsValid(value) ? Encoding.UTF8.GetString(value) : Encoding.Latin1.GetString(value);

    private ReadOnlySpan<byte> NextLine()
    {
        while (true)
        {
            var stop = buffer.AsSpan(at, end - at).IndexOf((byte)'\n');
            if (stop >= 0)
            {
                var line = buffer.AsSpan(at, stop);
                at += stop + 1;
                Line++;
                return line is [.. var before, (byte)'\r'] ? before : line;
            }

            if (end - at > LongestLine) throw new DesignRefusedException(Line + 1, null, string.Create(CultureInfo.InvariantCulture, $"the line is longer than {LongestLine} bytes; a group code or a value was expected"));
            if (ended)
            {
                if (at == end) throw new DesignRefusedException(Line, null, "the file ends before its EOF; it is cut off: export it again");
                var last = buffer.AsSpan(at, end - at);
                at = end;
                Line++;
                return last;
            }

            buffer.AsSpan(at, end - at).CopyTo(buffer);
            (at, end) = (0, end - at);
            var got = file.Read(buffer, end, buffer.Length - end);
            end += got;
            ended = got == 0;
        }
    }
}
