using System.Numerics;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// Rows by plan position in square cells of one size, hashed: it stays quick where one shot lies on another continent,
/// which is just what checks are for.
/// </summary>
internal sealed class PlaceGrid
{
    private readonly double cellsAMetre;
    private readonly int[] starts;
    private readonly Entry[] entries;

    /// <summary>A row by its position, and its place among the rows given.</summary>
    private readonly record struct Entry(Point2 At, int Row, int Place);

    /// <param name="cell">Side of a cell, metres, best well above what is searched for.</param>
    public PlaceGrid(CurrentShots shots, ReadOnlySpan<int> rows, double cell)
    {
        cellsAMetre = 1 / cell;
        starts = new int[BitOperations.RoundUpToPowerOf2((uint)Math.Max(16, rows.Length)) + 1];
        entries = new Entry[rows.Length];
        var slots = new int[rows.Length];
        for (var i = 0; i < rows.Length; i++) starts[(slots[i] = SlotOf(shots.At(rows[i]))) + 1]++;
        for (var slot = 1; slot < starts.Length; slot++) starts[slot] += starts[slot - 1];
        for (var i = rows.Length - 1; i >= 0; i--) entries[--starts[slots[i] + 1]] = new(shots.At(rows[i]), rows[i], i);
        Array.Copy(starts, 1, starts, 0, starts.Length - 1); // each start stood one slot late
        starts[^1] = rows.Length;
    }

    /// <summary>Adds the rows within <paramref name="reach"/> metres of a place, in no set order.</summary>
    /// <param name="after">Only rows after this place among those given; −1 for all.</param>
    /// <param name="most">No more than so many.</param>
    public void Near(Point2 place, double reach, List<int> into, int after = -1, int most = int.MaxValue)
    {
        var (west, east) = (Cell(place.East - reach), Cell(place.East + reach));
        var (south, north) = (Cell(place.North - reach), Cell(place.North + reach));
        var many = west != east || south != north;
        for (var column = west; column <= east; column++)
        {
            for (var row = south; row <= north; row++)
            {
                var slot = Slot(column, row);
                foreach (ref readonly var entry in entries.AsSpan(starts[slot]..starts[slot + 1]))
                {
                    if (entry.Place <= after || (entry.At - place).SizeSquared > reach * reach) continue;
                    if (many && (Cell(entry.At.East) != column || Cell(entry.At.North) != row)) continue; // cells may share a slot
                    if (into.Count >= most) return;
                    into.Add(entry.Row);
                }
            }
        }
    }

    private long Cell(double metres) => (long)Math.Floor(metres * cellsAMetre);

    private int SlotOf(Point2 at) => Slot(Cell(at.East), Cell(at.North));

    /// <summary>Tiles of eight by eight cells are scattered; within one, cells stay together, and with them what a crew shot in a row.</summary>
    private int Slot(long column, long row)
    {
        var mixed = (ulong)(column >> 3) * 0x9E3779B97F4A7C15 ^ (ulong)(row >> 3) * 0xC2B2AE3D27D4EB4F;
        var tile = (mixed ^ mixed >> 29) * 0xBF58476D1CE4E5B9 >> 33;
        return (int)(tile << 6 | (ulong)(row & 7) << 3 | (ulong)(column & 7)) & (starts.Length - 2);
    }
}
