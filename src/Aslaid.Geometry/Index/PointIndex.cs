using System.Runtime.InteropServices;

namespace Aslaid.Geometry;

/// <summary>A static index over many places: which lie in a box or near a place. Never changed; ids are positions in the columns it was made of.</summary>
/// <remarks>A grid of square cells, about two places to a cell if they lie evenly, filled by counting: made in time
/// proportional to the places. Answers come by rising id. Searching is safe from many threads.</remarks>
public sealed class PointIndex
{
    private const double GridRounding = 1e-8; // m: the edge of a grown box is rounded to the grid's 1 nm

    private readonly int[] cellStarts; // by cell, row on row northwards; one more than the cells
    private readonly Entry[] entries; // cell by cell, rising ids within each
    private readonly Box2 box;
    private readonly double cell;
    private readonly int columns, rows;

    private readonly record struct Entry(Point2 At, int Id);

    private PointIndex(Box2 box, double cell, int columns, int rows, int[] cellStarts, Entry[] entries)
    {
        this.box = box;
        this.cell = cell;
        this.columns = columns;
        this.rows = rows;
        this.cellStarts = cellStarts;
        this.entries = entries;
    }

    /// <summary>How many places it was made of.</summary>
    public int Count => entries.Length;

    /// <summary>An index over two columns of one length, finite metres.</summary>
    /// <exception cref="ArgumentException">The columns differ in length, or hold what is not finite.</exception>
    public static PointIndex Of(ReadOnlySpan<double> east, ReadOnlySpan<double> north)
    {
        if (east.Length != north.Length)
            throw new ArgumentException($"The columns hold {east.Length} easts and {north.Length} norths; expected as many.", nameof(north));
        var count = east.Length;
        var box = Box2.Empty;
        for (var i = 0; i < count; i++)
        {
            if (!double.IsFinite(east[i] + north[i])) throw new ArgumentException($"Place {i} is not finite.", nameof(east));
            box = box.Union(new Point2(east[i], north[i]));
        }
        if (count == 0) return new(box, 1, 0, 0, [0], []);

        // Cells for half the places over the box; a long thin box gets cells along it only.
        double wide = box.MaxEast - box.MinEast, high = box.MaxNorth - box.MinNorth, wanted = Math.Max(1, count / 2.0);
        var cell = Math.Max(Math.Sqrt(wide * high / wanted), Math.Max(wide, high) / wanted);
        if (!(cell > 0)) cell = 1;
        int columns = (int)(wide / cell) + 1, rows = (int)(high / cell) + 1;
        var starts = new int[columns * rows + 1];
        var cells = new int[count];
        for (var i = 0; i < count; i++)
        {
            var at = (int)((north[i] - box.MinNorth) / cell) * columns + (int)((east[i] - box.MinEast) / cell);
            cells[i] = at;
            starts[at + 1]++;
        }
        for (var i = 1; i < starts.Length; i++) starts[i] += starts[i - 1];
        var entries = new Entry[count];
        for (var i = count - 1; i >= 0; i--) entries[--starts[cells[i] + 1]] = new(new(east[i], north[i]), i);
        // Each start now stands one cell late: starts[c + 1] is where cell c begins.
        Array.Copy(starts, 1, starts, 0, starts.Length - 1);
        starts[^1] = count;
        return new(box, cell, columns, rows, starts, entries);
    }

    /// <summary>Adds the ids of all places in <paramref name="wanted"/> or on its edge, rising.</summary>
    public void Query(Box2 wanted, List<int> into)
    {
        ArgumentNullException.ThrowIfNull(into);
        if (!wanted.Intersects(box)) return;
        var before = into.Count;
        int west = Column(wanted.MinEast), east = Column(wanted.MaxEast);
        for (int row = Row(wanted.MinNorth), last = Row(wanted.MaxNorth); row <= last; row++)
            foreach (ref readonly var entry in Cells(row, west, east))
                if (wanted.Contains(entry.At)) into.Add(entry.Id);
        CollectionsMarshal.AsSpan(into)[before..].Sort();
    }

    /// <summary>Adds the ids of all places within <paramref name="radius"/> metres of a place, rising.</summary>
    public void Near(Point2 place, double radius, List<int> into)
    {
        ArgumentNullException.ThrowIfNull(into);
        var wanted = Box2.Of(place, place).Grow(radius + GridRounding);
        if (!(radius >= 0) || !wanted.Intersects(box)) return;
        var before = into.Count;
        int west = Column(wanted.MinEast), east = Column(wanted.MaxEast);
        for (int row = Row(wanted.MinNorth), last = Row(wanted.MaxNorth); row <= last; row++)
            foreach (ref readonly var entry in Cells(row, west, east))
                if (entry.At.DistanceTo(place) <= radius) into.Add(entry.Id);
        CollectionsMarshal.AsSpan(into)[before..].Sort();
    }

    /// <summary>The place nearest to another, of equals the lowest id; -1 where there is none.</summary>
    /// <param name="distance">Metres; infinite where there is none.</param>
    /// <param name="otherThan">An id to pass over, such as that of the place asked about.</param>
    public int Nearest(Point2 place, out double distance, int otherThan = -1)
    {
        var best = -1;
        var squared = double.PositiveInfinity;
        if (entries.Length > 0)
        {
            // Rings of cells about the place, drawn in to the grid; a ring k cells out is at least k - 1 cells away.
            int column = Column(place.East), row = Row(place.North);
            var outside = box.DistanceTo(place);
            for (var ring = 0; ring <= Math.Max(columns, rows); ring++)
            {
                var nearest = Math.Max(outside, (ring - 1) * cell);
                if (nearest * nearest > squared) break;
                for (var r = Math.Max(0, row - ring); r <= Math.Min(rows - 1, row + ring); r++)
                {
                    var edge = r == row - ring || r == row + ring;
                    if (edge) Look(r, column - ring, column + ring);
                    else
                    {
                        Look(r, column - ring, column - ring);
                        Look(r, column + ring, column + ring);
                    }
                }
            }
        }
        distance = Math.Sqrt(squared);
        return best;

        void Look(int r, int west, int east)
        {
            if (east < 0 || west >= columns) return;
            foreach (ref readonly var entry in Cells(r, Math.Max(0, west), Math.Min(columns - 1, east)))
            {
                var there = (entry.At - place).SizeSquared;
                if (entry.Id == otherThan || there > squared || (there == squared && entry.Id > best)) continue;
                squared = there;
                best = entry.Id;
            }
        }
    }

    private ReadOnlySpan<Entry> Cells(int row, int west, int east)
    {
        int from = cellStarts[row * columns + west], to = cellStarts[row * columns + east + 1];
        return entries.AsSpan(from, to - from);
    }

    private int Column(double east) => (int)Math.Clamp((east - box.MinEast) / cell, 0, columns - 1);

    private int Row(double north) => (int)Math.Clamp((north - box.MinNorth) / cell, 0, rows - 1);
}
