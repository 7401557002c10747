using System.Collections.Concurrent;
using System.Text;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The two weights of type on a sheet, kept inside the program so that every machine draws the same.</summary>
internal sealed class Lettering : IDisposable
{
    private static readonly Lazy<SKTypeface> RegularFace = new(() => Load("AtkinsonHyperlegibleNext-Regular.ttf"));
    private static readonly Lazy<SKTypeface> BoldFace = new(() => Load("AtkinsonHyperlegibleNext-Bold.ttf"));
    private static readonly ConcurrentDictionary<int, bool> Known = new();

    private readonly SKFont regular = Font(RegularFace.Value);
    private readonly SKFont bold = Font(BoldFace.Value);

    /// <summary>The font at a size in millimetres; valid until the next call.</summary>
    public SKFont At(float size, bool isBold)
    {
        var font = isBold ? bold : regular;
        font.Size = size;
        return font;
    }

    public float Width(string text, float size, bool isBold = false) => At(size, isBold).MeasureText(Legible(text));

    /// <summary>The text with every character that the type lacks as a question mark: a doubtful sign is better than none at all.</summary>
    public string Legible(string text)
    {
        var sure = true;
        foreach (var rune in text.EnumerateRunes()) sure &= Has(rune);
        if (sure) return text;
        var legible = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes()) legible.Append(Has(rune) ? rune.ToString() : Rune.IsWhiteSpace(rune) ? " " : "?");
        return legible.ToString();
    }

    /// <summary>Lines of a text no wider than a width in millimetres; a word that is too long is broken.</summary>
    public IReadOnlyList<string> Wrap(string text, float width, float size, bool isBold = false)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in Legible(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : line + " " + word;
            if (Width(longer, size, isBold) <= width)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0) lines.Add(line);
            line = word;
            while (line.Length > 1 && Width(line, size, isBold) > width)
            {
                var fits = Math.Max(1, At(size, isBold).BreakText(line, width));
                if (fits >= line.Length) break;
                lines.Add(line[..fits]);
                line = line[fits..];
            }
        }

        if (line.Length > 0) lines.Add(line);
        return lines;
    }

    /// <summary>The text, cut with an ellipsis where it is wider than a width in millimetres.</summary>
    public string Fit(string text, float width, float size, bool isBold = false)
    {
        text = Legible(text);
        if (Width(text, size, isBold) <= width) return text;
        var length = text.Length;
        while (length > 1 && Width(text[..length].TrimEnd() + "…", size, isBold) > width) length--;
        return text[..length].TrimEnd() + "…";
    }

    public void Dispose()
    {
        regular.Dispose();
        bold.Dispose();
    }

    private bool Has(Rune rune) => Known.GetOrAdd(rune.Value, value => regular.ContainsGlyph(value) && bold.ContainsGlyph(value));

    private static SKFont Font(SKTypeface face) => new(face) { LinearMetrics = true, Hinting = SKFontHinting.None, Subpixel = true, Edging = SKFontEdging.Antialias };

    private static SKTypeface Load(string file)
    {
        using var bytes = typeof(Lettering).Assembly.GetManifestResourceStream("Aslaid.Sheets." + file)
            ?? throw new InvalidOperationException($"The type {file} is not inside the program.");
        using var data = SKData.Create(bytes);
        return SKTypeface.FromData(data) ?? throw new InvalidOperationException($"The type {file} cannot be read.");
    }
}
