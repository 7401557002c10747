using System.Globalization;

namespace Aslaid.Tests;

public sealed class HorizontalCurveReferenceTests
{
    private const string Cases = "02_horizontal_curves.json";

    [Theory] // Worked solution sheet for a two-curve alignment, R = 18000/(πD); full address in the case
    [InlineData("two_curve_1")]
    [InlineData("two_curve_2")]
    public void Elements_TwoCurveAlignment_AreAsPublished(string id)
    {
        var c = Reference.Case(Cases, "simple", id);
        var published = c.GetProperty("published");
        var within = c.Number("tolerance");
        var radius = DegreeOfCurve.RadiusByArc(double.DegreesToRadians(c.Number("D_deg")), 100);
        var curve = new CurveElements(radius, Reference.Dms(c.GetProperty("delta").GetString()!));
        Assert.Equal(published.Number("R"), radius, within);
        Assert.Equal(published.Number("T"), curve.Tangent!.Value, within);
        Assert.Equal(published.Number("L"), curve.Length, within);
        Assert.Equal(double.DegreesToRadians(c.Number("D_deg")), DegreeOfCurve.OfArc(radius, 100), 1e-15);
    }

    [Fact] // same sheet: PC is one tangent before PI, PT one curve after PC; the next PC follows the short tangent between, taken as printed
    // (it does not follow from the printed 650.0 between PIs, on which both tangents do not fit)
    public void Elements_TwoCurveAlignment_ChainAsPublished()
    {
        var one = Reference.Case(Cases, "simple", "two_curve_1");
        var two = Reference.Case(Cases, "simple", "two_curve_2");
        var radius = DegreeOfCurve.RadiusByArc(double.DegreesToRadians(8), 100);
        var first = new CurveElements(radius, Reference.Dms(one.GetProperty("delta").GetString()!));
        var second = new CurveElements(radius, Reference.Dms(two.GetProperty("delta").GetString()!));
        JsonNumbers p = new(one.GetProperty("published")), q = new(two.GetProperty("published"));
        var pc = p.Station("sta_PI") - first.Tangent!.Value;
        var pt = pc + first.Length;
        Assert.Equal(p.Station("sta_PC"), pc, 0.01);
        Assert.Equal(p.Station("sta_PT"), pt, 0.01);
        Assert.Equal(q.Station("sta_PC"), pt + q["tangent_between_curves"], 0.01);
        Assert.Equal(q.Station("sta_PT"), pt + q["tangent_between_curves"] + second.Length, 0.01);
    }

    [Fact] // LandXML Curve element with all optional attributes, quoted in a public source comment
    public void Arc_LandXmlCurve_HasThePublishedElements()
    {
        var c = Reference.Case(Cases, "simple", "landxml_curve_attributes");
        JsonNumbers p = new(c.GetProperty("published"));
        var within = c.Number("tolerance");
        var sweep = double.DegreesToRadians(p["delta_deg"]);
        var curve = new CurveElements(p["radius"], sweep);
        Assert.Equal(p["length"], curve.Length, within);
        Assert.Equal(p["chord"], curve.LongChord, within);
        Assert.Equal(p["tangent"], curve.Tangent!.Value, within);
        Assert.Equal(p["external"], curve.External!.Value, within);
        Assert.Equal(p["midOrd"], curve.MidOrdinate, within);
        Assert.Equal(p["delta_deg"], p["dirEnd_deg"] - p["dirStart_deg"], within);

        // The same through the arc's own face, laid at the origin so that the tolerance can be held.
        double start = double.DegreesToRadians(p["dirStart_deg"]) - Math.PI / 2, r = p["radius"];
        var arc = Arc.FromParts(At(start), At(start + sweep), default, r, sweep, Turn.Left);
        Assert.Equal(p["length"], arc.PlanLength, within);
        Assert.Equal(p["chord"], arc.Chord, within);
        Assert.Equal(p["tangent"], arc.TangentLength!.Value, within);
        Assert.Equal(p["external"], arc.External!.Value, within);
        Assert.Equal(p["midOrd"], arc.Sagitta, within);
        Assert.Equal(p["dirStart_deg"], 90 - arc.BearingAt(0).Degrees, within); // the case's directions grow anticlockwise from east
        Assert.Equal(p["dirEnd_deg"], 90 - arc.BearingAt(arc.PlanLength).Degrees, within);

        Point2 At(double angle) => new(r * Math.Cos(angle), r * Math.Sin(angle));
    }

    [Fact] // US Army FM 5-430-00-1, appendix F
    public void RadiusByArc_OneDegree_IsAsPublished()
    {
        var c = Reference.Case(Cases, "simple", "degree_to_radius_arc_1deg");
        Assert.Equal(c.GetProperty("published").Number("R"), DegreeOfCurve.RadiusByArc(double.DegreesToRadians(1), 100), c.Number("tolerance"));
    }

    [Fact] // R = 50 / sin(D/2), civil PE exam review; numbers computed for the case
    public void RadiusByChord_TwoDegrees_GivesTheCasesElements()
    {
        var c = Reference.Case(Cases, "simple", "chord_definition_formula");
        JsonNumbers p = new(c.GetProperty("computed"));
        var within = c.Number("tolerance");
        var degree = double.DegreesToRadians(c.Number("D_deg"));
        var radius = DegreeOfCurve.RadiusByChord(degree, 100);
        var curve = new CurveElements(radius, Reference.Dms(c.GetProperty("delta").GetString()!));
        Assert.Equal(p["R"], radius, within);
        Assert.Equal(degree, DegreeOfCurve.OfChord(radius, 100), 1e-15);
        Assert.Equal(p["T"], curve.Tangent!.Value, within);
        Assert.Equal(p["L_by_100ft_chords"], curve.LengthByChords(100), within);
        Assert.Equal(p["L_true_arc"], curve.Length, within);
        Assert.Equal(p["LC"], curve.LongChord, within);
        Assert.Equal(p["E"], curve.External!.Value, within);
        Assert.Equal(p["M"], curve.MidOrdinate, within);
        var pc = Reference.Station(c.GetProperty("sta_PI").GetString()!) - curve.Tangent.Value;
        Assert.Equal(p["sta_PC_ft"], pc, within);
        Assert.Equal(p["sta_PT_ft"], pc + curve.LengthByChords(100), within);
    }

    [Fact] // solved exercise homeworksource.com/p/1004689: two curves bend the same way, their tangents form a triangle with the common one
    public void Elements_CompoundCurve_HaveThePublishedTangents()
    {
        var c = Reference.Case(Cases, "compound_reverse", "compound_600_400");
        JsonNumbers p = new(c.GetProperty("published")), own = new(c.GetProperty("recomputed"));
        double first = double.DegreesToRadians(c.Number("delta1_deg")), second = double.DegreesToRadians(c.Number("delta2_deg"));
        var t1 = new CurveElements(c.Number("R1"), first).Tangent!.Value;
        var t2 = new CurveElements(c.Number("R2"), second).Tangent!.Value;
        var across = (t1 + t2) / Math.Sin(first + second); // law of sines
        foreach (var (expected, actual, name) in new[] { (p["t1"], t1, "t1"), (p["t2"], t2, "t2"), (p["T_long_PC_to_PI"], t1 + across * Math.Sin(second), "T1"), (p["T_short_PI_to_PT"], t2 + across * Math.Sin(first), "T2") })
        {
            if (name.StartsWith('t')) Assert.Equal(expected, actual, 0.05); // printed to 248.5
            else Assert.Equal(expected, actual, c.Number("tolerance"));
            Assert.Equal(own[name], actual, 0.001);
        }
    }

    [Fact] // solved exercise sciemce.com/qa/uvtRIsiPZqJd: an S of two equal arcs between parallels shifts by 2R(1 − cos Δ)
    public void Arcs_ReverseCurve_JoinAsPublished()
    {
        var c = Reference.Case(Cases, "compound_reverse", "reverse_parallel_tangents_25");
        JsonNumbers p = new(c.GetProperty("published"));
        var within = c.Number("tolerance");
        var sweep = double.DegreesToRadians(c.Number("central_angle_each_deg"));
        var radius = c.Number("offset_between_tangents") / 2 / (1 - Math.Cos(sweep));
        Assert.Equal(p["R"], radius, within);
        var curve = new CurveElements(radius, sweep);
        Assert.Equal(p["L_each"], curve.Length, within);
        Assert.Equal(p.Station("sta_PT"), Reference.Station(c.GetProperty("sta_PC").GetString()!) + 2 * curve.Length, within);

        var middle = new Point2(radius * Math.Sin(sweep), radius * (1 - Math.Cos(sweep)));
        var left = Arc.FromParts(default, middle, new(0, radius), radius, sweep, Turn.Left);
        var right = Arc.FromParts(middle, middle + (middle - default(Point2)), new(2 * middle.East, 2 * middle.North - radius), radius, sweep, Turn.Right);
        Assert.Equal(left.BearingAt(left.PlanLength).Radians, right.BearingAt(0).Radians, 1e-12);
        Assert.Equal(left.BearingAt(0).Radians, right.BearingAt(right.PlanLength).Radians, 1e-12);
        Assert.Equal(c.Number("offset_between_tangents"), right.To.North, 1e-9);
    }

    [Theory] // buildingSMART IFC rail alignment reference set, CircularArc_100.0: start at the origin, heading east
    [InlineData("02_arc_points_R300_left.csv", Turn.Left)]
    [InlineData("02_arc_points_R300_right.csv", Turn.Right)]
    public void PointAt_PublishedArcPoints_AgreesEvery5Metres(string file, Turn turn)
    {
        const double radius = 300, length = 100;
        var rows = Reference.File(file).Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Skip(1)
            .Select(row => row.Split(',').Take(3).Select(x => double.Parse(x, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        Assert.True(rows.Length > 20);
        var places = rows.Select(r => new Point2(r[1], r[2])).ToArray();
        var arc = Arc.Through(places[0], places[places.Length / 2], places[^1], 1e-6);
        Assert.Equal(turn, arc.Turn);
        Assert.Equal(radius, arc.Radius, 1e-9);
        Assert.Equal(length, arc.PlanLength, 1e-9);
        foreach (var row in rows)
        {
            var place = new Point2(row[1], row[2]);
            Assert.InRange(arc.PointAt(row[0]).DistanceTo(place), 0, 1e-9);
            Assert.Equal(row[0], arc.Locate(place).Along, 1e-9);
        }
        Assert.True(ArcFitting.TryFree(places, 1e-6, out var fit, out _));
        Assert.Equal(radius, fit.Arc.Radius, 1e-8);
        Assert.Equal(turn, fit.Arc.Turn);
    }

    private readonly struct JsonNumbers(System.Text.Json.JsonElement element)
    {
        public double this[string name] => element.Number(name);

        public double Station(string name) => Reference.Station(element.GetProperty(name).GetString()!);
    }
}
