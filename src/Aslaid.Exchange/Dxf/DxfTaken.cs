using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>
/// What a drawing gives to a design, in metres. As long as every height is 0 nothing is handed on: a drawing without any other height is
/// a flat one, and has none.
/// </summary>
internal sealed class DxfTaken(DesignGather gather, DxfUnit unit, IReadOnlyDictionary<string, DxfBlock> blocks)
{
    private const int MostExpanded = 2_000_000;
    private const int MostExpandedVertices = 10_000_000;
    private readonly List<Waiting> waiting = [];
    private readonly Dictionary<string, int> unnamed = new(StringComparer.Ordinal); // by layer
    private readonly Dictionary<string, DxfFaces> faces = new(StringComparer.Ordinal); // by layer
    private readonly List<string> faceLayers = [];
    private bool hasHeights;
    private int expanded;
    private long expandedVertices;

    public DxfBlock? Block(string name) => blocks.GetValueOrDefault(name);

    public void Skip(string what, string why) => gather.Skip(what, why);

    /// <summary>Counts what blocks grow to, so that none grows without end.</summary>
    public void Expand(int vertices, int line)
    {
        expandedVertices += vertices;
        if (++expanded > MostExpanded || expandedVertices > MostExpandedVertices)
            throw new DesignRefusedException(line, "INSERT", string.Create(CultureInfo.InvariantCulture, $"makes the blocks of the drawing grow to more than {MostExpanded} entities or {MostExpandedVertices} vertices; a design of one site was expected"));
    }

    public Point2 Place(in DxfPlace place, int line) => DesignGather.Place(unit.Metres(place.X), unit.Metres(place.Y), line);

    public double Height(in DxfPlace place, int line) => DesignGather.Height(unit.Metres(place.Z), line);

    /// <summary>The height of what is drawn in plan: 0 there says nothing.</summary>
    public double? Elevation(in DxfPlace place, int line) => place.Z == 0 ? null : Height(place, line);

    public double Radius(double radius, int line) => unit.Metres(radius) is > 0 and <= DesignGather.Farthest and var metres ? metres
        : throw new DesignRefusedException(line, radius.ToString("R", CultureInfo.InvariantCulture), "is a radius of no site; one within 100 000 km was expected");

    public void Line(in DxfCommon what, DxfFrame frame, Path? path)
    {
        if (path is null) Skip(what.Type, "it has no length in plan");
        else if (hasHeights || HasHeight(path)) Now().Line(Name(what, frame), frame.Words(what), path);
        else Wait(new(Name(what, frame), frame.Words(what), path, default));
    }

    public void Point(in DxfCommon what, DxfFrame frame, in DxfPlace at)
    {
        var (place, height) = (Place(at, what.Line), Height(at, what.Line));
        if (hasHeights || height != 0) Now().Point(Name(what, frame), frame.Words(what), place, height);
        else Wait(new(Name(what, frame), frame.Words(what), null, place));
    }

    /// <summary>A symbol without a POINT of its own stands for a thing at its base.</summary>
    public void Symbol(string block, in DxfCommon what, DxfFrame frame, in DxfPlace at)
    {
        var (place, height) = (Place(at, what.Line), Height(at, what.Line));
        if (hasHeights || height != 0) Now().Point(block, frame.Words(what), place, height);
        else Wait(new(block, frame.Words(what), null, place));
    }

    public void Face(in DxfCommon what, DxfFrame frame, in DxfPlace a, in DxfPlace b, in DxfPlace c, in DxfPlace d)
    {
        var layer = frame.LayerOf(what);
        if (!faces.TryGetValue(layer, out var known))
        {
            faces.Add(layer, known = new());
            faceLayers.Add(layer);
        }

        var line = what.Line;
        Span<int> corners = [Corner(a), Corner(b), Corner(c), Corner(d)];
        if (!known.Take(corners, line)) Skip(what.Type, "it has no area in plan");

        int Corner(in DxfPlace place)
        {
            var height = Height(place, line);
            if (height != 0 && !hasHeights) Now();
            return known.Corner(Place(place, line), height);
        }
    }

    /// <summary>Hands on what waits and the surfaces.</summary>
    public void Finish()
    {
        var flat = !hasHeights && (waiting.Count > 0 || faces.Count > 0);
        if (flat) gather.Remark("Every height in the drawing is 0: it is taken as flat, without heights.");
        HandOn(flat);
        foreach (var layer in faceLayers)
        {
            if (!faces[layer].Any) continue;
            if (flat) Skip($"surface {layer}", "every height in the drawing is 0");
            else faces[layer].HandOn(layer, gather);
        }
    }

    /// <summary>The gatherer, once it is known that heights of 0 are heights.</summary>
    private DesignGather Now()
    {
        if (!hasHeights) HandOn(flat: false);
        hasHeights = true;
        return gather;
    }

    private void Wait(in Waiting one)
    {
        gather.Demand(waiting.Count);
        waiting.Add(one);
    }

    private void HandOn(bool flat)
    {
        foreach (var one in waiting)
        {
            if (one.Path is { } path) gather.Line(one.Name, one.Words, flat ? WithoutHeights(path) : path);
            else gather.Point(one.Name, one.Words, one.At, flat ? null : 0);
        }

        waiting.Clear();
    }

    private string Name(in DxfCommon what, DxfFrame frame)
    {
        if (what.Handle is { } handle) return handle;
        var layer = frame.LayerOf(what);
        var number = unnamed[layer] = unnamed.GetValueOrDefault(layer) + 1;
        return string.Create(CultureInfo.InvariantCulture, $"{layer} {number}");
    }

    private static bool HasHeight(Path path)
    {
        foreach (var vertex in path.Vertices)
            if (vertex.Height is not null and not 0) return true;
        return false;
    }

    private static Path WithoutHeights(Path path) =>
        path.Vertices.All(vertex => vertex.Height is null) ? path : Path.Of([.. path.Vertices.Select(vertex => vertex with { Height = null })], path.Pieces);

    /// <summary>A line, or a point where there is no path.</summary>
    private readonly record struct Waiting(string Name, string[] Words, Path? Path, Point2 At);
}

/// <summary>The faces of a layer; corners of the same coordinates are one.</summary>
internal sealed class DxfFaces
{
    private const int Most = 10_000_000;
    private readonly List<Point2> places = [];
    private readonly List<double> heights = [];
    private readonly List<int> triangles = [];
    private readonly Dictionary<(Point2 At, double Height), int> known = [];

    public bool Any => triangles.Count > 0;

    public int Corner(Point2 at, double height)
    {
        if (known.TryGetValue((at, height), out var number)) return number;
        known.Add((at, height), places.Count);
        places.Add(at);
        heights.Add(height);
        return places.Count - 1;
    }

    /// <summary>Takes a face of four corners as two triangles; false where neither has an area in plan.</summary>
    public bool Take(ReadOnlySpan<int> corners, int line)
    {
        if (triangles.Count >= 3 * Most) throw new DesignRefusedException(line, "3DFACE", string.Create(CultureInfo.InvariantCulture, $"is beyond {Most} triangles on its layer; a surface of one site was expected"));
        var first = Triangle(corners[0], corners[1], corners[2]);
        return Triangle(corners[0], corners[2], corners[3]) || first;
    }

    public void HandOn(string layer, DesignGather gather)
    {
        known.Clear();
        gather.Surface(layer, [.. places], [.. heights], [.. triangles]);
    }

    private bool Triangle(int a, int b, int c)
    {
        if ((places[b] - places[a]).Cross(places[c] - places[a]) == 0) return false;
        triangles.AddRange([a, b, c]);
        return true;
    }
}
