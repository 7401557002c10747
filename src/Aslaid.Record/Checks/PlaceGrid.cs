using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// Rows by plan position in square cells of one size, hashed: it stays quick where one shot lies on another continent,
/// which is just what checks are for.
/// </summary>
internal sealed class PlaceGrid
{
    private readonly CurrentShots shots;
    private readonly double cell;
    private readonly int[] heads;
    private readonly int[] next;
    private readonly int[] rows;

    /// <param name="cell">Side of a cell, metres; searches reach no farther.</param>
    public PlaceGrid(CurrentShots shots, ReadOnlySpan<int> rows, double cell)
    {
        (this.shots, this.cell, this.rows) = (shots, cell, rows.ToArray());
        heads = new int[(int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(16, 2 * rows.Length))];
        heads.AsSpan().Fill(-1);
        next = new int[rows.Length];
        for (var i = rows.Length - 1; i >= 0; i--) // backwards, so that each chain rises
        {
            var slot = Slot(Column(shots.Raw.East[rows[i]]), Column(shots.Raw.North[rows[i]]));
            next[i] = heads[slot];
            heads[slot] = i;
        }
    }

    /// <summary>The rows, by place.</summary>
    public ReadOnlySpan<int> Rows => rows;

    /// <summary>Adds the rows within <paramref name="reach"/> metres of a place, cell by cell; reach is at most half a cell.</summary>
    public void Near(Point2 place, double reach, List<int> into)
    {
        var (west, east) = (Column(place.East - reach), Column(place.East + reach));
        var (south, north) = (Column(place.North - reach), Column(place.North + reach));
        for (var column = west; column <= east; column++)
        {
            for (var row = south; row <= north; row++)
            {
                for (var i = heads[Slot(column, row)]; i >= 0; i = next[i])
                {
                    var at = shots.At(rows[i]);
                    if (Column(at.East) != column || Column(at.North) != row) continue; // another cell with the same hash
                    if ((at - place).SizeSquared <= reach * reach) into.Add(rows[i]);
                }
            }
        }
    }

    /// <summary>Adds rows within <paramref name="reach"/> metres that come after one in <see cref="Rows"/>, at most so many.</summary>
    /// <param name="place">Place of the one in <see cref="Rows"/>.</param>
    public void After(int place, double reach, int most, List<int> into)
    {
        var here = shots.At(rows[place]);
        var (ownColumn, ownRow) = (Column(here.East), Column(here.North));
        for (var column = Column(here.East - reach); column <= Column(here.East + reach); column++)
        {
            for (var row = Column(here.North - reach); row <= Column(here.North + reach); row++)
            {
                var own = column == ownColumn && row == ownRow;
                for (var i = own ? next[place] : heads[Slot(column, row)]; i >= 0 && into.Count < most; i = next[i])
                {
                    if (i <= place) continue;
                    var at = shots.At(rows[i]);
                    if (Column(at.East) == column && Column(at.North) == row && (at - here).SizeSquared <= reach * reach) into.Add(rows[i]);
                }
            }
        }
    }

    private long Column(double metres) => (long)Math.Floor(metres / cell);

    private int Slot(long column, long row)
    {
        var mixed = (ulong)column * 0x9E3779B97F4A7C15 ^ (ulong)row * 0xC2B2AE3D27D4EB4F;
        return (int)((mixed ^ mixed >> 29) * 0xBF58476D1CE4E5B9 >> 33) & (heads.Length - 1);
    }
}
