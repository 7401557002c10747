using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The cautions of the trade, in two columns.</summary>
internal static class CautionBlock
{
    public static void Draw(Drawing drawing, SKRect area)
    {
        const float leading = 1.2f;
        var width = area.Width / 2 - 6;
        var lines = new List<string>();
        foreach (var caution in Cautions.All)
        {
            var wrapped = drawing.Type.Wrap(caution, width - 3, TypeSize.Small);
            for (var line = 0; line < wrapped.Count; line++) lines.Add((line == 0 ? "– " : "   ") + wrapped[line]);
        }

        var half = (lines.Count + 1) / 2;
        while (half < lines.Count && lines[half].StartsWith(' ')) half++; // a caution stays together
        for (var line = 0; line < lines.Count; line++)
        {
            var (column, row) = line < half ? (0, line) : (1, line - half);
            var begins = lines[line].StartsWith('–');
            var x = area.Left + 4 + column * (width + 4);
            var y = area.Top + 3.4f + row * TypeSize.Small * leading;
            if (begins) drawing.Text("–", x, y, TypeSize.Small);
            drawing.Text(lines[line][2..].TrimStart(), x + 2.2f, y, TypeSize.Small);
        }
    }
}
