using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>What a column of numbers may hold.</summary>
/// <param name="Wanted">The noun that a message asks for, with its unit and an example.</param>
/// <param name="Least">Smallest value.</param>
/// <param name="Most">Largest value.</param>
/// <param name="Limits">Both, in words.</param>
internal sealed record NumberRule(string Wanted, double Least, double Most, string Limits);

/// <summary>
/// Reads numbers by the invariant rules, with a decimal point or a decimal comma: whichever a file begins with it keeps to.
/// Thousands are never grouped, and what is not finite or not plausible is refused.
/// </summary>
/// <param name="noComma">Why a decimal comma is refused, and what to do: the rest of the sentence; null where it is allowed.</param>
internal sealed class NumberReader(string? noComma)
{
    private const int MostExactDigits = 15; // below 2^53, so that the division by a power of ten is the only rounding
    private static readonly double[] Powers =
        [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

    private static readonly System.Buffers.SearchValues<byte> DigitsAndMarks = System.Buffers.SearchValues.Create("0123456789+-.,"u8);

    private byte mark; // of decimals; 0 until the file shows one
    private int markLine;

    /// <summary>Whether the file writes a decimal comma.</summary>
    public bool Comma => mark == ',';

    /// <summary>Reads a cell that is not empty; null and a sentence's rest where it is refused.</summary>
    public double? Read(ReadOnlySpan<byte> cell, int line, NumberRule rule, out string? refused)
    {
        refused = null;
        if (!TryFast(cell, line, out var value) && !TrySlow(cell, line, rule, out value, out refused)) return null;
        if (value >= rule.Least && value <= rule.Most) return value;
        refused = double.IsFinite(value)
            ? $"is not plausible; {rule.Limits} was expected"
            : $"is not a finite number; {rule.Wanted} was expected";
        return null;
    }

    /// <summary>Plain digits with a sign and a decimal mark: digits and power of ten are exact, so one division rounds correctly (Clinger 1990).</summary>
    private bool TryFast(ReadOnlySpan<byte> cell, int line, out double value)
    {
        value = 0;
        var at = cell[0] is (byte)'-' or (byte)'+' ? 1 : 0;
        var (digits, decimals, foundMark) = (0L, 0, (byte)0);
        var count = 0;
        for (; at < cell.Length; at++)
        {
            var letter = cell[at];
            if ((uint)(letter - '0') <= 9)
            {
                digits = (10 * digits) + (letter - '0');
                if (++count > MostExactDigits) return false;
                if (foundMark != 0) decimals++;
            }
            else if (letter is (byte)'.' or (byte)',' && foundMark == 0)
            {
                foundMark = letter;
            }
            else
            {
                return false;
            }
        }

        if (count == 0 || (foundMark != 0 && !Keeps(foundMark, line))) return false;
        value = digits / Powers[decimals];
        if (cell[0] == '-') value = -value;
        return true;
    }

    private bool Keeps(byte found, int line)
    {
        if (found == mark) return true;
        if (mark != 0 || (found == ',' && noComma is not null)) return false;
        (mark, markLine) = (found, line);
        return true;
    }

    private bool TrySlow(ReadOnlySpan<byte> cell, int line, NumberRule rule, out double value, out string? refused)
    {
        value = 0;
        refused = $"is not a number; {rule.Wanted} was expected";
        var (points, commas) = (cell.Count((byte)'.'), cell.Count((byte)','));
        if (cell.Length > 400) return false;
        Span<byte> plain = stackalloc byte[cell.Length];
        cell.CopyTo(plain);
        plain.Replace((byte)',', (byte)'.');
        if (points + commas > 1)
        {
            if (cell.IndexOfAnyExcept(DigitsAndMarks) < 0)
                refused = $"groups its digits; {rule.Wanted} was expected, without separators between thousands";
            return false;
        }

        if (!double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out value))
            return false;
        if (points + commas == 1 && !Keeps(points == 1 ? (byte)'.' : (byte)',', line))
        {
            refused = commas > 0 && noComma is not null ? noComma : string.Create(CultureInfo.InvariantCulture,
                $"has a decimal {(mark == ',' ? "point" : "comma")}, but line {markLine} has a decimal {(mark == ',' ? "comma" : "point")}; one of them throughout the file was expected");
            return false;
        }

        refused = null;
        return true;
    }
}
