using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Every shot, used or set aside: as measured and as it now stands. Rows that use a shot again are no shots and are left out.</summary>
internal static class ShotsTable
{
    private static readonly string[] First =
    [
        "batch", "line", "id", "crew", "east_m", "north_m", "height_m", "height_measured_m", "code", "code_measured", "run",
        "u_plan_m", "u_height_m", "u_place_m", "u_level_m", "accuracy", "fix", "method", "time", "used", "journal",
    ];

    /// <summary>Units of the known columns among those that a file may bring besides.</summary>
    private static readonly Dictionary<string, string> Units = new() { ["pole"] = "pole_m", ["tilt"] = "tilt_deg" };

    private static readonly string[] Told = ["crew", "fix", "method"];

    public static void Write(AsBuiltRecord record, string path)
    {
        var (shots, raw, facts) = (record.Shots, record.Shots.Raw, new ShotFacts(record));
        // What the files brought besides comes after, under its own names.
        var numbers = raw.NumberColumns.Keys.ToArray();
        var texts = raw.TextColumns.Keys.Where(name => !Told.Contains(name)).ToArray();
        using var table = new Table(path, [.. First, .. numbers.Concat(texts).Select(Heading)]);
        for (var row = 0; row < shots.Count; row++)
        {
            if (!shots.IsPlace(row)) continue;
            var shot = raw[row];
            table.Whole(shot.Key.Batch).Whole(shot.Key.Line).Text(shot.Id).Text(shot.Crew)
                .Number(shot.At.East, Fixed.Coordinate).Number(shot.At.North, Fixed.Coordinate)
                .Number(shots.HeightOf(row), Fixed.Coordinate).Number(shot.Height, Fixed.Coordinate)
                .Text(shots.CodeOf(row)).Text(shot.Code).Text(string.Join("; ", facts.RunsOf(row)))
                .Number(facts.UPlan(row), Fixed.Coordinate).Number(facts.UHeight(row), Fixed.Coordinate)
                .Number(facts.UPlace(row), Fixed.Coordinate).Number(facts.ULevel(row), Fixed.Coordinate).Text(facts.Accuracy(row))
                .Text(raw.Text("fix", row)).Text(facts.Method(row)).Text(facts.Time(row)).YesNo(shots.Used[row])
                .Text(string.Join("; ", shots.BecauseOf(row).Select(position => position.ToString(CultureInfo.InvariantCulture))));
            foreach (var name in numbers) table.Number(raw.Number(name, row));
            foreach (var name in texts) table.Text(raw.Text(name, row));
            table.End();
        }
    }

    /// <summary>A column of the file under its own name; where ours has that name too, it is told apart.</summary>
    private static string Heading(string column) => First.Contains(column) ? "file_" + column : Units.GetValueOrDefault(column, column);
}
