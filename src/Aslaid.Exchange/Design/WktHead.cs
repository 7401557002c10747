using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>What the outermost element of a coordinate system's text says of itself: WKT 1 (OGC 01-009), and as far as it is alike WKT 2 (OGC 18-010).</summary>
/// <param name="Keyword">In capitals, as <c>PROJCS</c>; empty where the text is none.</param>
/// <param name="Name">What the system calls itself; empty where it does not.</param>
/// <param name="Unit">Metres to a unit of length, or radians to one of angle; null where it states none.</param>
/// <param name="Epsg">Its number in the EPSG registry; null where it states none.</param>
internal readonly record struct WktHead(string Keyword, string Name, double? Unit, int? Epsg)
{
    private const int Longest = 100_000; // letters; a text of this kind has some thousand

    /// <summary>A system of which nothing is known but its unit, as a site's own grid.</summary>
    public bool IsEngineering => Keyword is "LOCAL_CS" or "ENGCRS" or "ENGINEERINGCRS";

    /// <summary>What people call it: its EPSG code, else its name.</summary>
    public string Shown => Epsg is { } code ? string.Create(CultureInfo.InvariantCulture, $"EPSG:{code}") : Name.Length > 0 ? CellText.Shown(Name) : "without a name";

    public static WktHead Of(string wkt)
    {
        if (wkt.Length > Longest || !TryElement(wkt, out var keyword, out var items)) return new("", "", null, null);
        double? unit = null;
        int? epsg = null;
        foreach (var item in items)
        {
            if (!TryElement(item, out var word, out var parts) || parts.Count < 2) continue;
            if (word is "UNIT" or "LENGTHUNIT" && double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out var size) && double.IsFinite(size) && size > 0) unit = size;
            if (word is "AUTHORITY" or "ID" && Bare(parts[0]).Equals("EPSG", StringComparison.OrdinalIgnoreCase)
                && int.TryParse(Bare(parts[1]), NumberStyles.None, CultureInfo.InvariantCulture, out var code)) epsg = code;
        }

        return new(keyword, items.Count > 0 && items[0].StartsWith('"') ? Bare(items[0]) : "", unit, epsg);
    }

    /// <summary>Takes an element apart into its keyword and what stands between its brackets, parted by commas.</summary>
    private static bool TryElement(string text, out string keyword, out List<string> items)
    {
        (keyword, items) = ("", []);
        text = text.Trim();
        var open = text.IndexOfAny(['[', '(']);
        if (open <= 0 || text[^1] is not (']' or ')')) return false;
        keyword = text[..open].Trim().ToUpperInvariant();
        var (depth, quoted, from) = (0, false, open + 1);
        for (var i = from; i < text.Length; i++)
        {
            if (text[i] == '"') quoted = !quoted;
            if (quoted) continue;
            if (text[i] is '[' or '(') depth++;
            if (text[i] is ']' or ')' && --depth < 0 && i < text.Length - 1) return false;
            if (i < text.Length - 1 && (text[i] != ',' || depth > 0)) continue;
            items.Add(text[from..i].Trim());
            from = i + 1;
        }

        return depth == -1;
    }

    private static string Bare(string item) => item.Trim().Trim('"');
}
