using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>What the sheet is fitted to. A shot far from all others must not shrink the site to a dot: it is left outside and named.</summary>
/// <param name="Places">What must be seen: shots, and places on arcs; none where there are no shots.</param>
/// <param name="Outside">Rows of shots left outside, in row order.</param>
internal sealed record PlanExtent(Point2[] Places, IReadOnlyList<int> Outside)
{
    /// <summary>Of a hundred shots at most this many may be left outside; of fewer, one.</summary>
    private const int InAHundred = 1;

    public static PlanExtent Of(AsBuiltRecord record)
    {
        var rows = record.Site.ShotRows.ToArray();
        if (rows.Length == 0) return new([], []);
        var near = Core(record, rows);
        var (places, outside, far) = (new List<Point2>(rows.Length), new List<int>(), new HashSet<int>());
        foreach (var row in rows)
        {
            if (near.Contains(record.Shots.At(row))) places.Add(record.Shots.At(row));
            else if (far.Add(row)) outside.Add(row);
        }

        for (var number = 0; number < record.Runs.Count; number++) AddArcs(record.Runs[number], far, places);
        return new([.. places], outside);
    }

    /// <summary>The direction that most metres of straight run take or stand square to; the sum of their fourfold angles, so that right angles agree.</summary>
    public static Bearing WorkOf(AsBuiltRecord record)
    {
        var (east, north) = (0.0, 0.0);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            for (var part = 0; part < run.PieceCount; part++)
            {
                var piece = run.Piece(part);
                if (piece.Kind != PieceKind.Straight) continue;
                var fourfold = Bearing.FromRadians(4 * piece.Straight.Bearing.Radians).Unit;
                (east, north) = (east + piece.PlanLength * fourfold.East, north + piece.PlanLength * fourfold.North);
            }
        }

        return Bearing.FromRadians(Bearing.Of(new Step(east, north)).Radians / 4);
    }

    /// <summary>Places on arcs, which bulge beyond their shots: six to a quarter turn lose under 1 % of the bulge.</summary>
    private static void AddArcs(Run run, HashSet<int> far, List<Point2> places)
    {
        for (var number = 0; number < run.PieceCount; number++)
        {
            var piece = run.Piece(number);
            if (piece.Kind != PieceKind.Arc || far.Contains(run.Members[piece.First]) || far.Contains(run.Members[piece.Last])) continue;
            var parts = (int)Math.Ceiling(piece.Arc.Sweep / (Math.PI / 12));
            for (var part = 0; part < parts; part++) places.Add(piece.Arc.PointAt(piece.PlanLength * part / parts));
        }
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
}
