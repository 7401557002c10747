using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>How the sheet calls things, and writes numbers: the same in every culture.</summary>
internal static class Naming
{
    private static readonly NumberFormatInfo Grouped = new() { NumberGroupSeparator = " ", NumberDecimalSeparator = "." };

    /// <summary>The label that the crew gave; for an inferred run its code.</summary>
    public static string Of(Run run) => run.Label.StartsWith("from ", StringComparison.Ordinal) ? run.Code : run.Label;

    /// <summary>What people call a code, without its asides: <c>Water valve</c> for <c>Water valve, at the pipe</c>.</summary>
    public static string Short(CodeEntry? entry, string code)
    {
        var name = entry?.Name ?? code;
        var comma = name.IndexOf(',', StringComparison.Ordinal);
        return comma > 0 && entry?.Kind == CodeKind.Point ? name[..comma] : name;
    }

    /// <summary>As <c>512 020.5</c>.</summary>
    public static string Figure(double value, string format = "#,0") => value.ToString(format, Grouped);

    /// <summary>Letters that stand along the line of a service; null for none.</summary>
    public static string? Letters(string? service) => service switch
    {
        "water" => "W",
        "power" => "P",
        "telecom" => "T",
        "storm" => "SD",
        "sewer" => "SW",
        "gas" => "G",
        "fire" => "F",
        "reclaimed" => "RW",
        null or "" => null,
        _ => service[..1].ToUpperInvariant(),
    };

    public static string Count(int count, string one, string many) =>
        $"{Figure(count)} {(count == 1 ? one : many)}";
}
