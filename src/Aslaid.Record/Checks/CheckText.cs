using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Aslaid.Record;

/// <summary>How checks write numbers and name things: the same everywhere, whatever the culture.</summary>
internal static class CheckText
{
    private const int ShotsNamed = 6;

    /// <summary>Metres to the millimetre, as <c>0.560 m</c>.</summary>
    public static string Metres(double? metres) => Number(metres, "0.000") + " m";

    /// <summary>A number in an invariant format; a dash where there is none.</summary>
    public static string Number(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "-";

    /// <summary>A radius and its 95 % doubt, as <c>8.000 ± 0.120 m</c>; where that has no even sides, as <c>8.000 m (95 %: 6.500 to 10.400 m)</c>.</summary>
    public static string Radius(double radius, double u)
    {
        if (double.IsNaN(u)) return Metres(radius) + ", accuracy not given,";
        if (RadiusInterval.IsLinear(radius, u)) return $"{Number(radius, "0.000")} ± {Metres(Normal.Within95 * u)}";
        var interval = RadiusInterval.Of(radius, u);
        return double.IsPositiveInfinity(interval.High)
            ? $"{Metres(radius)} (95 %: {Metres(interval.Low)} up to a straight)"
            : $"{Metres(radius)} (95 %: {Number(interval.Low, "0.000")} to {Metres(interval.High)})";
    }

    /// <summary>How many of a thing, as <c>1 shot</c> or <c>2 shots</c>.</summary>
    public static string Count(double count, string thing) =>
        string.Create(CultureInfo.InvariantCulture, $"{count:0} {thing}{(Math.Abs(count - 1) < 0.5 ? "" : "s")}");

    /// <summary>A value of a list of figures, which the check knows to be there.</summary>
    public static double Figure(this Finding finding, int place) => finding.Figures[place];

    /// <summary>Id of a shot.</summary>
    public static string Shot(this Finding finding, int place) => finding.Shots.Length <= place ? "?" : finding.Raw().Id(finding.Shots[place]);

    /// <summary>Ids of the shots, the first few by name: <c>101, 102 and 7 more</c>.</summary>
    public static string Shots(Finding finding, int of = int.MaxValue)
    {
        var text = new StringBuilder();
        var count = Math.Min(of, finding.Shots.Length);
        for (var i = 0; i < Math.Min(count, ShotsNamed); i++) text.Append(i == 0 ? "" : ", ").Append(finding.Shot(i));
        if (count > ShotsNamed) text.Append(CultureInfo.InvariantCulture, $" and {count - ShotsNamed} more");
        return text.ToString();
    }

    /// <summary>The session of a finding's first shot, as <c>north-day-2.csv, crew North, set-up base-1</c>.</summary>
    public static string Session(this Finding finding)
    {
        var (raw, row) = (finding.Raw(), finding.Shots[0]);
        return $"{raw.BatchOf(row).FileName}, crew {raw.Crew(row) ?? "not named"}{(raw.Text("setup", row) is { } setup ? $", set-up {setup}" : "")}";
    }

    /// <summary>Metres with their sign, without the unit.</summary>
    public static string Signed(double metres) => Number(metres, "+0.000;-0.000;0.000");

    /// <summary>Label of the run; for a finding without one, nothing that a person could mistake for a label.</summary>
    public static string RunLabel(this Finding finding) => finding.Run?.Label ?? "no run";

    /// <summary>Where along the run: <c>at 71.8 m</c> or <c>from 71.8 m to 80.0 m</c>.</summary>
    public static string Along(Finding finding) => finding switch
    {
        { From: { } from, To: { } to } when to - from > 0.05 => $"from {Number(from, "0.0")} m to {Number(to, "0.0")} m",
        { From: { } from } => $"at {Number(from, "0.0")} m",
        _ => "",
    };

    /// <summary>Keys of all shots of a finding.</summary>
    public static ImmutableArray<ShotKey> Keys(this Finding finding, int from = 0)
    {
        var keys = ImmutableArray.CreateBuilder<ShotKey>(finding.Shots.Length - from);
        foreach (var row in finding.Shots[from..]) keys.Add(finding.Raw().Key(row));
        return keys.MoveToImmutable();
    }

    /// <summary>What names a shot of a finding for good.</summary>
    public static ShotKey Key(this Finding finding, int place) => finding.Raw().Key(finding.Shots[place]);

    /// <summary>Shots as measured.</summary>
    public static ShotTable Raw(this Finding finding) => finding.Table.RunTable.Shots.Raw;
}
