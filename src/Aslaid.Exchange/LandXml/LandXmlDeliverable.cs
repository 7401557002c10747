using System.Globalization;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// The record as LandXML 1.2, <c>record.xml</c>: every shot that counts as a point, every run as a plan feature of lines and true
/// curves. Site grid, metres; angles in decimal degrees.
/// </summary>
/// <remarks>
/// A point is named by batch and line (<c>1:14</c>), since ids repeat, and carries its id as <c>desc</c>. A full circle is two
/// curves. Per-vertex accuracy, method and time stand as properties of the features <c>aslaid-shot</c> and <c>aslaid-run</c>.
/// Positions to 1 nm, so that a curve's centre is as far from its ends as its radius says.
/// </remarks>
public sealed class LandXmlDeliverable : IDeliverable
{
    /// <inheritdoc/>
    public string Name => "landxml";

    /// <inheritdoc/>
    public string What => "points and runs with true curves, LandXML 1.2, site grid, metres";

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        var record = handover.Record;
        var facts = new ShotFacts(record);
        using var xml = new LandXmlWriter(folder.PathOf("record.xml"));
        foreach (var caution in Cautions.All) xml.Comment(caution);
        xml.Start("LandXML", ("version", "1.2"), ("language", "English"), ("readOnly", "true"),
            ("date", handover.MadeAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
            ("time", handover.MadeAt.ToString("HH:mm:sszzz", CultureInfo.InvariantCulture)));
        xml.Start("Units");
        xml.Empty("Metric", ("areaUnit", "squareMeter"), ("linearUnit", "meter"), ("volumeUnit", "cubicMeter"), ("temperatureUnit", "celsius"),
            ("pressureUnit", "milliBars"), ("angularUnit", "decimal degrees"), ("directionUnit", "decimal degrees"));
        xml.End();
        if (record.Inputs.Settings.CoordinateSystem is { } system) CoordinateSystem(xml, system);
        xml.Empty("Project", ("name", handover.Project), ("desc", $"as-built record, {handover.Stamp}"));
        xml.Empty("Application", ("name", "Aslaid"), ("desc", $"prepared by {handover.PreparedBy}"));
        Points(xml, record, facts);
        Runs(xml, record);
        xml.End();
    }

    private static void CoordinateSystem(LandXmlWriter xml, string system)
    {
        var isCode = system.StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase);
        xml.Empty("CoordinateSystem", ("name", GridToGeographic.TryFor(system, out var grid, out _) ? grid.Name : "site"),
            ("epsgCode", isCode ? system[5..] : null), ("ogcWktCode", isCode ? null : system));
    }

    private static void Points(LandXmlWriter xml, AsBuiltRecord record, ShotFacts facts)
    {
        var shots = record.Shots;
        var any = false;
        for (var row = 0; row < shots.Count; row++)
        {
            if (!shots.IsPlace(row) || !shots.Used[row]) continue;
            if (!any) xml.Start("CgPoints", ("name", "shots"), ("state", "existing"));
            any = true;
            xml.Place("CgPoint", shots.At(row), shots.HeightOf(row), ("name", shots.Raw.Key(row).ToString()), ("desc", shots.Raw.Id(row)), ("code", shots.CodeOf(row)));
        }

        if (!any) return;
        for (var row = 0; row < shots.Count; row++)
        {
            if (!shots.IsPlace(row) || !shots.Used[row]) continue;
            xml.Start("Feature", ("code", "aslaid-shot"));
            Property(xml, "point", shots.Raw.Key(row).ToString());
            Property(xml, "accuracy", facts.Accuracy(row));
            Property(xml, "u_plan_m", facts.UPlan(row), Fixed.Coordinate);
            Property(xml, "u_height_m", facts.UHeight(row), Fixed.Coordinate);
            Property(xml, "method", facts.Method(row));
            Property(xml, "time", facts.Time(row));
            Property(xml, "crew", shots.Raw.Crew(row));
            xml.End();
        }

        xml.End();
    }

    private static void Runs(LandXmlWriter xml, AsBuiltRecord record)
    {
        var any = false;
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (run.PieceCount == 0) continue;
            var path = run.Path;
            var chain = PlanSegments.Of(path);
            if (chain.Count == 0) continue;
            if (!any) xml.Start("PlanFeatures", ("name", "runs"));
            any = true;
            xml.Start("PlanFeature", ("name", run.Key), ("desc", run.Code), ("state", "existing"));
            Geometry(xml, path, chain);
            xml.Start("Feature", ("code", "aslaid-run"));
            Property(xml, "label", run.Label);
            Property(xml, "plan_length_m", run.PlanLength, Fixed.Coordinate);
            Property(xml, "u_plan_length_m", run.UPlanLength, Fixed.Coordinate);
            Property(xml, "slope_length_m", run.SlopeLength, Fixed.Coordinate);
            Property(xml, "u_slope_length_m", run.USlopeLength, Fixed.Coordinate);
            Property(xml, "area_m2", run.Area, Fixed.Area);
            Property(xml, "u_area_m2", run.UArea, Fixed.Area);
            Property(xml, "shots", Keys(record, run));
            xml.End();
            xml.End();
        }

        if (any) xml.End();
    }

    private static void Geometry(LandXmlWriter xml, Path path, IReadOnlyList<PlanSegment> chain)
    {
        var along = 0.0;
        xml.Start("CoordGeom");
        foreach (var segment in chain)
        {
            var (from, length) = (along, segment.Arc?.PlanLength ?? segment.From.DistanceTo(segment.To));
            along += length;
            if (segment.Arc is not { } arc)
            {
                xml.Start("Line", ("length", LandXmlWriter.Metres(length)));
                xml.Place("Start", segment.From, path.HeightAt(from));
                xml.Place("End", segment.To, path.HeightAt(along));
            }
            else
            {
                xml.Start("Curve", ("rot", arc.Turn == Turn.Left ? "ccw" : "cw"), ("crvType", "arc"), ("radius", LandXmlWriter.Metres(arc.Radius)),
                    ("delta", Fixed.Text(double.RadiansToDegrees(arc.Sweep), 9)), ("length", LandXmlWriter.Metres(length)), ("chord", LandXmlWriter.Metres(arc.Chord)));
                xml.Place("Start", arc.From, path.HeightAt(from));
                xml.Place("Center", arc.Centre, null);
                xml.Place("End", arc.To, path.HeightAt(along));
            }

            xml.End();
        }

        xml.End();
    }

    private static string Keys(AsBuiltRecord record, Run run)
    {
        var keys = new string[run.MemberCount];
        for (var member = 0; member < keys.Length; member++) keys[member] = (run.Through[member] ? "~" : "") + record.Shots.Raw.Key(run.Members[member]);
        return string.Join(' ', keys);
    }

    private static void Property(LandXmlWriter xml, string label, double? value, int decimals)
    {
        if (value is { } known) Property(xml, label, Fixed.Text(known, decimals));
    }

    private static void Property(LandXmlWriter xml, string label, string? value)
    {
        if (!string.IsNullOrEmpty(value)) xml.Empty("Property", ("label", label), ("value", value));
    }
}
