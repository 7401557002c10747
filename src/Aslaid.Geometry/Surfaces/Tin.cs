using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Aslaid.Geometry;

/// <summary>A place of a surface: metres.</summary>
public readonly record struct SurfacePoint(Point2 At, double Height)
{
    /// <summary>Place and height, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{At} {Height:0.0000}");
}

/// <summary>Where a path lies on a surface.</summary>
/// <param name="Chainage">Metres from the path's start.</param>
/// <param name="Height">Metres; null where the surface does not reach.</param>
public readonly record struct SectionPoint(double Chainage, double? Height)
{
    /// <summary>Chainage and height, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Chainage:0.0000} m: {Height:0.0000}");
}

/// <summary>
/// A surface of triangles, metres: a height at a place, and a section along a path. What no triangle covers has no height, so voids stay
/// open; breaklines are edges of triangles. Never changed.
/// </summary>
/// <remarks>Triangles are found through a grid of cells, about one to two triangles: both its making and its memory grow with their number. Where triangles
/// overlap the first given counts.</remarks>
public sealed class Tin
{
    private readonly Point2[] places;
    private readonly double[] heights;
    private readonly int[] corners; // three a triangle
    private readonly Box2 box;
    private readonly double cell;
    private readonly int columns;
    private readonly int rows;
    private readonly int[] firsts; // of each cell, then the whole count
    private readonly int[] members;

    private Tin(Point2[] places, double[] heights, int[] corners)
    {
        (this.places, this.heights, this.corners) = (places, heights, corners);
        box = Box2.Empty;
        foreach (var corner in corners) box = box.Union(places[corner]);
        var (wide, high) = (box.MaxEast - box.MinEast, box.MaxNorth - box.MinNorth);
        var wanted = Math.Clamp(TriangleCount / 1.5, 1, 50_000_000);
        cell = Math.Max(Math.Sqrt(Math.Max(wide * high, 1e-6) / wanted), Math.Max(wide, high) / 20_000);
        (columns, rows) = (Math.Max(1, (int)Math.Ceiling(wide / cell)), Math.Max(1, (int)Math.Ceiling(high / cell)));
        firsts = new int[columns * rows + 1];
        for (var t = 0; t < TriangleCount; t++) OverCells(t, static (into, at, _) => into.firsts[at + 1]++);
        for (var i = 1; i < firsts.Length; i++) firsts[i] += firsts[i - 1];
        members = new int[firsts[^1]];
        var next = firsts.AsSpan(0, firsts.Length - 1).ToArray();
        filling = next;
        for (var t = 0; t < TriangleCount; t++) OverCells(t, static (into, at, triangle) => into.members[into.filling![at]++] = triangle);
        filling = null;
    }

    private readonly int[]? filling;

    /// <summary>How many triangles.</summary>
    public int TriangleCount => corners.Length / 3;

    /// <summary>The smallest box over all triangles.</summary>
    public Box2 Box => box;

    /// <summary>A corner of a triangle, 0 to 2.</summary>
    public SurfacePoint Corner(int triangle, int corner) => new(places[corners[3 * triangle + corner]], heights[corners[3 * triangle + corner]]);

    /// <summary>A surface of points and triangles, three numbers of points each.</summary>
    /// <param name="fault">What is wrong, a sentence without its stop; null where nothing is.</param>
    /// <remarks>Triangles without an area in plan are left out: no place lies in them.</remarks>
    public static bool TryOf(ReadOnlySpan<SurfacePoint> points, ReadOnlySpan<int> triangles, [NotNullWhen(true)] out Tin? tin, [NotNullWhen(false)] out string? fault)
    {
        (tin, fault) = (null, null);
        var (places, heights) = (new Point2[points.Length], new double[points.Length]);
        for (var i = 0; i < points.Length; i++) (places[i], heights[i]) = (points[i].At, points[i].Height);
        return TryOf(places, heights, triangles.ToArray(), out tin, out fault);
    }

    /// <inheritdoc cref="TryOf(ReadOnlySpan{SurfacePoint}, ReadOnlySpan{int}, out Tin, out string)"/>
    /// <param name="places">Plan, metres; kept, not copied.</param>
    /// <param name="heights">Metres; kept.</param>
    /// <param name="triangles">Kept, put in order anticlockwise.</param>
    public static bool TryOf(Point2[] places, double[] heights, int[] triangles, [NotNullWhen(true)] out Tin? tin, [NotNullWhen(false)] out string? fault)
    {
        ArgumentNullException.ThrowIfNull(places);
        ArgumentNullException.ThrowIfNull(heights);
        ArgumentNullException.ThrowIfNull(triangles);
        (tin, fault) = (null, null);
        if (triangles.Length % 3 != 0) fault = "a triangle has three corners";
        var kept = 0;
        for (var i = 0; i + 2 < triangles.Length && fault is null; i += 3)
        {
            var (a, b, c) = (triangles[i], triangles[i + 1], triangles[i + 2]);
            if ((uint)a >= places.Length || (uint)b >= places.Length || (uint)c >= places.Length)
            {
                fault = FormattableString.Invariant($"triangle {i / 3 + 1} names a point that is not there");
                return false;
            }

            if (!double.IsFinite(heights[a] + heights[b] + heights[c] + places[a].East + places[a].North + places[b].East + places[b].North + places[c].East + places[c].North))
            {
                fault = FormattableString.Invariant($"triangle {i / 3 + 1} has a corner that is not finite");
                return false;
            }

            var twice = (places[b] - places[a]).Cross(places[c] - places[a]);
            if (twice == 0) continue;
            (triangles[kept], triangles[kept + 1], triangles[kept + 2]) = twice > 0 ? (a, b, c) : (a, c, b);
            kept += 3;
        }

        if (fault is null && kept == 0) fault = "the surface has no triangle with an area";
        if (fault is not null) return false;
        tin = new(places, heights, kept == triangles.Length ? triangles : triangles[..kept]);
        return true;
    }

    /// <summary>The height at a place, metres; null where no triangle lies. On an edge that of either triangle, which is the same.</summary>
    public double? HeightAt(Point2 at) => TriangleAt(at) is >= 0 and var triangle ? HeightOn(triangle, at) : null;

    /// <summary>The rise per metre to grid east and to grid north at a place; null where no triangle lies.</summary>
    public Step? SlopeAt(Point2 at)
    {
        if (TriangleAt(at) is not (>= 0 and var t)) return null;
        var (a, b, c) = (Corner(t, 0), Corner(t, 1), Corner(t, 2));
        Step ab = b.At - a.At, ac = c.At - a.At;
        var twice = ab.Cross(ac);
        return 1 / twice * ((b.Height - a.Height) * (-1 * ac.Left) + (c.Height - a.Height) * ab.Left);
    }

    /// <summary>The triangle over a place, −1 where none lies.</summary>
    public int TriangleAt(Point2 at)
    {
        if (!box.Contains(at)) return -1;
        var place = CellOf(at);
        for (var i = firsts[place]; i < firsts[place + 1]; i++)
            if (Holds(members[i], at)) return members[i];
        return -1;
    }

    /// <summary>
    /// Heights along a path: at its vertices, wherever it crosses an edge of a triangle, and where an arc is followed by chords of a
    /// sagitta. Between neighbours the surface is even, or, where either has no height, unknown.
    /// </summary>
    /// <param name="sagitta">Metres by which chords may leave an arc.</param>
    public ImmutableArray<SectionPoint> Section(Path path, double sagitta = 0.001)
    {
        ArgumentNullException.ThrowIfNull(path);
        var chords = path.Chords(sagitta);
        var section = ImmutableArray.CreateBuilder<SectionPoint>();
        var cuts = new List<double>();
        var seen = new HashSet<int>();
        for (var i = 0; i + 1 < chords.Length; i++)
        {
            section.Add(new(chords[i].Chainage, HeightAt(chords[i].At)));
            Cut(chords[i].At, chords[i + 1].At, cuts, seen);
            var (from, length) = (chords[i].Chainage, chords[i + 1].Chainage - chords[i].Chainage);
            for (var k = 0; k < cuts.Count; k++)
            {
                // Just before and just behind the edge, so that the rim of the surface is seen.
                var at = chords[i].At + cuts[k] * (chords[i + 1].At - chords[i].At);
                var here = HeightAt(at) ?? Beside(chords[i].At, chords[i + 1].At, cuts[k]);
                section.Add(new(from + cuts[k] * length, here));
                var next = k + 1 < cuts.Count ? cuts[k + 1] : 1;
                var middle = (cuts[k] + next) / 2;
                if (HeightAt(chords[i].At + middle * (chords[i + 1].At - chords[i].At)) is null && next - cuts[k] > 1e-9) section.Add(new(from + middle * length, null));
            }
        }

        section.Add(new(chords[^1].Chainage, HeightAt(chords[^1].At)));
        return section.ToImmutable();
    }

    /// <summary>An edge computed a rounding outside its triangles has the height just beside it.</summary>
    private double? Beside(Point2 from, Point2 to, double share)
    {
        var whole = to - from;
        var nudge = whole.Size > 0 ? Rim / whole.Size : 0;
        return HeightAt(from + (share - nudge) * whole) ?? HeightAt(from + (share + nudge) * whole);
    }

    private const double Rim = 1e-6; // m

    /// <summary>Shares of a straight at which it crosses edges, rising, each once.</summary>
    private void Cut(Point2 from, Point2 to, List<double> cuts, HashSet<int> seen)
    {
        cuts.Clear();
        seen.Clear();
        var whole = to - from;
        if (whole.SizeSquared == 0) return;
        // Cells along the straight: sampled densely enough to miss none of the cells it enters, with their neighbours.
        var steps = (int)Math.Clamp(Math.Ceiling(whole.Size / cell), 1, 10_000_000);
        for (var s = 0; s <= steps; s++)
        {
            var at = from + (double)s / steps * whole;
            if (!box.Grow(cell).Contains(at)) continue;
            var (column, row) = ((int)Math.Floor((at.East - box.MinEast) / cell), (int)Math.Floor((at.North - box.MinNorth) / cell));
            for (var r = Math.Max(0, row - 1); r <= Math.Min(rows - 1, row + 1); r++)
                for (var c = Math.Max(0, column - 1); c <= Math.Min(columns - 1, column + 1); c++)
                    for (var i = firsts[r * columns + c]; i < firsts[r * columns + c + 1]; i++)
                        if (seen.Add(members[i])) CutTriangle(members[i], from, whole, cuts);
        }

        cuts.Sort();
        var kept = 0;
        for (var i = 0; i < cuts.Count; i++)
            if (kept == 0 || (cuts[i] - cuts[kept - 1]) * whole.Size > Rim) cuts[kept++] = cuts[i];
        cuts.RemoveRange(kept, cuts.Count - kept);
    }

    private void CutTriangle(int triangle, Point2 from, Step whole, List<double> cuts)
    {
        for (var side = 0; side < 3; side++)
        {
            Point2 a = places[corners[3 * triangle + side]], b = places[corners[3 * triangle + (side + 1) % 3]];
            var edge = b - a;
            var cross = whole.Cross(edge);
            if (cross == 0) continue;
            var apart = a - from;
            double share = apart.Cross(edge) / cross, along = apart.Cross(whole) / cross;
            if (share is > 0 and < 1 && along is >= 0 and <= 1) cuts.Add(share);
        }
    }

    private bool Holds(int triangle, Point2 at)
    {
        Point2 a = places[corners[3 * triangle]], b = places[corners[3 * triangle + 1]], c = places[corners[3 * triangle + 2]];
        return (b - a).Cross(at - a) >= 0 && (c - b).Cross(at - b) >= 0 && (a - c).Cross(at - c) >= 0;
    }

    private double HeightOn(int triangle, Point2 at)
    {
        int ia = corners[3 * triangle], ib = corners[3 * triangle + 1], ic = corners[3 * triangle + 2];
        Step ab = places[ib] - places[ia], ac = places[ic] - places[ia], p = at - places[ia];
        var twice = ab.Cross(ac);
        return heights[ia] + (p.Cross(ac) * (heights[ib] - heights[ia]) + ab.Cross(p) * (heights[ic] - heights[ia])) / twice;
    }

    private int CellOf(Point2 at) =>
        Math.Clamp((int)((at.North - box.MinNorth) / cell), 0, rows - 1) * columns + Math.Clamp((int)((at.East - box.MinEast) / cell), 0, columns - 1);

    /// <summary>The cells that the box of a triangle touches and the triangle does not plainly miss.</summary>
    private void OverCells(int t, Action<Tin, int, int> take)
    {
        Point2 a = places[corners[3 * t]], b = places[corners[3 * t + 1]], c = places[corners[3 * t + 2]];
        var over = Box2.Of(a, b).Union(c);
        var (first, last) = (CellOf(new(over.MinEast, over.MinNorth)), CellOf(new(over.MaxEast, over.MaxNorth)));
        var (firstRow, firstColumn, lastRow, lastColumn) = (first / columns, first % columns, last / columns, last % columns);
        var few = (lastRow - firstRow + 1) * (long)(lastColumn - firstColumn + 1) <= 4;
        for (var row = firstRow; row <= lastRow; row++)
            for (var column = firstColumn; column <= lastColumn; column++)
                if (few || !Misses(a, b, c, row, column)) take(this, row * columns + column, t);
    }

    /// <summary>Whether a cell lies wholly outside one side of a triangle given anticlockwise.</summary>
    private bool Misses(Point2 a, Point2 b, Point2 c, int row, int column)
    {
        var low = new Point2(box.MinEast + column * cell, box.MinNorth + row * cell);
        return Outside(a, b, low) || Outside(b, c, low) || Outside(c, a, low);
    }

    private bool Outside(Point2 from, Point2 to, Point2 low)
    {
        var edge = to - from;
        // The corner of the cell that lies farthest to the left of the side; a hair wider, so that rounding leaves none out.
        var hair = 1e-6 * cell;
        var corner = new Point2(edge.North > 0 ? low.East - hair : low.East + cell + hair, edge.East > 0 ? low.North + cell + hair : low.North - hair);
        return edge.Cross(corner - from) < 0;
    }
}
