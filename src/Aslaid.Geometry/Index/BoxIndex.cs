using System.Runtime.InteropServices;

namespace Aslaid.Geometry;

/// <summary>The exact distance from the place asked about to a thing in an index. A struct, so that a search allocates nothing.</summary>
public interface IDistanceTo
{
    /// <summary>Metres, not less than the distance to the thing's box.</summary>
    double To(int id);
}

/// <summary>A static index over boxes: which of them meet a box or lie near a place. Never changed; ids are positions in the span it was made of.</summary>
/// <remarks>A packed tree: boxes sorted along a Hilbert curve through their centres, sixteen to a node, level on level in flat
/// arrays. Made in time proportional to the boxes. Answers come by rising id, so they do not depend on the packing. Empty boxes are never found.
/// Searching is safe from many threads.</remarks>
public sealed class BoxIndex
{
    private const int NodeSize = 16; // one node's boxes fill eight cache lines
    private const int HilbertBits = 16;

    private readonly Box2[] boxes; // leaves in packed order, then each level above; the root last
    private readonly int[] ids; // of leaves: the caller's; of nodes: the first child
    private readonly int[] levelEnds;

    private BoxIndex(Box2[] boxes, int[] ids, int[] levelEnds)
    {
        this.boxes = boxes;
        this.ids = ids;
        this.levelEnds = levelEnds;
    }

    /// <summary>How many boxes it was made of.</summary>
    public int Count => levelEnds.Length == 0 ? 0 : levelEnds[0];

    /// <summary>The box over all.</summary>
    public Box2 Box => boxes.Length == 0 ? Box2.Empty : boxes[^1];

    /// <summary>An index over these boxes; ids are positions in the span.</summary>
    public static BoxIndex Of(ReadOnlySpan<Box2> boxes)
    {
        var count = boxes.Length;
        if (count == 0) return new([], [], []);

        var whole = Box2.Empty;
        foreach (ref readonly var box in boxes) whole = whole.Union(box);
        var order = new int[count];
        var keys = new uint[count];
        var scaleEast = Scale(whole.MaxEast - whole.MinEast);
        var scaleNorth = Scale(whole.MaxNorth - whole.MinNorth);
        for (var i = 0; i < count; i++)
        {
            ref readonly var box = ref boxes[i];
            order[i] = i;
            if (!box.IsEmpty)
                keys[i] = Hilbert((uint)(scaleEast * ((box.MinEast - whole.MinEast + (box.MaxEast - whole.MinEast)) / 2)),
                    (uint)(scaleNorth * ((box.MinNorth - whole.MinNorth + (box.MaxNorth - whole.MinNorth)) / 2)));
        }
        SortByKey(ref keys, ref order);

        var ends = new List<int>();
        var total = 0;
        for (var n = count; ; n = (n + NodeSize - 1) / NodeSize)
        {
            ends.Add(total += n);
            if (n == 1) break;
        }
        var all = new Box2[total];
        var children = new int[total];
        for (var i = 0; i < count; i++)
        {
            all[i] = boxes[order[i]];
            children[i] = order[i];
        }
        int child = 0, node = count;
        foreach (var end in ends.GetRange(0, ends.Count - 1))
            for (; child < end; node++)
            {
                children[node] = child;
                var over = Box2.Empty;
                for (var last = Math.Min(child + NodeSize, end); child < last; child++) over = over.Union(all[child]);
                all[node] = over;
            }
        return new(all, children, [.. ends]);

        static double Scale(double size) => size > 0 && double.IsFinite(size) ? ((1 << HilbertBits) - 1) / size : 0;
    }

    /// <summary>Adds the ids of all boxes that meet <paramref name="box"/>, rising.</summary>
    public void Query(Box2 box, List<int> into)
    {
        ArgumentNullException.ThrowIfNull(into);
        var before = into.Count;
        if (boxes.Length > 0) Collect(boxes.Length - 1, levelEnds.Length - 1, box, into);
        Sort(into, before);
    }

    /// <summary>Adds the ids of all boxes within <paramref name="radius"/> metres of a place, rising.</summary>
    public void Near(Point2 place, double radius, List<int> into)
    {
        ArgumentNullException.ThrowIfNull(into);
        var before = into.Count;
        if (boxes.Length > 0) CollectNear(boxes.Length - 1, levelEnds.Length - 1, place, radius, into);
        Sort(into, before);
    }

    /// <summary>The box nearest to a place, of equals the lowest id; -1 where there is none.</summary>
    /// <param name="distance">Metres, 0 inside; infinite where there is none.</param>
    public int Nearest(Point2 place, out double distance) => Nearest(place, new ToBox(), out distance);

    /// <summary>The thing nearest to a place by its exact distance, of equals the lowest id; -1 where there is none.</summary>
    /// <param name="exact">Asked only for things whose boxes may hold the nearest.</param>
    /// <param name="distance">Metres; infinite where there is none.</param>
    public int Nearest<T>(Point2 place, T exact, out double distance)
        where T : struct, IDistanceTo => Nearest(place, exact, double.PositiveInfinity, out distance);

    /// <inheritdoc cref="Nearest{T}(Point2, T, out double)"/>
    /// <param name="within">Metres: what is farther is not looked for.</param>
    public int Nearest<T>(Point2 place, T exact, double within, out double distance)
        where T : struct, IDistanceTo
    {
        var best = int.MaxValue; // more than any id, so that a thing just as far as asked is taken
        distance = within;
        if (boxes.Length > 0) Nearer(boxes.Length - 1, levelEnds.Length - 1, place, ref exact, ref best, ref distance);
        if (best < int.MaxValue) return best;
        distance = double.PositiveInfinity;
        return -1;
    }

    /// <summary>Sorts both by the key, eleven bits at a time from the lowest; like keys keep their order.</summary>
    private static void SortByKey(ref uint[] keys, ref int[] order)
    {
        const int bits = 11, mask = (1 << bits) - 1;
        uint[] keysTo = new uint[keys.Length];
        int[] orderTo = new int[keys.Length];
        Span<int> starts = stackalloc int[mask + 2];
        for (var shift = 0; shift < 2 * HilbertBits; shift += bits)
        {
            starts.Clear();
            foreach (var key in keys) starts[(int)((key >> shift) & mask) + 1]++;
            for (var i = 1; i < starts.Length; i++) starts[i] += starts[i - 1];
            for (var i = 0; i < keys.Length; i++)
            {
                var to = starts[(int)((keys[i] >> shift) & mask)]++;
                keysTo[to] = keys[i];
                orderTo[to] = order[i];
            }
            (keys, keysTo) = (keysTo, keys);
            (order, orderTo) = (orderTo, order);
        }
    }

    private void Collect(int node, int level, in Box2 box, List<int> into)
    {
        if (!boxes[node].Intersects(box)) return;
        if (level == 0)
        {
            into.Add(ids[node]);
            return;
        }
        for (int child = ids[node], end = Math.Min(child + NodeSize, levelEnds[level - 1]); child < end; child++)
            Collect(child, level - 1, box, into);
    }

    private void CollectNear(int node, int level, Point2 place, double radius, List<int> into)
    {
        if (!(boxes[node].DistanceTo(place) <= radius)) return;
        if (level == 0)
        {
            into.Add(ids[node]);
            return;
        }
        for (int child = ids[node], end = Math.Min(child + NodeSize, levelEnds[level - 1]); child < end; child++)
            CollectNear(child, level - 1, place, radius, into);
    }

    private void Nearer<T>(int node, int level, Point2 place, ref T exact, ref int best, ref double distance)
        where T : struct, IDistanceTo
    {
        var toBox = boxes[node].DistanceTo(place);
        if (!(toBox <= distance) || double.IsPositiveInfinity(toBox)) return;
        if (level == 0)
        {
            var id = ids[node];
            var there = exact is ToBox ? toBox : exact.To(id);
            if (there > distance || (there == distance && id > best) || double.IsNaN(there)) return;
            distance = there;
            best = id;
            return;
        }
        // Nearest child first, then the next: the first good find cuts off the rest.
        int first = ids[node], count = Math.Min(NodeSize, levelEnds[level - 1] - first);
        Span<double> apart = stackalloc double[NodeSize];
        Span<int> order = stackalloc int[NodeSize];
        for (var i = 0; i < count; i++)
        {
            apart[i] = boxes[first + i].SquaredDistanceTo(place);
            order[i] = first + i;
        }
        MemoryExtensions.Sort(apart[..count], order[..count]);
        for (var i = 0; i < count; i++) Nearer(order[i], level - 1, place, ref exact, ref best, ref distance);
    }

    private static void Sort(List<int> list, int from) => CollectionsMarshal.AsSpan(list)[from..].Sort();

    /// <summary>Position along a Hilbert curve of order 16 (Hilbert 1891; the quadrant-by-quadrant walk).</summary>
    private static uint Hilbert(uint east, uint north)
    {
        uint at = 0;
        for (var side = 1u << (HilbertBits - 1); side > 0; side >>= 1)
        {
            uint right = (east & side) != 0 ? 1u : 0, upper = (north & side) != 0 ? 1u : 0;
            at = (at << 2) | ((3 * right) ^ upper);
            if (upper != 0) continue;
            if (right != 0)
            {
                east = ~east;
                north = ~north;
            }
            (east, north) = (north, east);
        }
        return at;
    }

    private readonly struct ToBox : IDistanceTo
    {
        public double To(int id) => 0; // never asked: Nearer knows the box
    }
}
