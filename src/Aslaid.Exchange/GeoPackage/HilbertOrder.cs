namespace Aslaid.Exchange;

/// <summary>Puts things in the order in which a Hilbert curve passes them, so that neighbours stand together.</summary>
/// <remarks>Hilbert, D. (1891), "Ueber die stetige Abbildung einer Linie auf ein Flächenstück", Mathematische Annalen 38. The curve is laid over a
/// square of 2^24 by 2^24 cells: one stray thing at the origin of the grid still leaves cells of about 0.4 m elsewhere.</remarks>
internal static class HilbertOrder
{
    private const int Bits = 24;

    /// <summary>Sorted copy of <paramref name="things"/>; <paramref name="placeOf"/> gives a finite position in any unit.</summary>
    public static T[] Sort<T>(T[] things, Func<T, (double East, double North)> placeOf)
    {
        if (things.Length < 2) return things;
        double minEast = double.PositiveInfinity, minNorth = double.PositiveInfinity, maxEast = double.NegativeInfinity, maxNorth = double.NegativeInfinity;
        foreach (var thing in things)
        {
            var (east, north) = placeOf(thing);
            (minEast, maxEast) = (Math.Min(minEast, east), Math.Max(maxEast, east));
            (minNorth, maxNorth) = (Math.Min(minNorth, north), Math.Max(maxNorth, north));
        }
        var extent = Math.Max(maxEast - minEast, maxNorth - minNorth);
        var scale = extent > 0 ? ((1 << Bits) - 1) / extent : 0;
        var keys = new ulong[things.Length];
        for (var i = 0; i < things.Length; i++)
        {
            var (east, north) = placeOf(things[i]);
            keys[i] = Key((uint)((east - minEast) * scale), (uint)((north - minNorth) * scale));
        }
        var sorted = (T[])things.Clone();
        Array.Sort(keys, sorted);
        return sorted;
    }

    /// <summary>How far along the curve a cell lies: quadrant by quadrant, each turned so that the pieces join.</summary>
    internal static ulong Key(uint column, uint row)
    {
        ulong key = 0;
        for (var bit = Bits - 1; bit >= 0; bit--)
        {
            uint c = column >> bit & 1, r = row >> bit & 1;
            key = key << 2 | (3 * c) ^ r;
            if (r != 0) continue;
            if (c != 0) (column, row) = (~column, ~row);
            (column, row) = (row, column);
        }
        return key;
    }
}
