using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>The triangles of one table, which are one surface. Corners of one place and height are one.</summary>
internal sealed class DesignTriangles
{
    private readonly List<Point2> places = [];
    private readonly List<double> heights = [];
    private readonly List<int> corners = [];
    private readonly Dictionary<(Point2 At, double Height), int> known = [];

    public void Add(ReadOnlySpan<(Point2 At, double Height)> triangle)
    {
        if (corners.Count >= 3 * DesignGather.Most) throw new FormatException(FormattableString.Invariant($"the surface has more than {DesignGather.Most} triangles; one of a site was expected"));
        foreach (var corner in triangle)
        {
            if (known.TryAdd(corner, places.Count))
            {
                places.Add(corner.At);
                heights.Add(corner.Height);
            }

            corners.Add(known[corner]);
        }
    }

    public void Give(string name, DesignGather into)
    {
        if (corners.Count > 0) into.Surface(name, [.. places], [.. heights], [.. corners]);
    }
}
