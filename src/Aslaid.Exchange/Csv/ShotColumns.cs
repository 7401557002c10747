using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Aslaid.Exchange;

/// <summary>What a column of a shots CSV is.</summary>
internal enum ShotColumnKind : byte
{
    Id,
    East,
    North,
    Height,
    Code,
    Run,
    Leg,
    Time,
    UPlan,
    UHeight,
    Crew,
    Number,
    Text,
}

/// <summary>A column as the reader uses it.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">Its name in the shot table: known ones in lower case, attributes as the file writes them.</param>
/// <param name="Rule">Of a column of numbers.</param>
internal sealed record ShotColumn(ShotColumnKind Kind, string Name, NumberRule? Rule = null)
{
    private static readonly NumberRule Coordinate = new("a number of metres such as 512345.678", -1e8, 1e8, "a coordinate from -100000000 to 100000000 m");
    private static readonly NumberRule Level = new("a number of metres such as 5.213", -1000, 10_000, "a height from -1000 to 10000 m");
    private static readonly NumberRule Sigma = new("a number of metres such as 0.012", 0, Math.BitDecrement(100.0), "a standard uncertainty of at least 0 and less than 100 m");

    /// <summary>Those that every shots CSV must have.</summary>
    public static readonly string[] Needed = ["id", "east", "north", "height", "code"];

    private static readonly FrozenDictionary<string, ShotColumn> Known = new[]
    {
        new ShotColumn(ShotColumnKind.Id, "id"),
        new ShotColumn(ShotColumnKind.East, "east", Coordinate),
        new ShotColumn(ShotColumnKind.North, "north", Coordinate),
        new ShotColumn(ShotColumnKind.Height, "height", Level),
        new ShotColumn(ShotColumnKind.Code, "code"),
        new ShotColumn(ShotColumnKind.Run, "run"),
        new ShotColumn(ShotColumnKind.Leg, "leg"),
        new ShotColumn(ShotColumnKind.Time, "time"),
        new ShotColumn(ShotColumnKind.UPlan, "u_plan", Sigma),
        new ShotColumn(ShotColumnKind.UHeight, "u_height", Sigma),
        new ShotColumn(ShotColumnKind.Crew, "crew"),
        new ShotColumn(ShotColumnKind.Text, "method"),
        new ShotColumn(ShotColumnKind.Text, "instrument"),
        new ShotColumn(ShotColumnKind.Text, "setup"),
        new ShotColumn(ShotColumnKind.Text, "fix"),
        new ShotColumn(ShotColumnKind.Number, "pdop", new("a number such as 1.8", 0, 1000, "a dilution of precision from 0 to 1000")),
        new ShotColumn(ShotColumnKind.Number, "sats", new("a number of satellites such as 17", 0, 1000, "a number of satellites from 0 to 1000")),
        new ShotColumn(ShotColumnKind.Number, "pole", new("a number of metres such as 2.00", -100, 100, "a pole height from -100 to 100 m")),
        new ShotColumn(ShotColumnKind.Number, "tilt", new("a number of degrees such as 1.5", -180, 180, "a tilt from -180 to 180 degrees")),
        new ShotColumn(ShotColumnKind.Text, "tilt_compensated"),
        new ShotColumn(ShotColumnKind.Number, "epochs", new("a number of epochs such as 5", 0, 1e8, "a number of epochs from 0 to 100000000")),
        new ShotColumn(ShotColumnKind.Text, "seen"),
        new ShotColumn(ShotColumnKind.Text, "photo"),
        new ShotColumn(ShotColumnKind.Text, "note"),
    }.ToFrozenDictionary(column => column.Name, StringComparer.OrdinalIgnoreCase);

    /// <summary>The columns of a file: known by name whatever their case, all others kept as attributes.</summary>
    public static ImmutableArray<ShotColumn> Of(ImmutableArray<string> names) =>
        [.. names.Select(name => Known.GetValueOrDefault(name) ?? new ShotColumn(ShotColumnKind.Text, name))];

    /// <summary>Whether it is none of the known ones.</summary>
    public bool IsAttribute => !Known.ContainsKey(Name);
}
