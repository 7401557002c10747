using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Small drawings by hand: pairs are written <c>8 KERB|10 512000</c>, sections and entities one after another.</summary>
internal static class DxfByHand
{
    public const string Metres = "9 $ACADVER|1 AC1015|9 $INSUNITS|70 6";

    /// <summary>A drawing in metres.</summary>
    public static string Of(string entities, string blocks = "", string header = Metres, string lineEnd = "\n") =>
        Pairs($"0 SECTION|2 HEADER|{header}|0 ENDSEC|{(blocks.Length > 0 ? $"0 SECTION|2 BLOCKS|{blocks}|0 ENDSEC|" : "")}0 SECTION|2 ENTITIES|{entities}|0 ENDSEC|0 EOF", lineEnd);

    public static string Pairs(string pairs, string lineEnd = "\n") => string.Concat(pairs.Split('|', StringSplitOptions.RemoveEmptyEntries).Select(pair =>
    {
        pair = pair.Trim();
        var space = pair.IndexOf(' ', StringComparison.Ordinal);
        return space < 0 ? $"{pair,3}{lineEnd}{lineEnd}" : $"{pair[..space],3}{lineEnd}{pair[(space + 1)..]}{lineEnd}";
    }));

    public static DesignIntake Intake(byte[] file, double? unit = null, string name = "design.dxf") => DesignReaders.Read(new System.IO.MemoryStream(file), new(name, unit));

    public static DesignFile Read(string file, double? unit = null)
    {
        var intake = Intake(Encoding.UTF8.GetBytes(file), unit);
        Assert.True(intake.Refused is null, intake.Refused?.Message("design.dxf"));
        return intake.Design!;
    }

    public static Rejection Refused(string file, double? unit = null)
    {
        var intake = Intake(Encoding.UTF8.GetBytes(file), unit);
        Assert.Null(intake.Design);
        return intake.Refused!;
    }

    /// <summary>The one arc of a design's one line.</summary>
    public static Arc OnlyArc(DesignFile design) => Assert.Single(Assert.Single(design.Lines).Path.Pieces).Arc;

    public static void Near(Point2 expected, Point2 found, double metres = 2e-9) =>
        Assert.True(expected.DistanceTo(found) <= metres, FormattableString.Invariant($"{found.East:R}, {found.North:R} is not {expected.East:R}, {expected.North:R}"));
}
