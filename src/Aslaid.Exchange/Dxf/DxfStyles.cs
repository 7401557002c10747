using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>How a layer looks.</summary>
/// <param name="Colour">Number of the format's colour index.</param>
/// <param name="LineType">Name of a line type of <see cref="DxfStyles.LineTypes"/>, or <c>CONTINUOUS</c>.</param>
/// <param name="Weight">Hundredths of a millimetre, of those that the format knows.</param>
internal readonly record struct DxfLook(int Colour, string LineType, int Weight);

/// <summary>A line type: dashes positive, gaps negative, dots zero, metres on the ground.</summary>
internal sealed record DxfLineType(string Name, string About, params double[] Pattern);

/// <summary>The words of the code book for colours and lines, in the terms of the format.</summary>
internal static class DxfStyles
{
    public const string Continuous = "CONTINUOUS";
    private const int Ordinary = 25;

    private static readonly DxfLook Plain = new(7, Continuous, Ordinary);

    private static readonly Dictionary<string, int> Colours = new(StringComparer.OrdinalIgnoreCase)
    {
        ["red"] = 1, ["yellow"] = 2, ["green"] = 3, ["cyan"] = 4, ["blue"] = 5, ["magenta"] = 6, ["white"] = 7, ["black"] = 7,
        ["grey"] = 8, ["gray"] = 8, ["orange"] = 30, ["brown"] = 34, ["purple"] = 200, ["pink"] = 221,
    };

    private static readonly Dictionary<string, (string Type, int Weight)> Lines = new(StringComparer.OrdinalIgnoreCase)
    {
        ["thin"] = (Continuous, 13), ["medium"] = (Continuous, 35), ["thick"] = (Continuous, 50), ["edge"] = (Continuous, Ordinary),
        ["dashed"] = ("ASLAID-DASHED", Ordinary), ["long-two-short"] = ("ASLAID-LONG-TWO-SHORT", Ordinary),
        ["rails"] = ("ASLAID-RAILS", 35), ["beads"] = ("ASLAID-BEADS", 35), ["chevrons"] = ("ASLAID-CHEVRONS", 35),
    };

    /// <summary>All line types besides the continuous one. Symbols along lines are beyond this format's plain patterns: each has its own rhythm instead.</summary>
    public static IReadOnlyList<DxfLineType> LineTypes { get; } =
    [
        new("ASLAID-DASHED", "dashed", 0.6, -0.4),
        new("ASLAID-LONG-TWO-SHORT", "long and two short", 1.6, -0.3, 0.3, -0.3, 0.3, -0.3),
        new("ASLAID-RAILS", "long, nearly joined", 1.8, -0.2),
        new("ASLAID-BEADS", "long and a dot", 1.2, -0.3, 0, -0.3),
        new("ASLAID-CHEVRONS", "long and short", 1.2, -0.3, 0.4, -0.3),
    ];

    public static DxfLook Of(CodeEntry? entry)
    {
        if (entry is null) return Plain;
        var colour = entry.Colour is { } word && Colours.TryGetValue(word, out var number) ? number : Plain.Colour;
        var (type, weight) = entry.Line is { } line && Lines.TryGetValue(line, out var known) ? known : (Continuous, Ordinary);
        return new(colour, type, weight);
    }

    /// <summary>The layer of a code: the client's own where the delivery table names one, else as the book says, else the code itself; marks that the format forbids become underscores.</summary>
    public static string LayerOf(CodeEntry? entry, string code, DeliveryTable delivery)
    {
        var name = delivery.LayerOf(code) ?? (string.IsNullOrWhiteSpace(entry?.Layer) ? code : entry.Layer);
        name = string.Concat(name.Trim().Select(letter => letter is < ' ' or > '~' or '<' or '>' or '/' or '\\' or '"' or ':' or ';' or '?' or '*' or '|' or ',' or '=' or '`' or '\'' ? '_' : letter));
        return name.Length == 0 ? "NO-CODE" : name;
    }
}
