using System.Collections.Immutable;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What a small table read from a file became.</summary>
/// <typeparam name="T">What it holds.</typeparam>
/// <param name="Value">Null when anything was rejected.</param>
/// <param name="Rejected">The first hundred rejections, in the order of the file.</param>
/// <param name="RejectedCount">How many there are in all.</param>
/// <param name="Remarks">What a person should know although nothing is wrong, a sentence each.</param>
public sealed record TableIntake<T>(T? Value, ImmutableArray<Rejection> Rejected, int RejectedCount, ImmutableArray<string> Remarks)
    where T : class;

/// <summary>Points of known position.</summary>
public sealed record ControlList(ImmutableArray<ControlPoint> Points);

/// <summary>Control points as CSV: id, east, north, height, u_plan, u_height; metres, site grid, 1 sigma (plan radial).</summary>
/// <remarks>A height or an uncertainty may be empty; the columns u_plan and u_height may be left out.</remarks>
public static class ControlCsv
{
    private static readonly string[] Needed = ["id", "east", "north", "height"];
    private static readonly string[] All = [.. Needed, "u_plan", "u_height"];

    /// <summary>Reads control points; each id once.</summary>
    public static TableIntake<ControlList> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, Needed, rejected);
        var points = ImmutableArray.CreateBuilder<ControlPoint>();
        if (table is not null)
        {
            var lines = new Dictionary<string, int>(StringComparer.Ordinal);
            var rules = ShotColumn.Of([.. All]);
            while (table.Read())
                if (Point(table, rules, lines) is { } point) points.Add(point);
            if (points.Count == 0 && rejected.Count == 0)
                rejected.Add(0, null, (string?)null, "the file has a header but no rows; a control point a line was expected below it");
        }

        return new(rejected.Count == 0 ? new(points.ToImmutable()) : null, rejected.First, rejected.Count, table?.Unknown(All) ?? []);
    }

    /// <summary>Writes control points as this reader reads them, in UTF-8.</summary>
    public static byte[] Write(IEnumerable<ControlPoint> points) => Csv.Write(
    [
        All,
        .. points.Select(point => (IReadOnlyList<string?>)
        [
            point.Id, Csv.Number(point.At.East), Csv.Number(point.At.North), Csv.Number(point.Height), Csv.Number(point.UPlan), Csv.Number(point.UHeight),
        ]),
    ]);

    private static ControlPoint? Point(CsvTable table, ImmutableArray<ShotColumn> rules, Dictionary<string, int> lines)
    {
        var numbers = new double?[All.Length];
        for (var place = 1; place < All.Length; place++)
            if (table.Find(All[place]) is >= 0 and var column) numbers[place] = table.Number(column, rules[place].Rule!);
        for (var place = 1; place <= 2; place++)
            if (table.Cell(table.Find(All[place])).Length == 0) table.RejectEmpty(table.Find(All[place]), $"the cell is empty; {rules[place].Rule!.Wanted} was expected");
        return table.Name(table.Find("id"), lines) is { } id && numbers[1] is { } east && numbers[2] is { } north
            ? new(id, new Point2(east, north), numbers[3], numbers[4], numbers[5])
            : null;
    }
}
