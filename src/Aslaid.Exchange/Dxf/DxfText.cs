using System.Globalization;
using System.IO;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>Pairs of a group code and a value, a line each: all that an ASCII DXF is made of.</summary>
/// <param name="stream">Where they go; null only counts what a drawing needs.</param>
internal sealed class DxfText(Stream? stream)
{
    private const int LongestText = 255; // bytes that extended data may hold; ordinary text may hold more
    private readonly byte[] number = new byte[Fixed.Longest];

    public bool IsWritten => stream is not null;

    /// <summary>Words of the format itself; nothing is escaped.</summary>
    public DxfText Word(int code, string word)
    {
        if (stream is null) return this;
        Code(code);
        stream.Write(Encoding.ASCII.GetBytes(word));
        stream.WriteByte((byte)'\n');
        return this;
    }

    public DxfText Whole(int code, int value) => Word(code, value.ToString(CultureInfo.InvariantCulture));

    public DxfText Handle(int code, int handle) => Word(code, handle.ToString("X", CultureInfo.InvariantCulture));

    /// <summary>Metres to the nanometre, the step of a double at a northing of 6 000 km: radii come back from bulges.</summary>
    public DxfText Metres(int code, double metres) => Decimals(code, metres, 9);

    /// <summary>A ratio or an angle in degrees.</summary>
    public DxfText Ratio(int code, double ratio) => Decimals(code, ratio, 12);

    /// <summary>A place: group codes 10, 20, 30 or those after them.</summary>
    public DxfText Place(int code, double east, double north, double height) =>
        Metres(code, east).Metres(code + 10, north).Metres(code + 20, height);

    /// <summary>Words of people: what is not ASCII becomes <c>\U+XXXX</c>, line ends become spaces.</summary>
    public DxfText Text(int code, string words) => stream is null ? this : Word(code, Escaped(words));

    private DxfText Decimals(int code, double value, int decimals)
    {
        if (stream is null) return this;
        Code(code);
        stream.Write(number, 0, Fixed.Write(value, decimals, number));
        stream.WriteByte((byte)'\n');
        return this;
    }

    private void Code(int code)
    {
        Span<byte> text = stackalloc byte[5]; // right-aligned to three, as the format's writers do
        code.TryFormat(text, out var written, provider: CultureInfo.InvariantCulture);
        for (var pad = written; pad < 3; pad++) stream!.WriteByte((byte)' ');
        text[written++] = (byte)'\n';
        stream!.Write(text[..written]);
    }

    private static string Escaped(string words)
    {
        var escaped = new StringBuilder(words.Length);
        foreach (var letter in words)
        {
            var next = letter switch
            {
                < ' ' or '\u007f' => " ",
                '^' => "^ ", // a caret alone begins a control character
                > '~' => string.Create(CultureInfo.InvariantCulture, $"\\U+{(int)letter:X4}"),
                _ => letter.ToString(),
            };
            if (escaped.Length + next.Length > LongestText) break;
            escaped.Append(next);
        }

        return escaped.ToString();
    }
}
