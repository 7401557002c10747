using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>Lines, curves and spirals of one <c>CoordGeom</c>, as one path or, where they do not join, as several.</summary>
internal sealed class LandXmlLines(LandXmlCursor xml, LandXmlPoints points)
{
    /// <summary>Metres within which pieces that should join do, and radii agree: files round to the millimetre, some to the centimetre.</summary>
    private const double Joins = 0.02;

    /// <summary>Metres by which arcs leave a spiral: a hundredth of a millimetre.</summary>
    public const double SpiralWithin = 1e-5;

    private const double Flat = 1e-7; // m: what leaves its chord by less is a straight

    private readonly List<(Path Path, ImmutableArray<double> Joints)> paths = [];
    private readonly List<int> ends = []; // pieces of the chain by which an element ended
    private bool spiral;
    private PathChain chain = new();
    private string? fault;

    public void Read()
    {
        xml.Children(name =>
        {
            switch (name)
            {
                case "Line": Line(); break;
                case "Curve": Curve(); break;
                case "Spiral": Spiral(); break;
                case "IrregularLine": Irregular(); break;
                default:
                    if (name != "Feature") fault ??= $"it has a {name}, which is neither line, curve nor spiral";
                    xml.Skip();
                    break;
            }

            ends.Add(chain.Count);
        });
        End();
    }

    /// <summary>Hands over what was read; a line with something that cannot be followed is passed over whole.</summary>
    public void Give(DesignGather into, string kind, string? name, IEnumerable<string?> words, Profile? profile, Stationing stationing, bool existing)
    {
        if (fault is not null) into.Skip($"{kind} {name}", fault);
        else if (paths.Count == 0) into.Skip($"{kind} {name}", "it has no piece with a length");
        else if (paths.Count == 1) into.Line(name, words, paths[0].Path, profile, stationing, existing, paths[0].Joints);
        else
        {
            into.Remark(string.Create(CultureInfo.InvariantCulture, $"{kind} {name} has {paths.Count - 1} gaps of more than {Joins} m: each part is a line of its own{(profile is null ? "" : ", without the profile")}."));
            foreach (var (path, joints) in paths) into.Line(name, words, path, existing: existing, joints: joints);
        }
    }

    private (Point2 At, double? Height)? Place() => xml.Attribute("pntRef") is { } name && points.Find(name) is { } known ? Skipped(known) : xml.ReadPlace();

    private (Point2 At, double? Height) Skipped((Point2 At, double? Height) known)
    {
        xml.Skip();
        return known;
    }

    private void Line()
    {
        (Point2 At, double? Height)? from = null, to = null;
        xml.Children(name =>
        {
            if (name == "Start") from = Place();
            else if (name == "End") to = Place();
            else xml.Skip();
        });
        if (from is not { } start || to is not { } end)
        {
            fault ??= "a line of it lacks its start or its end";
            return;
        }

        Join(start);
        chain.LineTo(end.At, end.Height);
    }

    private void Irregular()
    {
        var any = false;
        xml.Children(name =>
        {
            if (name is not ("PntList2D" or "PntList3D"))
            {
                xml.Skip();
                return;
            }

            var (size, line) = (name == "PntList3D" ? 3 : 2, xml.Line);
            xml.ReadNumbers();
            if (xml.Numbers.Count % size != 0 || xml.Numbers.Count < 2 * size) throw new DesignRefusedException(line, null, $"the {name} does not hold two or more places of {size} numbers each");
            any = true;
            for (var i = 0; i < xml.Numbers.Count; i += size)
            {
                var place = xml.PlaceOf(i, size, line);
                if (i == 0) Join(place);
                else chain.LineTo(place.At, place.Height);
            }
        });
        if (!any) fault ??= "an irregular line of it has no list of places";
    }

    private void Curve()
    {
        var (rot, kind, radius, length, delta) = (xml.Attribute("rot"), xml.Attribute("crvType"), xml.Metres("radius"), xml.Metres("length"), xml.Number("delta"));
        (Point2 At, double? Height)? from = null, to = null, centre = null;
        xml.Children(name =>
        {
            switch (name)
            {
                case "Start": from = Place(); break;
                case "End": to = Place(); break;
                case "Center": centre = Place(); break;
                default: xml.Skip(); break;
            }
        });
        if (from is not { } start || to is not { } end) fault ??= "a curve of it lacks its start or its end";
        else if (rot is not ("cw" or "ccw")) fault ??= "a curve of it does not say which way it turns";
        else if (kind is not (null or "arc")) fault ??= $"a curve of it is of type {kind}, not an arc";
        else
        {
            Join(start);
            var (a, turn) = (chain.End, rot == "ccw" ? Turn.Left : Turn.Right);
            if (a == end.At && centre is { } middle && middle.At.DistanceTo(a) is > 0 and var whole) chain.ArcTo(Arc.FromParts(a, a, middle.At, whole, double.Tau, turn), end.Height);
            else if (a == end.At) fault ??= "a curve of it ends where it starts and has no centre";
            else if (ArcOf(a, end.At, centre?.At, turn, radius, length, delta) is { } arc) chain.ArcTo(arc, end.Height);
            else
            {
                fault ??= string.Create(CultureInfo.InvariantCulture,
                    $"radius and places of the curve from {a} to {end.At} disagree: radius {radius:0.000} m, chord {a.DistanceTo(end.At):0.000} m{(centre is { } c ? $", from its centre {c.At.DistanceTo(a):0.000} and {c.At.DistanceTo(end.At):0.000} m" : "")}");
            }
        }
    }

    /// <summary>By its centre where that agrees with its ends and its radius, else by radius and ends.</summary>
    private static Arc? ArcOf(Point2 from, Point2 to, Point2? centre, Turn turn, double? radius, double? length, double? delta)
    {
        if (centre is { } about && (radius is null || Math.Abs(about.DistanceTo(from) - radius.Value) <= Joins && Math.Abs(about.DistanceTo(to) - radius.Value) <= Joins)
            && Arc.TryAbout(from, to, about, turn, Joins, out var arc)) return arc;
        if (radius is not > 0 || centre is not null) return null;
        var half = from.DistanceTo(to) / 2 / radius.Value;
        if (half > 1 + Joins / radius.Value) return null;
        var sweep = 2 * Math.Asin(Math.Min(1, half));
        if (length > Math.PI * radius || length is null && delta > 180) sweep = double.Tau - sweep;
        return sweep > 0 ? Arc.OfSweep(from, to, sweep, turn) : null;
    }

    private void Spiral()
    {
        var (kind, rot, length, first, last) = (xml.Attribute("spiType"), xml.Attribute("rot"), xml.Metres("length"), xml.Metres("radiusStart"), xml.Metres("radiusEnd"));
        (Point2 At, double? Height)? from = null, to = null, meeting = null;
        xml.Children(name =>
        {
            switch (name)
            {
                case "Start": from = Place(); break;
                case "End": to = Place(); break;
                case "PI": meeting = Place(); break;
                default: xml.Skip(); break;
            }
        });
        if (kind is not (null or "clothoid")) fault ??= $"a spiral of it is of type {kind}; only clothoids are followed";
        else if (from is not { } start || to is not { } end || meeting is not { } pi || length is not > 0 || rot is not ("cw" or "ccw")) fault ??= "a spiral of it lacks its start, its end, its PI, its length or its sense";
        else
        {
            Join(start);
            var sense = rot == "ccw" ? 1 : -1;
            var (k1, k2) = (first is > 0 ? sense / first.Value : 0, last is > 0 ? sense / last.Value : 0);
            // The longer of both tangents tells its direction better.
            var bearing = Bearing.Of(chain.End, pi.At);
            var clothoid = new Clothoid(chain.End, bearing, k1, k2, length.Value);
            var miss = clothoid.To.DistanceTo(end.At);
            if (pi.At.DistanceTo(end.At) > pi.At.DistanceTo(chain.End) && chain.End != end.At)
            {
                var whole = clothoid.To - clothoid.From;
                var turned = Bearing.Of(whole).To(Bearing.Of(chain.End, end.At)); // the chord is longer than either tangent
                var other = new Clothoid(chain.End, Bearing.FromRadians(bearing.Radians + turned), k1, k2, length.Value);
                if (Math.Abs(turned) < 1e-3 && other.To.DistanceTo(end.At) < miss) (clothoid, miss) = (other, other.To.DistanceTo(end.At));
            }

            if (miss > Joins) fault ??= string.Create(CultureInfo.InvariantCulture, $"the spiral from {chain.End} of length {length:0.000} m comes out {miss:0.000} m from the end it states");
            else Follow(clothoid, end);
        }
    }

    private void Follow(Clothoid clothoid, (Point2 At, double? Height) end)
    {
        if (clothoid.Length * Math.Max(Math.Abs(clothoid.CurvatureFrom), Math.Abs(clothoid.CurvatureTo)) > 100)
        {
            fault ??= "a spiral of it turns round and round; length and radius were expected to fit a line that is built";
            return;
        }

        spiral = true;
        var stations = clothoid.StationsWithin(SpiralWithin);
        for (var i = 2; i < stations.Length; i += 2)
        {
            var (middle, to) = (clothoid.PointAt(stations[i - 1]), i == stations.Length - 1 ? end.At : clothoid.PointAt(stations[i]));
            if (Arc.TryThrough(chain.End, middle, to, Flat, out var arc, out _)) chain.ArcTo(arc, i == stations.Length - 1 ? end.Height : null);
            else chain.LineTo(to, i == stations.Length - 1 ? end.Height : null);
        }
    }

    private void Join((Point2 At, double? Height) start)
    {
        if (chain.IsStarted && chain.End.DistanceTo(start.At) <= Joins) return;
        End();
        chain.Start(start.At, start.Height);
    }

    private void End()
    {
        if (chain.IsStarted && chain.Build() is { } path)
            paths.Add((path, spiral ? [.. ends.Distinct().Where(end => end > 0 && end < path.Pieces.Length).Select(path.StartOf)] : []));
        chain = new();
        ends.Clear();
        spiral = false;
    }
}
