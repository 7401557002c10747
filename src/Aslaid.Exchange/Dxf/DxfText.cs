using System.Globalization;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>Pairs of a group code and a value, a line each: all that an ASCII DXF is made of.</summary>
internal sealed class DxfText
{
    private const int LongestText = 255; // bytes that extended data may hold; ordinary text may hold more
    private readonly StringBuilder text = new();

    /// <summary>Words of the format itself; nothing is escaped.</summary>
    public DxfText Word(int code, string word)
    {
        text.Append(code.ToString(CultureInfo.InvariantCulture).PadLeft(3)).Append('\n').Append(word).Append('\n');
        return this;
    }

    public DxfText Whole(int code, int number) => Word(code, number.ToString(CultureInfo.InvariantCulture));

    public DxfText Handle(int code, int handle) => Word(code, handle.ToString("X", CultureInfo.InvariantCulture));

    /// <summary>Metres to the nanometre, the step of a double at a northing of 6 000 km: radii come back from bulges.</summary>
    public DxfText Metres(int code, double metres) => Word(code, Fixed.Text(metres, 9));

    /// <summary>A ratio or an angle in degrees.</summary>
    public DxfText Ratio(int code, double ratio) => Word(code, Fixed.Text(ratio, 12));

    /// <summary>A place: group codes 10, 20, 30 or those after them.</summary>
    public DxfText Place(int code, double east, double north, double height) =>
        Metres(code, east).Metres(code + 10, north).Metres(code + 20, height);

    /// <summary>Words of people: what is not ASCII becomes <c>\U+XXXX</c>, line ends become spaces.</summary>
    public DxfText Text(int code, string words) => Word(code, Escaped(words));

    public DxfText Append(DxfText other)
    {
        text.Append(other.text);
        return this;
    }

    public override string ToString() => text.ToString();

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
