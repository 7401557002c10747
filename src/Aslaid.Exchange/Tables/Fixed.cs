using System.Globalization;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>Numbers as text with a stated count of decimals: never an exponent, never a culture, never minus zero.</summary>
internal static class Fixed
{
    public const int Coordinate = 4; // decimals of metres: ten times finer than a millimetre
    public const int Area = 3;
    public const int Angle = 6; // decimals of a degree: 0.02 mm at a radius of 1 km
    public const int Figure = 6; // decimals of a figure in whatever unit a check uses
    public const int Longest = 330; // digits of the largest double with some decimals

    private const double ExactUpTo = 9_007_199_254_740_992; // 2⁵³: whole numbers below are exact
    private static readonly double[] Powers = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

    public static string Text(double value, int decimals)
    {
        Span<byte> text = stackalloc byte[Longest];
        return Encoding.ASCII.GetString(text[..Write(value, decimals, text)]);
    }

    /// <summary>Writes the number as ASCII; returns how many bytes it took.</summary>
    /// <param name="decimals">0 to 12.</param>
    /// <param name="into">At least <see cref="Longest"/> bytes.</param>
    /// <remarks>The library's own way to so many digits takes some ten times as long, which tells in large drawings.</remarks>
    public static int Write(double value, int decimals, Span<byte> into)
    {
        var scaled = Math.Round(Math.Abs(value) * Powers[decimals], MidpointRounding.AwayFromZero);
        if (!(scaled < ExactUpTo))
        {
            if (!value.TryFormat(into, out var written, "F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))
                throw new ArgumentException("The number is longer than the room for it.", nameof(into));
            return written;
        }

        var digits = (long)scaled;
        var at = 0;
        if (value < 0 && digits != 0) into[at++] = (byte)'-';
        var power = (long)Powers[decimals];
        (digits / power).TryFormat(into[at..], out var whole, provider: CultureInfo.InvariantCulture);
        at += whole;
        if (decimals == 0) return at;
        into[at++] = (byte)'.';
        var rest = digits % power;
        for (var place = at + decimals - 1; place >= at; place--, rest /= 10) into[place] = (byte)('0' + rest % 10);
        return at + decimals;
    }
}
