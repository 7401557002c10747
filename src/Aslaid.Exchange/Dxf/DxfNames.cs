using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Text.Unicode;

namespace Aslaid.Exchange;

/// <summary>
/// Names in a drawing: UTF-8 from AC1021 on, of the drawing's code page before. What is no UTF-8 where it should be is read as
/// Windows-1252, and UTF-8 in a drawing of that page, or of none, is read as what it plainly is.
/// </summary>
internal sealed partial class DxfNames
{
    private const int Western = 1252;
    private readonly (byte[] Bytes, string Text)[] known = new (byte[], string)[256]; // a drawing says the same few names over and over
    private Encoding? page;

    /// <summary>Takes what the header says.</summary>
    /// <param name="version">As AC1015.</param>
    /// <param name="codePage">As ANSI_1252.</param>
    public void Settle(string? version, string? codePage)
    {
        Array.Clear(known);
        page = null;
        if (version is not null && string.CompareOrdinal(version, "AC1021") >= 0) return;
        var said = codePage.AsSpan();
        var digits = said[(said.LastIndexOfAnyExceptInRange('0', '9') + 1)..];
        if (int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number is > 0 and < 65_000 and not Western)
            page = CodePagesEncodingProvider.Instance.GetEncoding(number);
    }

    /// <summary>A name; the same string for the same bytes where they came by lately.</summary>
    public string Read(ReadOnlySpan<byte> bytes)
    {
        var hash = new HashCode();
        hash.AddBytes(bytes);
        ref var slot = ref known[(byte)hash.ToHashCode()];
        if (slot.Bytes is null || !bytes.SequenceEqual(slot.Bytes)) slot = (bytes.ToArray(), Decoded(bytes));
        return slot.Text;
    }

    private string Decoded(ReadOnlySpan<byte> bytes)
    {
        var text = (page ?? (Utf8.IsValid(bytes) ? Encoding.UTF8 : CodePagesEncodingProvider.Instance.GetEncoding(Western)!)).GetString(bytes);
        if (!text.Contains('\\', StringComparison.Ordinal)) return text;
        return Escape().Replace(text, static found => ((char)ushort.Parse(found.Groups[1].ValueSpan, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture)).ToString());
    }

    [GeneratedRegex(@"\\U\+([0-9A-Fa-f]{4})", RegexOptions.CultureInvariant)]
    private static partial Regex Escape();
}
