using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>
/// A surface of triangles. Faces marked invisible (<c>i="1"</c>) and faces whose middle lies in a void, or outside the outer boundary, are left
/// out. Breaklines are held against the triangles, which should have them as edges; where they have not, a remark says so.
/// </summary>
internal sealed class LandXmlSurface(LandXmlCursor xml, DesignGather into)
{
    /// <summary>Metres by which triangles may leave a breakline.</summary>
    private const double Keeps = 0.01;

    private const int MostFaces = 50_000_000;

    private readonly Points places = new();
    private readonly List<int> corners = [];
    private readonly List<(string Kind, Point2[] Ring)> boundaries = [];
    private readonly List<(Point2 At, double Height)[]> breaklines = [];

    public void Read()
    {
        var name = xml.Attribute("name");
        var grid = false;
        xml.Children(element =>
        {
            if (element == "SourceData") xml.Children(Source);
            else if (element == "Definition")
            {
                grid = xml.Attribute("surfType") == "grid";
                xml.Children(Definition);
            }
            else xml.Skip();
        });
        if (corners.Count == 0)
        {
            into.Skip($"surface {name}", grid ? "it is a grid, not triangles" : "it has no faces; a surface of points and breaklines alone must be triangulated by whoever designed it");
            return;
        }

        var (plan, heights) = places.ToArrays();
        Prune(plan);
        var triangles = corners.ToArray();
        corners.Clear();
        corners.TrimExcess();
        if (!Tin.TryOf(plan, heights, triangles, out var tin, out var fault)) into.Skip($"surface {name}", fault);
        else
        {
            Hold(name, tin);
            into.Surface(name, tin);
        }
    }

    private void Source(string element)
    {
        if (element == "Boundaries") xml.Children(boundary => List(boundary == "Boundary", (numbers, size, line, kind) => boundaries.Add((kind, Ring(numbers, size, line)))));
        else if (element == "Breaklines") xml.Children(breakline => List(breakline == "Breakline", (numbers, size, line, _) =>
        {
            if (size == 3) breaklines.Add([.. Enumerable.Range(0, numbers / 3).Select(i => (xml.PlaceOf(3 * i, 3, line).At, xml.PlaceOf(3 * i, 3, line).Height!.Value))]);
        }));
        else xml.Skip();
    }

    private void List(bool wanted, Action<int, int, int, string> take)
    {
        if (!wanted)
        {
            xml.Skip();
            return;
        }

        var kind = xml.Attribute("bndType") ?? "";
        xml.Children(list =>
        {
            if (list is not ("PntList2D" or "PntList3D"))
            {
                xml.Skip();
                return;
            }

            var (size, line) = (list == "PntList3D" ? 3 : 2, xml.Line);
            xml.ReadNumbers();
            if (xml.Numbers.Count % size != 0) throw new DesignRefusedException(line, null, $"the {list} does not hold places of {size} numbers each");
            take(xml.Numbers.Count, size, line, kind);
        });
    }

    private Point2[] Ring(int numbers, int size, int line) => [.. Enumerable.Range(0, numbers / size).Select(i => xml.PlaceOf(size * i, size, line).At)];

    private void Definition(string element)
    {
        if (element == "Pnts") xml.Children(Point);
        else if (element == "Faces") xml.Children(Face);
        else xml.Skip();
    }

    private void Point(string element)
    {
        if (element != "P")
        {
            xml.Skip();
            return;
        }

        var (id, line) = (xml.Attribute("id"), xml.Line);
        xml.ReadNumbers();
        if (xml.Numbers.Count < 3) throw new DesignRefusedException(line, id, "is a point of a surface without north, east and height");
        if (!int.TryParse(id, NumberStyles.None, CultureInfo.InvariantCulture, out var number)) throw new DesignRefusedException(line, id, "is no number; points of a surface are numbered");
        var (at, height) = xml.PlaceOf(0, 3, line);
        places.Add(number, at, height!.Value);
    }

    private void Face(string element)
    {
        var hidden = element != "F" || xml.Attribute("i") == "1";
        if (hidden)
        {
            xml.Skip();
            return;
        }

        var line = xml.Line;
        xml.ReadNumbers();
        if (xml.Numbers.Count < 3) throw new DesignRefusedException(line, null, "a face lacks a corner; the numbers of three points were expected");
        if (corners.Count >= 3 * MostFaces) throw new DesignRefusedException(line, null, $"the surface has more than {MostFaces} faces; one of a site was expected");
        for (var i = 0; i < 3; i++)
        {
            if (places.Find(xml.Numbers[i]) is not (>= 0 and var place)) throw new DesignRefusedException(line, xml.Numbers[i].ToString("R", CultureInfo.InvariantCulture), "is the number of no point of the surface");
            corners.Add(place);
        }
    }

    private void Prune(Point2[] plan)
    {
        var (outers, voids, islands) = (Of("outer"), Of("void"), Of("island"));
        if (voids.Count == 0 && outers.Count == 0) return;
        var kept = 0;
        for (var i = 0; i < corners.Count; i += 3)
        {
            Point2 a = plan[corners[i]], b = plan[corners[i + 1]], c = plan[corners[i + 2]];
            var middle = a + 1.0 / 3 * ((b - a) + (c - a));
            if (voids.Exists(ring => ring.Holds(middle)) && !islands.Exists(ring => ring.Holds(middle)) || outers.Count > 0 && !outers.Exists(ring => ring.Holds(middle))) continue;
            (corners[kept], corners[kept + 1], corners[kept + 2]) = (corners[i], corners[i + 1], corners[i + 2]);
            kept += 3;
        }

        corners.RemoveRange(kept, corners.Count - kept);

        List<RingOfPlaces> Of(string kind) => [.. boundaries.Where(boundary => boundary.Kind == kind && boundary.Ring.Length > 2).Select(boundary => new RingOfPlaces(boundary.Ring))];
    }

    private void Hold(string? name, Tin tin)
    {
        var (off, worst) = (0, 0.0);
        foreach (var line in breaklines)
        {
            for (var i = 0; i + 1 < line.Length; i++)
            {
                var middle = line[i].At + 0.5 * (line[i + 1].At - line[i].At);
                if (tin.HeightAt(middle) is not { } height) continue;
                var leaves = Math.Abs(height - (line[i].Height + line[i + 1].Height) / 2);
                if (leaves > Keeps) (off, worst) = (off + 1, Math.Max(worst, leaves));
            }
        }

        if (off > 0) into.Remark(string.Create(CultureInfo.InvariantCulture, $"Surface {name}: its triangles leave {off} stretches of its breaklines by up to {worst:0.000} m. Heights follow the triangles."));
    }

    /// <summary>Points by their number; a table is only made where the numbers do not run on.</summary>
    private sealed class Points
    {
        private readonly List<Point2> plan = [];
        private readonly List<double> heights = [];
        private Dictionary<int, int>? table;
        private int first;

        public void Add(int number, Point2 at, double height)
        {
            if (plan.Count == 0) first = number;
            if (table is null && number - (long)first != plan.Count) table = Enumerable.Range(0, plan.Count).ToDictionary(place => first + place);
            if (table is not null) table[number] = plan.Count;
            plan.Add(at);
            heights.Add(height);
        }

        public int Find(double number)
        {
            if (number != Math.Floor(number) || !(Math.Abs(number) < int.MaxValue)) return -1;
            if (table is not null) return table.GetValueOrDefault((int)number, -1);
            var place = (long)number - first;
            return place >= 0 && place < plan.Count ? (int)place : -1;
        }

        public (Point2[] Plan, double[] Heights) ToArrays() => ([.. plan], [.. heights]);
    }
}

/// <summary>A ring of straights, asked for many places.</summary>
internal sealed class RingOfPlaces
{
    private readonly Point2[] ring;
    private readonly Box2 box;
    private readonly double low;
    private readonly double band;
    private readonly List<int>[] bands; // sides by bands of north

    public RingOfPlaces(Point2[] ring)
    {
        this.ring = ring;
        box = Box2.Of(ring);
        bands = new List<int>[Math.Clamp(ring.Length / 2, 1, 10_000)];
        (low, band) = (box.MinNorth, Math.Max((box.MaxNorth - box.MinNorth) / bands.Length, 1e-9));
        for (var i = 0; i < bands.Length; i++) bands[i] = [];
        for (var i = 0; i < ring.Length; i++)
        {
            Point2 a = ring[i], b = ring[(i + 1) % ring.Length];
            for (var at = BandOf(Math.Min(a.North, b.North)); at <= BandOf(Math.Max(a.North, b.North)); at++) bands[at].Add(i);
        }
    }

    /// <summary>Whether a place lies inside: a ray to the east crosses an odd number of sides.</summary>
    public bool Holds(Point2 at)
    {
        if (!box.Contains(at)) return false;
        var inside = false;
        foreach (var i in bands[BandOf(at.North)])
        {
            Point2 a = ring[i], b = ring[(i + 1) % ring.Length];
            if (a.North > at.North != b.North > at.North && at.East < a.East + (at.North - a.North) / (b.North - a.North) * (b.East - a.East)) inside = !inside;
        }

        return inside;
    }

    private int BandOf(double north) => Math.Clamp((int)((north - low) / band), 0, bands.Length - 1);
}
