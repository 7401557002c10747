using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// Settings as text: <c>name = value</c> a line, <c>#</c> before a comment; the unit is in the name, numbers have a decimal point.
/// What is not named keeps its default.
/// </summary>
public static class SettingsText
{
    private sealed record Setting(string Name, NumberRule Rule, Func<Settings, double> Give, Func<Settings, double, Settings> Take);

    private const string CoordinateSystem = "coordinate_system";
    private const int LongestValue = 20_000; // a compound system in WKT has a few thousand characters

    private static readonly NumberRule Length = new("a number of metres such as 0.05", 0, 1e6, "a length from 0 to 1000000 m");
    private static readonly NumberRule Distance = new("a number of metres such as 0.05", 0.001, 1e6, "a length from 0.001 to 1000000 m");
    private static readonly NumberRule Duration = new("a number of minutes such as 90", 0, 1e6, "a time from 0 to 1000000 minutes");
    private static readonly NumberRule Share = new("a share such as 0.10", 0, 1, "a share from 0 to 1");

    private static readonly NumberRule Angle = new("a number of degrees such as 0.13", 0, 90, "an angle from 0 to 90 degrees");
    private static readonly NumberRule Factor = new("a factor such as 2", 1, 100, "a factor from 1 to 100");
    private static readonly NumberRule Many = new("a number such as 6", 0, 1000, "a number from 0 to 1000");

    private static readonly ImmutableArray<Setting> All =
    [
        new("gap_distance_m", Length, s => s.GapDistance, (s, v) => s with { GapDistance = v }),
        new("gap_minutes", Duration, s => s.GapMinutes, (s, v) => s with { GapMinutes = v }),
        new("tape_u_m", Distance, s => s.TapeU, (s, v) => s with { TapeU = v }),
        new("node_left_out_share", Share, s => s.NodeLeftOutShare, (s, v) => s with { NodeLeftOutShare = v }),
        new("depth_band_m", Length, s => s.DepthBand, (s, v) => s with { DepthBand = v }),
        new("design_reach_m", Length, s => s.DesignReach, (s, v) => s with { DesignReach = v }),
        new("arc_proof_u_plan_m", Length, s => s.ArcProofUPlan, (s, v) => s with { ArcProofUPlan = v }),
        new("session_u_plan_m", Length, s => s.SessionUPlan, (s, v) => s with { SessionUPlan = v }),
        new("session_u_height_m", Length, s => s.SessionUHeight, (s, v) => s with { SessionUHeight = v }),
        new("same_place_m", Distance, s => s.SamePlace, (s, v) => s with { SamePlace = v }),
        new("repeat_minutes", Duration, s => s.RepeatMinutes, (s, v) => s with { RepeatMinutes = v }),
        new("control_plan_max_m", Length, s => s.ControlPlanMax, (s, v) => s with { ControlPlanMax = v }),
        new("control_height_max_m", Length, s => s.ControlHeightMax, (s, v) => s with { ControlHeightMax = v }),
        new("lone_distance_m", Distance, s => s.LoneDistance, (s, v) => s with { LoneDistance = v }),
        new("radius_doubt_share", Share, s => s.RadiusDoubt, (s, v) => s with { RadiusDoubt = v }),
        new("pole_centring_m", Length, s => s.PoleCentring, (s, v) => s with { PoleCentring = v }),
        new("pole_tilt_u_deg", Angle, s => s.PoleTiltUDegrees, (s, v) => s with { PoleTiltUDegrees = v }),
        new("pole_tilt_max_deg", Angle, s => s.PoleTiltMaxDegrees, (s, v) => s with { PoleTiltMaxDegrees = v }),
        new("factor_unproven", Factor, s => s.FactorUnproven, (s, v) => s with { FactorUnproven = v }),
        new("session_gap_minutes", Duration, s => s.SessionGapMinutes, (s, v) => s with { SessionGapMinutes = v }),
        new("control_gap_minutes", Duration, s => s.ControlGapMinutes, (s, v) => s with { ControlGapMinutes = v }),
        new("sats_min", Many, s => s.SatellitesMin, (s, v) => s with { SatellitesMin = v }),
        new("pdop_max", Many, s => s.DilutionMax, (s, v) => s with { DilutionMax = v }),
        new("repeat_share_min", Share, s => s.RepeatShareMin, (s, v) => s with { RepeatShareMin = v }),
        new("guard_band_share", Share, s => s.GuardBand, (s, v) => s with { GuardBand = v }),
        new("other_site_m", Distance, s => s.OtherSiteDistance, (s, v) => s with { OtherSiteDistance = v }),
    ];

    /// <summary>The names that may be set, in the order in which they are written.</summary>
    public static ImmutableArray<string> Names { get; } = [.. All.Select(setting => setting.Name), CoordinateSystem];

    /// <summary>Reads settings over the defaults.</summary>
    public static TableIntake<Settings> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        var settings = Settings.Default;
        if (FileGate.Open(file, rejected) is { } text)
        {
            var numbers = new NumberReader("has a decimal comma; a decimal point was expected");
            var lines = new Dictionary<string, int>(StringComparer.Ordinal);
            var line = 0;
            foreach (var written in Encoding.UTF8.GetString(text.Span).ReplaceLineEndings("\n").Split('\n'))
            {
                line++;
                var plain = written.Trim();
                if (plain.Length > 0 && plain[0] != '#') settings = TakeLine(settings, plain, line, numbers, lines, rejected);
            }
        }

        return new(rejected.Count == 0 ? settings : null, rejected.First, rejected.Count, []);
    }

    /// <summary>Settings that are not the program's own, as <c>name = value</c>: who reads a record should know by which it was judged.</summary>
    public static ImmutableArray<string> Different(Settings settings) =>
    [
        .. All.Where(setting => setting.Give(settings) != setting.Give(Settings.Default)).Select(setting => $"{setting.Name} = {Csv.Number(setting.Give(settings))}"),
    ];

    /// <summary>Writes every setting as this reader reads it, in UTF-8.</summary>
    public static byte[] Write(Settings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var text = new StringBuilder();
        foreach (var setting in All) text.Append(CultureInfo.InvariantCulture, $"{setting.Name} = {Csv.Number(setting.Give(settings))}\n");
        if (settings.CoordinateSystem is { } system) text.Append(CultureInfo.InvariantCulture, $"{CoordinateSystem} = {system.ReplaceLineEndings(" ")}\n");
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static Settings TakeLine(
        Settings settings, string written, int line, NumberReader numbers, Dictionary<string, int> lines, Rejections rejected)
    {
        var equals = written.IndexOf('=', StringComparison.Ordinal);
        if (equals < 0)
        {
            rejected.Add(line, null, CellText.Shown(written), "is no setting; a name, an equals sign and a value such as gap_distance_m = 60 were expected");
            return settings;
        }

        var (name, value) = (written[..equals].Trim().ToLowerInvariant(), Uncommented(written[(equals + 1)..]));
        if (!Names.Contains(name))
        {
            rejected.Add(line, null, CellText.Shown(name), $"is no setting; {Nearest(name)} is the nearest name");
            return settings;
        }

        if (!lines.TryAdd(name, line))
        {
            rejected.Add(line, name, (string?)null, string.Create(CultureInfo.InvariantCulture, $"line {lines[name]} has set it already; each name once was expected: remove one"));
            return settings;
        }

        return name == CoordinateSystem ? TakeSystem(settings, value, line, rejected) : TakeNumber(settings, name, value, line, numbers, rejected);
    }

    private static Settings TakeSystem(Settings settings, string value, int line, Rejections rejected)
    {
        if (value.Length > LongestValue || CellText.HasUnseen(value))
            rejected.Add(line, CoordinateSystem, CellText.Shown(value), "is too long or holds characters that cannot be seen; an EPSG code such as EPSG:25832 or WKT was expected");
        return settings with { CoordinateSystem = value.Length == 0 ? null : value };
    }

    private static Settings TakeNumber(Settings settings, string name, string value, int line, NumberReader numbers, Rejections rejected)
    {
        var setting = All.First(s => s.Name == name);
        var refused = value.Length == 0 ? $"has no value; {setting.Rule.Wanted} was expected" : null;
        var number = value.Length == 0 ? null : numbers.Read(Encoding.UTF8.GetBytes(value), line, setting.Rule, out refused);
        if (number is { } read) return setting.Take(settings, read);
        rejected.Add(line, name, value.Length == 0 ? null : CellText.Shown(value), refused!);
        return settings;
    }

    /// <summary>A comment begins at a # that stands at the start or behind a blank, and not within quotes, as WKT has them.</summary>
    private static string Uncommented(string value)
    {
        var quoted = false;
        for (var at = 0; at < value.Length; at++)
        {
            if (value[at] == '"') quoted = !quoted;
            if (value[at] == '#' && !quoted && (at == 0 || char.IsWhiteSpace(value[at - 1]))) return value[..at].Trim();
        }

        return value.Trim();
    }

    private static string Nearest(string name) => Names.MinBy(known => Changes(name, known))!;

    /// <summary>How many letters must be added, removed or changed to make one word the other (Levenshtein 1966).</summary>
    private static int Changes(string from, string to)
    {
        from = from[..Math.Min(from.Length, 100)];
        var costs = Enumerable.Range(0, to.Length + 1).ToArray();
        for (var i = 1; i <= from.Length; i++)
        {
            var (diagonal, _) = (costs[0], costs[0] = i);
            for (var j = 1; j <= to.Length; j++)
            {
                var change = diagonal + (from[i - 1] == to[j - 1] ? 0 : 1);
                diagonal = costs[j];
                costs[j] = Math.Min(change, 1 + Math.Min(costs[j], costs[j - 1]));
            }
        }

        return costs[^1];
    }
}
