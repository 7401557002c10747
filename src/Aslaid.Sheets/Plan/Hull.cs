using Aslaid.Geometry;

namespace Aslaid.Sheets;

/// <summary>The convex hull of places, counter-clockwise, by sorting and two chains.</summary>
internal static class Hull
{
    public static Point2[] Of(ReadOnlySpan<Point2> places)
    {
        var sorted = places.ToArray();
        Array.Sort(sorted, (a, b) => a.East != b.East ? a.East.CompareTo(b.East) : a.North.CompareTo(b.North));
        var hull = new List<Point2>();
        Chain(sorted, hull);
        Array.Reverse(sorted);
        Chain(sorted, hull);
        return hull.Count == 0 ? [sorted[0]] : [.. hull];
    }

    /// <summary>One side of the hull; its last place is left to the other side.</summary>
    private static void Chain(Point2[] sorted, List<Point2> hull)
    {
        var first = hull.Count;
        foreach (var place in sorted)
        {
            while (hull.Count - first >= 2 && (hull[^1] - hull[^2]).Cross(place - hull[^1]) <= 0) hull.RemoveAt(hull.Count - 1);
            if (hull.Count == first || hull[^1] != place) hull.Add(place);
        }

        hull.RemoveAt(hull.Count - 1);
    }
}
