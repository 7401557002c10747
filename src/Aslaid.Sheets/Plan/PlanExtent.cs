using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>What the sheet is fitted to. A shot far from all others must not shrink the site to a dot: it is left outside and named.</summary>
/// <param name="Box">Empty where there are no shots.</param>
/// <param name="Outside">Rows of shots left outside, in row order.</param>
internal sealed record PlanExtent(Box2 Box, IReadOnlyList<int> Outside)
{
    /// <summary>Of a hundred shots at most this many may be left outside; of fewer, one.</summary>
    private const int InAHundred = 1;

    public static PlanExtent Of(AsBuiltRecord record)
    {
        var rows = record.Site.ShotRows.ToArray();
        if (rows.Length == 0) return new(Box2.Empty, []);
        var near = Core(record, rows);
        var outside = new List<int>();
        var out_ = new HashSet<int>();
        var box = Box2.Empty;
        foreach (var row in rows)
        {
            if (near.Contains(record.Shots.At(row))) box = box.Union(record.Shots.At(row));
            else if (out_.Add(row)) outside.Add(row);
        }

        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (run.PieceCount == 0 || !AllInside(run, out_)) continue;
            box = box.Union(run.Box);
        }

        foreach (var point in record.Inputs.Control)
            if (near.Contains(point.At)) box = box.Union(point.At);
        return new(box, outside);
    }

    /// <summary>The box of all shots but the few farthest from the middle one, grown by half its larger side (20 m at least).</summary>
    private static Box2 Core(AsBuiltRecord record, int[] rows)
    {
        var (east, north) = (Median(rows, row => record.Shots.At(row).East), Median(rows, row => record.Shots.At(row).North));
        var far = rows.Length < 4 ? 0 : Math.Max(1, rows.Length * InAHundred / 100);
        var byDistance = rows.OrderBy(row =>
        {
            var at = record.Shots.At(row);
            return Math.Max(Math.Abs(at.East - east), Math.Abs(at.North - north));
        }).ToArray();
        var box = Box2.Empty;
        foreach (var row in byDistance.AsSpan(0, rows.Length - far)) box = box.Union(record.Shots.At(row));
        if (far == 0) return box;
        return box.Grow(Math.Max(20, Math.Max(box.MaxEast - box.MinEast, box.MaxNorth - box.MinNorth) / 2));
    }

    private static double Median(int[] rows, Func<int, double> value)
    {
        var values = Array.ConvertAll(rows, row => value(row));
        Array.Sort(values);
        return values[values.Length / 2];
    }

    private static bool AllInside(Run run, HashSet<int> outside)
    {
        foreach (var member in run.Members)
            if (outside.Contains(member)) return false;
        return true;
    }
}
