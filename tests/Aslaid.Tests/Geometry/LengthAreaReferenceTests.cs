namespace Aslaid.Tests;

public sealed class LengthAreaReferenceTests
{
    private const string Cases = "07_curve_length_area.json";

    public static TheoryData<string, string> Polygons => Reference.Cases(Cases, "polygon_area");

    public static TheoryData<string, string> LengthsAreas => Reference.Cases(Cases, "length_area");

    public static TheoryData<string, string> Segments => Reference.Cases(Cases, "segment_area");

    public static TheoryData<string, string> Distances => Reference.Cases(Cases, "distance");

    public static TheoryData<string, string> Crossings => Reference.Cases(Cases, "intersections");

    [Theory, MemberData(nameof(Polygons))]
    public void SignedArea_PublishedPolygon_GivesPublishedArea(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "polygon_area", id);
        var area = Reference.Path(c.GetProperty("wkt").GetString()!).SignedArea!.Value;
        if (c.Has("published_area", out var plain)) Assert.Equal(plain.GetDouble(), Math.Abs(area));
        else Assert.Equal(c.Number("published_signed_area_clockwise_positive"), -area);
    }

    [Theory, MemberData(nameof(LengthsAreas))]
    public void Path_PublishedCurve_GivesPublishedLengthAreaAndBox(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "length_area", id);
        var path = Reference.Path(c.GetProperty("wkt").GetString()!);
        foreach (var (numbers, within) in new[] { (c.GetProperty("published"), c.Number("tolerance")), (c.GetProperty("recomputed"), 1e-12) })
        {
            if (numbers.Has("length", out var length)) Assert.Equal(length.GetDouble(), path.PlanLength, within);
            if (numbers.Has("area", out var area)) Assert.Equal(area.GetDouble(), Math.Abs(path.SignedArea!.Value), within);
            if (!numbers.Has("bbox", out var box)) continue;
            Assert.Equal(box[0].GetDouble(), path.Box.MinEast, within);
            Assert.Equal(box[1].GetDouble(), path.Box.MinNorth, within);
            Assert.Equal(box[2].GetDouble(), path.Box.MaxEast, within);
            Assert.Equal(box[3].GetDouble(), path.Box.MaxNorth, within);
        }
    }

    [Theory, MemberData(nameof(Segments))]
    public void SegmentArea_PublishedArc_GivesPublishedArea(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "segment_area", id);
        var arc = Arc.Through(c.GetProperty("p0").Point(), c.GetProperty("p1").Point(), c.GetProperty("p2").Point(), 0);
        Assert.Equal(c.Number("published_segment_area"), Math.Abs(arc.SegmentArea), 1e-12);
    }

    [Theory, MemberData(nameof(Distances))]
    public void Nearest_PublishedCurves_GivesPublishedPlaces(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "distance", id);
        var within = c.Number("tolerance");
        var published = c.GetProperty("published");
        var a = Reference.Path(c.GetProperty("a").GetString()!);
        var b = c.GetProperty("b").GetString()!;
        PathNearness found;
        if (b.StartsWith("POINT", StringComparison.Ordinal))
        {
            var place = new Point2(3.5, -5);
            Assert.Equal("POINT (3.5 -5)", b);
            var locus = a.Locate(place);
            found = new(locus.Distance, locus.Foot, place, locus.Along, 0);
        }
        else found = a.Nearest(Reference.Path(b));
        Assert.Equal(published.Number("distance"), found.Distance, within);
        Assert.InRange(found.AtHere.DistanceTo(published.GetProperty("point_on_a").Point()), 0, within);
        if (published.Has("point_on_b", out var other)) Assert.InRange(found.AtThere.DistanceTo(other.Point()), 0, within);
    }

    [Theory, MemberData(nameof(Crossings))]
    public void Intersect_PublishedCurves_GivesPublishedPlaces(string id, string source)
    {
        Assert.NotEmpty(source);
        var c = Reference.Case(Cases, "intersections", id);
        Point2[] a = c.GetProperty("a").Points(), b = c.GetProperty("b").Points();
        var expected = c.GetProperty("points").Points();
        var arc = Arc.Through(a[0], a[1], a[2], 0);
        var at = new Point2[Meet.Most];
        var count = b.Length == 3 ? Meet.Intersect(arc, Arc.Through(b[0], b[1], b[2], 0), 1e-9, at) : Meet.Intersect(arc, new Straight(b[0], b[1]), 1e-9, at);
        Assert.Equal(expected.Length, count);
        foreach (var place in expected) Assert.Contains(at.Take(count), p => p.DistanceTo(place) < 1e-9);
    }

    [Fact] // GEOS unit tests geom/CircularStringTest.cpp: Z and M run linearly with the angle, separately on either side of the middle place
    public void HeightAt_PublishedStroke_RunsEvenlyWithTheAngle()
    {
        var c = Reference.Json(Cases).GetProperty("stroke");
        var within = c.Number("tolerance");
        var byZ = Reference.Path(c.GetProperty("wkt").GetString()!);
        var measures = new[] { 5.0, 8, 40 }; // the M of the same three places
        var byM = Path.Of([.. byZ.Vertices.Select((v, i) => v with { Height = measures[i] })], byZ.Pieces);
        foreach (var (vertex, name) in new[] { (1, "vertex_1"), (5, "vertex_5") })
        {
            var expected = c.GetProperty("published").GetProperty(name);
            var chainage = vertex * double.DegreesToRadians(c.Number("step_deg")) * byZ.Pieces[0].Arc.Radius;
            Assert.InRange(byZ.PointAt(chainage).DistanceTo(expected.Point()), 0, within);
            Assert.Equal(expected[2].GetDouble(), byZ.HeightAt(chainage)!.Value, within);
            Assert.Equal(expected[3].GetDouble(), byM.HeightAt(chainage)!.Value, within);
        }
    }

    [Fact] // J. Mahun, Open Access Surveying Library, COGO self study problem 2: points D and F; the rest against our recomputation, as the case's note asks
    public void SignedArea_LotOfTangentArcs_ClosesAsPublished()
    {
        var c = Reference.Json(Cases).GetProperty("composite_lot");
        var within = c.Number("tolerance");
        Point2 b = new(500, 1000), cc = Go(b, 137, 102, 32, 50);
        Point2 o1 = Go(cc, 200, 12, 32, 50), d = Go(o1, 200, 154, 2, 50);
        Point2 o2 = Go(d, 300, 154, 2, 50), e = Go(o2, 300, 4, 2, 50);
        Point2 o3 = Go(e, 30, 184, 2, 50), f = Go(o3, 30, 79, 2, 50);
        Point2 o4 = Go(f, 400, 259, 2, 50), g = Go(o4, 400, 94, 2, 50);
        Point2 a = Go(b, 273.84, 176, 58, 0);
        var at = new Point2[Meet.Most];
        Assert.Equal(1, Meet.Intersect(new Straight(a, Go(a, 1000, 95, 50, 25)), new Straight(g, Go(g, 1000, 184, 2, 50)), 1e-9, at));
        var h = at[0];

        var published = c.GetProperty("published");
        Near(published.GetProperty("D"), d);
        Near(published.GetProperty("F"), f);
        var recomputed = c.GetProperty("recomputed");
        foreach (var (name, place) in new[] { ("C", cc), ("D", d), ("E", e), ("F", f), ("G", g), ("A", a), ("H", h) }) Near(recomputed.GetProperty(name), place);

        Arc cd = Between(cc, o1, d), de = Between(d, o2, e), ef = Between(e, o3, f), fg = Between(f, o4, g);
        var segments = recomputed.GetProperty("segments");
        // The lot runs clockwise, so an outward bulge turns right.
        Assert.Equal(segments.Number("CD_inside"), -cd.SegmentArea, within);
        Assert.Equal(segments.Number("DE"), -de.SegmentArea, within);
        Assert.Equal(segments.Number("EF"), -ef.SegmentArea, within);
        Assert.Equal(segments.Number("FG"), -fg.SegmentArea, within);
        Point2[] ring = [b, cc, cd.MidPoint, d, de.MidPoint, e, ef.MidPoint, f, fg.MidPoint, g, h, a, b];
        var path = Path.Of([.. ring.Select((p, i) => new PathVertex(p, null, i is 2 or 4 or 6 or 8))],
        [
            new(PieceKind.Straight, 0, 1, default), new(PieceKind.Arc, 1, 3, cd), new(PieceKind.Arc, 3, 5, de), new(PieceKind.Arc, 5, 7, ef),
            new(PieceKind.Arc, 7, 9, fg), new(PieceKind.Straight, 9, 10, default), new(PieceKind.Straight, 10, 11, default), new(PieceKind.Straight, 11, 12, default),
        ]);
        Assert.Equal(recomputed.Number("area_sqft"), -path.SignedArea!.Value, within);

        void Near(System.Text.Json.JsonElement northEast, Point2 place)
        {
            Assert.Equal(northEast[0].GetDouble(), place.North, within);
            Assert.Equal(northEast[1].GetDouble(), place.East, within);
        }

        static Point2 Go(Point2 from, double distance, int degrees, int minutes, int seconds) =>
            from + distance * Bearing.FromDegrees(degrees + minutes / 60.0 + seconds / 3600.0).Unit;

        static Arc Between(Point2 from, Point2 centre, Point2 to)
        {
            var outward = 0.5 * (from - centre) + 0.5 * (to - centre);
            return Arc.Through(from, centre + from.DistanceTo(centre) / outward.Size * outward, to, 0);
        }
    }
}
