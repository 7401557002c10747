using System.Globalization;

namespace Aslaid.Cli;

/// <summary>Numbers as people read them: metres with three decimals, a dash where there is none.</summary>
internal static class Figures
{
    public static string Metres(double? value) => value is { } known ? (Math.Round(known, 3) + 0.0).ToString("0.000", CultureInfo.InvariantCulture) : "–";

    /// <summary>The same with its sign.</summary>
    public static string Signed(double? metres) => metres?.ToString("+0.000;-0.000;0.000", CultureInfo.InvariantCulture) ?? "–";

    /// <summary>A value and its 95 % uncertainty (1.960 standard uncertainties).</summary>
    public static string With95(double value, double? u) =>
        u is { } known ? string.Create(CultureInfo.InvariantCulture, $"{value:0.000} ± {1.96 * known:0.000}") : string.Create(CultureInfo.InvariantCulture, $"{value:0.000} (accuracy not stated)");

    /// <summary>As <c>1 run</c> or <c>2 runs</c>.</summary>
    public static string Count(int value, string thing) => string.Create(CultureInfo.InvariantCulture, $"{value} {thing}{(value == 1 ? "" : "s")}");

    public static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
