using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>Numbers as text with a stated count of decimals: never an exponent, never a culture, never minus zero.</summary>
internal static class Fixed
{
    public const int Coordinate = 4; // decimals of metres: ten times finer than a millimetre
    public const int Area = 3;
    public const int Angle = 6; // decimals of a degree: 0.02 mm at a radius of 1 km

    public static string Text(double value, int decimals)
    {
        var text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text[0] == '-' && text.AsSpan(1).IndexOfAnyExcept('0', '.') < 0 ? text[1..] : text;
    }
}
