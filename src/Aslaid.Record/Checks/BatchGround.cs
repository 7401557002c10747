using System.Runtime.InteropServices;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Where control and batches lie, by cells that hang together.</summary>
internal sealed class BatchGround
{
    /// <summary>So many shots tell where a batch lies.</summary>
    private const int Samples = 256;

    private readonly Site site;
    private readonly double cell;
    private readonly Dictionary<(long East, long North), int> numbers = [];
    private readonly List<int> parents = [];
    private readonly List<Box2> boxes = []; // what lies in each cell
    private readonly List<Point2>[] samples;
    private readonly int[] homes; // cell in which most of a batch lies, or −1
    private readonly Point2?[] middles;
    private readonly HashSet<int> atHome = [];

    public BatchGround(Site site)
    {
        (this.site, cell) = (site, site.Settings.OtherSiteDistance);
        samples = [.. site.Shots.Raw.Batches.Select(Sampled)];
        homes = [.. samples.Select(MostOf)];
        middles = new Point2?[homes.Length];
        foreach (var point in site.Control) atHome.Add(NumberOf(point.At));
        foreach (var place in Designed()) atHome.Add(NumberOf(place));
        Join();
        if (atHome.Count == 0 && Largest() is >= 0 and var largest) atHome.Add(largest);
        foreach (var home in atHome.ToArray()) atHome.Add(Root(home));
    }

    public bool IsAway(int batch) => homes[batch] >= 0 && !atHome.Contains(Root(homes[batch]));

    /// <summary>The first correction that brings a batch home, else that it is of another site.</summary>
    public BatchPlace Told(int batch)
    {
        var off = Nearest(samples[batch], BatchCorrection.None);
        foreach (var correction in BatchCorrection.All)
            if (BringsHome(samples[batch], correction)) return correction.Place(off, Nearest(samples[batch], correction), 0);
        return new(BatchFault.AnotherSite, 1, false, false, off, off, 0);
    }

    /// <summary>Places of the design: it lies where the site is.</summary>
    private IEnumerable<Point2> Designed()
    {
        var step = Math.Max(1, site.Design.Lines.Length / Samples);
        for (var line = 0; line < site.Design.Lines.Length; line += step)
        {
            var path = site.Design.Lines[line].Path;
            for (var along = 0.0; along < path.PlanLength; along += Math.Max(cell, path.PlanLength / Samples)) yield return path.PointAt(along);
            yield return path.PointAt(path.PlanLength);
        }
    }

    private List<Point2> Sampled(Batch batch)
    {
        var (of, step) = (new List<Point2>(), Math.Max(1, batch.Count / Samples));
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row += step)
            if (site.Shots.IsShot(row) && site.Shots.UsedColumn[row]) of.Add(site.Shots.At(row));
        return of;
    }

    private (long East, long North) CellOf(Point2 at) => ((long)Math.Floor(at.East / cell), (long)Math.Floor(at.North / cell));

    private int NumberOf(Point2 at)
    {
        ref var number = ref CollectionsMarshal.GetValueRefOrAddDefault(numbers, CellOf(at), out var known);
        if (!known)
        {
            parents.Add(number = parents.Count);
            boxes.Add(Box2.Of(at, at));
        }

        boxes[number] = boxes[number].Union(Box2.Of(at, at));
        return number;
    }

    private int MostOf(List<Point2> points)
    {
        var counts = new Dictionary<int, int>();
        foreach (var point in points) counts[NumberOf(point)] = counts.GetValueOrDefault(NumberOf(point)) + 1;
        return counts.Count == 0 ? -1 : counts.MaxBy(count => (count.Value, -count.Key)).Key;
    }

    private int Root(int number)
    {
        while (parents[number] != number) number = parents[number] = parents[parents[number]];
        return number;
    }

    private void Join()
    {
        foreach (var ((east, north), number) in numbers)
            foreach (var (e, n) in (ReadOnlySpan<(int, int)>)[(1, -1), (1, 0), (1, 1), (0, 1)])
                if (numbers.TryGetValue((east + e, north + n), out var beside) && Apart(boxes[number], boxes[beside]) <= cell) parents[Root(beside)] = Root(number);
    }

    /// <summary>Where most of the shots lie, the earliest of equals.</summary>
    private int Largest()
    {
        var counts = new Dictionary<int, int>();
        for (var batch = 0; batch < homes.Length; batch++)
            if (homes[batch] >= 0) counts[Root(homes[batch])] = counts.GetValueOrDefault(Root(homes[batch])) + site.Shots.Raw.Batches[batch].Count;
        return counts.Count == 0 ? -1 : counts.MaxBy(count => (count.Value, -count.Key)).Key;
    }

    /// <summary>Whether nearly all of a batch comes to lie in cells at home, or beside them.</summary>
    private bool BringsHome(List<Point2> points, BatchCorrection correction)
    {
        var come = 0;
        foreach (var point in points)
            if (IsHome(correction.Of(point))) come++;
        return come >= 0.9 * points.Count;
    }

    private bool IsHome(Point2 place)
    {
        var at = CellOf(place);
        for (var e = -1; e <= 1; e++)
            for (var n = -1; n <= 1; n++)
                if (numbers.TryGetValue((at.East + e, at.North + n), out var number) && atHome.Contains(Root(number))
                    && Apart(boxes[number], Box2.Of(place, place)) <= cell) return true;
        return false;
    }

    private static double Apart(Box2 a, Box2 b) => double.Hypot(
        Math.Max(0, Math.Max(a.MinEast, b.MinEast) - Math.Min(a.MaxEast, b.MaxEast)),
        Math.Max(0, Math.Max(a.MinNorth, b.MinNorth) - Math.Min(a.MaxNorth, b.MaxNorth)));

    /// <summary>Metres from the middle of a batch to the nearest control point, or where there is none to the middle of a batch at home.</summary>
    private double Nearest(List<Point2> points, BatchCorrection correction)
    {
        var (middle, least) = (correction.Of(MiddleOf(points)), double.PositiveInfinity);
        foreach (var point in site.Control) least = Math.Min(least, middle.DistanceTo(point.At));
        foreach (var place in Designed()) least = Math.Min(least, middle.DistanceTo(place));
        for (var batch = 0; batch < homes.Length; batch++)
            if (homes[batch] >= 0 && !IsAway(batch)) least = Math.Min(least, middle.DistanceTo(middles[batch] ??= MiddleOf(samples[batch])));
        return least;
    }

    private static Point2 MiddleOf(List<Point2> points)
    {
        double[] east = [.. points.Select(point => point.East)], north = [.. points.Select(point => point.North)];
        Array.Sort(east);
        Array.Sort(north);
        return new(east[east.Length / 2], north[north.Length / 2]);
    }
}
