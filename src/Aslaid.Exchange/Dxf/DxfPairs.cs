using System.Globalization;
using System.IO;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>The pairs of a group code and a value, a line each, of an ASCII DXF, as they stream by. Comments (999) are left out.</summary>
internal sealed class DxfPairs(Stream file)
{
    /// <summary>Bytes to a line at most.</summary>
    public const int LongestLine = 65_536;

    private const double Largest = 1e15; // no coordinate, scale or angle of a site comes near, in any unit
    private readonly byte[] buffer = new byte[LongestLine];
    private int from; // of what is read but not yet handed out
    private int to;
    private int valueAt;
    private int valueLength;

    public int Code { get; private set; }

    /// <summary>The line of the value, the first being 1.</summary>
    public int Line { get; private set; }

    /// <summary>Without blanks at its ends; good until the next pair.</summary>
    public ReadOnlySpan<byte> Value => buffer.AsSpan(valueAt, valueLength);

    /// <summary>Goes on to the next pair.</summary>
    /// <exception cref="DesignRefusedException">There is none, or it is no pair.</exception>
    public void Next()
    {
        do
        {
            NextLine();
            if (!int.TryParse(Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var code) || code is < -5 or > 1071)
                throw Refused("is no group code; a whole number from -5 to 1071 was expected: the file is damaged or no ASCII DXF, save it again");
            Code = code;
            NextLine();
        }
        while (Code == 999);
    }

    /// <summary>Whether the pair begins something of this name: group code 0.</summary>
    public bool Begins(ReadOnlySpan<byte> word) => Code == 0 && Value.SequenceEqual(word);

    /// <summary>The value as a number.</summary>
    public double Number()
    {
        if (!double.TryParse(Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number))
            throw Refused(string.Create(CultureInfo.InvariantCulture, $"is not a number; group code {Code} wants one such as 12.5"));
        if (Math.Abs(number) <= Largest) return number;
        throw Refused(string.Create(CultureInfo.InvariantCulture, $"is not plausible; group code {Code} wants a number within 1e15"));
    }

    /// <summary>The value as a whole number.</summary>
    public int Whole() => int.TryParse(Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole)
        ? whole
        : throw Refused(string.Create(CultureInfo.InvariantCulture, $"is not a whole number; group code {Code} wants one such as 1"));

    /// <summary>A refusal that shows the value and its line.</summary>
    public DesignRefusedException Refused(string expected) => new(Line, Encoding.UTF8.GetString(Value[..Math.Min(valueLength, 200)]), expected);

    private void NextLine()
    {
        var looked = 0;
        int length;
        while (true)
        {
            var end = buffer.AsSpan(from + looked, to - from - looked).IndexOf((byte)'\n');
            if (end >= 0)
            {
                length = looked + end;
                break;
            }

            looked = length = to - from;
            if (!Fill())
            {
                if (length == 0) throw new DesignRefusedException(Line, null, "the file ends here without EOF; a whole DXF was expected: it is cut short, save it again");
                break;
            }
        }

        Line++;
        var line = buffer.AsSpan(from, length);
        if (Line == 1 && line.StartsWith("\uFEFF"u8)) line = line[3..];
        valueAt = from + length - line.TrimStart(" \t\r"u8).Length;
        valueLength = line.Trim(" \t\r"u8).Length;
        from = Math.Min(to, from + length + 1);
    }

    /// <summary>Reads on; false at the end of the file.</summary>
    private bool Fill()
    {
        if (from > 0)
        {
            buffer.AsSpan(from, to - from).CopyTo(buffer);
            (from, to) = (0, to - from);
        }

        if (to == buffer.Length) throw new DesignRefusedException(Line + 1, null, $"the line is longer than {LongestLine} bytes; a group code or a value was expected: the file is damaged or no ASCII DXF");
        var got = file.Read(buffer, to, buffer.Length - to);
        to += got;
        return got > 0;
    }
}
