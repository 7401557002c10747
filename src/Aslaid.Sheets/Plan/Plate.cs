using System.Globalization;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The mark of a finding, with the number that ties plan and list: octagon stop, diamond look, ring note.</summary>
internal static class Plate
{
    public const float Half = 2.3f;

    public static void Draw(Drawing drawing, SKPoint at, Severity severity, int? number, float half = Half)
    {
        var text = number?.ToString(CultureInfo.InvariantCulture) ?? "";
        var size = half * (text.Length > 2 ? 0.85f : text.Length > 1 ? 1.05f : 1.25f);
        switch (severity)
        {
            case Severity.Stop:
                Polygon(drawing, at, half, 8, MathF.PI / 8, Ink.Bad, Ink.White);
                break;
            case Severity.Look:
                Polygon(drawing, at, half * 1.18f, 4, 0, Ink.Doubt, Ink.Black);
                size *= 0.85f;
                break;
            default:
                drawing.Disc(at, half * 0.92f, Ink.White);
                drawing.Circle(at, half * 0.92f, 0.3f, Ink.Black);
                break;
        }

        drawing.Text(text, at.X, at.Y + size * 0.34f, size, true, SKTextAlign.Center, severity == Severity.Stop ? Ink.White : Ink.Black);
    }

    private static void Polygon(Drawing drawing, SKPoint at, float radius, int corners, float turn, SKColor fill, SKColor edge)
    {
        using var builder = new SKPathBuilder();
        for (var corner = 0; corner < corners; corner++)
        {
            var angle = turn + corner * MathF.Tau / corners;
            var place = new SKPoint(at.X + radius * MathF.Cos(angle), at.Y + radius * MathF.Sin(angle));
            if (corner == 0) builder.MoveTo(place);
            else builder.LineTo(place);
        }

        builder.Close();
        using var polygon = builder.Detach();
        drawing.Stroke(polygon, edge == Ink.White ? 0.7f : 0.25f, edge);
        drawing.Fill(polygon, fill);
    }
}
