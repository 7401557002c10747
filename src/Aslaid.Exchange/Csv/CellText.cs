using System.Globalization;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>Cells as bytes: trimming, what may stand in a name, and how they are shown in a message.</summary>
public static class CellText
{
    private const int LongestShown = 40;

    /// <summary>A cell without the spaces and tabs at its ends.</summary>
    public static ReadOnlySpan<byte> Trimmed(ReadOnlySpan<byte> cell) =>
        cell.Length > 0 && (cell[0] is (byte)' ' or (byte)'\t' || cell[^1] is (byte)' ' or (byte)'\t') ? cell.Trim(" \t"u8) : cell;

    /// <summary>Whether a name holds something that cannot be seen: a control or format character. Plain letters are decided at once.</summary>
    public static bool HasUnseen(ReadOnlySpan<byte> text)
    {
        foreach (var letter in text)
            if (letter is < 0x20 or >= 0x7f) return HasUnseen(Encoding.UTF8.GetString(text));
        return false;
    }

    /// <inheritdoc cref="HasUnseen(ReadOnlySpan{byte})"/>
    public static bool HasUnseen(string text)
    {
        foreach (var rune in text.EnumerateRunes())
            if (IsUnseen(rune)) return true;
        return false;
    }

    /// <summary>A cell as a message shows it: at most forty characters, what cannot be seen written as its code point.</summary>
    public static string Shown(ReadOnlySpan<byte> cell) =>
        Shown(Encoding.UTF8.GetString(cell[..Math.Min(cell.Length, 4 * LongestShown)]), cell.Length > 4 * LongestShown);

    /// <inheritdoc cref="Shown(ReadOnlySpan{byte})"/>
    public static string Shown(string cell, bool cut = false)
    {
        var shown = new StringBuilder();
        var count = 0;
        foreach (var rune in cell.EnumerateRunes())
        {
            if (count++ == LongestShown)
            {
                cut = true;
                break;
            }

            if (IsUnseen(rune)) shown.Append(CultureInfo.InvariantCulture, $"<U+{rune.Value:X4}>");
            else shown.Append(rune.ToString());
        }

        return cut ? shown.Append('…').ToString() : shown.ToString();
    }

    private static bool IsUnseen(Rune rune) => Rune.GetUnicodeCategory(rune)
        is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;
}
