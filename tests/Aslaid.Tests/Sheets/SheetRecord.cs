using System.Collections.Immutable;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>Small records by hand: shots as id, east, north, height, code, label, leg.</summary>
internal static class SheetRecord
{
    public static readonly CodeBook Codes = new(
    [
        new("WATER-MAIN", CodeKind.Line) { Name = "Water main", Service = "water", Colour = "blue", Line = "thick", MeasuredAt = "top" },
        new("STORM-DRAIN", CodeKind.Line) { Name = "Storm drain", Service = "storm", Colour = "green", Line = "chevrons", MeasuredAt = "invert" },
        new("ISLAND-KERB", CodeKind.Area) { Name = "Island, kerb face at the top", Colour = "grey", Line = "edge", Closes = true },
        new("LAMP-COLUMN", CodeKind.Point) { Name = "Lamp column, centre at the ground", Colour = "red", Symbol = "ring-arm" },
    ]);

    public const double East = 512000;
    public const double North = 6243000;

    /// <summary>East and north are given from the corner of the site.</summary>
    public readonly record struct Row(string Id, double East, double North, double? Height, string Code, string? Label = null, Leg Leg = Leg.Straight);

    public static AsBuiltRecord Of(params Row[] rows)
    {
        var table = new ShotTableBuilder();
        foreach (var row in rows)
        {
            table.Add(
                Encoding.UTF8.GetBytes(row.Id), East + row.East, North + row.North, row.Height ?? double.NaN, table.Codes.Keep(row.Code),
                table.Labels.Keep(row.Label), row.Leg, table.Count + 2, -1, long.MinValue, short.MinValue, 0.014, 0.02);
        }

        table.EndBatch("shots.csv", new string('0', 64), 0, "North", default);
        ImmutableArray<ControlPoint> control = [new("M1", new(East + 5, North + 5), 5, 0.005, 0.005)];
        return Derivation.Derive(new(table.Build(), [], Codes, rows.Length == 0 ? [] : control, ShotsOf.Settings));
    }

    /// <summary>A water main with a quarter circle of 10 m, a drain, and a lamp.</summary>
    public static Row[] Small(double? height = 5) =>
    [
        new("101", 0, 0, height, "WATER-MAIN", "WM-1"),
        new("102", 30, 0, height, "WATER-MAIN", "WM-1"),
        new("103", 30 + 10 * Math.Sin(Math.PI / 4), 10 - 10 * Math.Cos(Math.PI / 4), height, "WATER-MAIN", "WM-1", Leg.Through),
        new("104", 40, 10, height, "WATER-MAIN", "WM-1"),
        new("105", 40, 30, height, "WATER-MAIN", "WM-1"),
        new("111", 5, 20, height, "STORM-DRAIN", "SD-1"),
        new("112", 35, 22, height - 0.4, "STORM-DRAIN", "SD-1"),
        new("121", 20, 10, height, "LAMP-COLUMN"),
    ];
}
