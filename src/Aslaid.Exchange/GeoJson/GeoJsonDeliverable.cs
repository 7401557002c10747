using System.Globalization;
using System.Text.Json;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// Runs, points and findings as GeoJSON: <c>record.site.geojson</c> in site coordinates, metres, and, where the settings name a
/// coordinate system from which WGS 84 is reached, <c>record.geojson</c> in longitude and latitude (RFC 7946).
/// </summary>
/// <remarks>
/// The format knows no arcs: chords leave them by no more than <see cref="Sagitta"/>, and the true pieces stand in each run's
/// properties, in site coordinates. A closed run of an area code is a polygon, its ring anticlockwise. Heights are as measured;
/// they stand beside the positions in <c>height_m</c>, null where unknown. What is said of the file stands in its member <c>aslaid</c>.
/// A site across the meridian of 180° is not cut there.
/// </remarks>
public sealed class GeoJsonDeliverable : IDeliverable
{
    /// <inheritdoc/>
    public string Name => "geojson";

    /// <inheritdoc/>
    public string What => "runs, points and findings for web maps; arcs chorded; WGS 84 where the coordinate system is set";

    /// <summary>How far a chord may leave its arc, metres, above 0.</summary>
    public double Sagitta { get; init; } = 0.005;

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        var system = handover.Record.Inputs.Settings.CoordinateSystem;
        var grid = default(GridToGeographic);
        var why = "no coordinate system is set";
        if (system is not null && GridToGeographic.TryFor(system, out grid, out why) && !grid.ReachesWgs84) why = $"{grid.Name} gives no shift to WGS 84";
        var geographic = grid is { ReachesWgs84: true };
        Write(handover, folder.PathOf("record.site.geojson", "runs, points and findings in site coordinates, metres, arcs chorded; GeoJSON"), new(null),
            geographic ? "record.geojson has the same in longitude and latitude" : $"no file in longitude and latitude: {why}");
        if (geographic)
        {
            Write(handover, folder.PathOf("record.geojson", "runs, points and findings in longitude and latitude (WGS 84), for web maps, arcs chorded; GeoJSON"), new(grid), "longitude and latitude from " + grid!.Name
                + "; a datum like ETRS89 is taken as WGS 84, from which plate motion parts it by up to a metre or two");
        }
    }

    private void Write(Handover handover, string path, GeoJsonFrame frame, string about)
    {
        var record = handover.Record;
        var facts = new ShotFacts(record);
        var runProperties = new RunProperties(record, facts);
        using var file = new FeatureFile(path);
        file.Member("aslaid", json => About(json, handover, frame, about));
        if (frame.Grid is null) file.Member("crs", json => SiteSystem(json, record.Inputs.Settings.CoordinateSystem));
        var box = BoxOf(record);
        if (!box.IsEmpty) file.Member("bbox", json => frame.Box(json, box));
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            var points = run.PieceCount == 0 ? [] : run.Path.Chords(Sagitta).AsSpan().ToArray();
            if (points.Length >= 2) file.Feature(json => Line(json, frame, record, run, points), json => runProperties.Write(json, run, Oriented(run, points)));
        }

        foreach (var line in DerivedLines.Of(record))
        {
            var points = line.Path.Chords(Sagitta).AsSpan().ToArray();
            file.Feature(json => Derived(json, frame, points), json => DerivedProperties(json, record, line));
        }

        foreach (var row in record.Points)
            file.Feature(json => Point(json, frame, record.Shots.At(row), record.Shots.HeightOf(row)), json => PointProperties(json, record, row, facts));
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            file.Feature(json => Point(json, frame, finding.At, finding.AtHeight), json => FindingProperties.Write(json, record, finding));
        }
    }

    private void About(Utf8JsonWriter json, Handover handover, GeoJsonFrame frame, string about)
    {
        json.WriteStartObject();
        json.WriteString("project", handover.Project);
        json.WriteString("stamp", handover.Stamp);
        json.WriteString("coordinates", frame.Grid is null ? "site grid: east, north, height; metres" : "WGS 84: longitude, latitude; degrees");
        json.WriteString("about", about);
        json.WriteString("heights", "metres, as measured, above the datum of the site");
        json.WritePropertyName("chord_sagitta_m");
        json.WriteRawValue(Sagitta.ToString("0.0########", CultureInfo.InvariantCulture));
        json.WriteStartArray("cautions");
        foreach (var caution in Cautions.All) json.WriteStringValue(caution);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Without this member, which RFC 7946 gave up, readers take metres for degrees (GeoJSON of 2008, section 3.1).</summary>
    private static void SiteSystem(Utf8JsonWriter json, string? system)
    {
        const string bare = "LOCAL_CS[\"Site grid\",UNIT[\"metre\",1]]";
        var name = system is null || !GridToGeographic.TryFor(system, out _, out _) ? bare
            : system.StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase) ? "urn:ogc:def:crs:EPSG::" + system[5..].Trim()
            : system;
        json.WriteStartObject();
        json.WriteString("type", "name");
        json.WriteStartObject("properties");
        json.WriteString("name", name);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static Box2 BoxOf(AsBuiltRecord record)
    {
        var box = Box2.Empty;
        for (var number = 0; number < record.Runs.Count; number++)
            if (record.Runs[number].PieceCount > 0) box = box.Union(record.Runs[number].Box);
        foreach (var row in record.Points) box = box.Union(record.Shots.At(row));
        for (var number = 0; number < record.Findings.Count; number++) box = box.Union(record.Findings[number].At);
        return box;
    }

    private static bool IsArea(Run run, PathPoint[] points) =>
        run.Entry?.Kind == CodeKind.Area && points.Length >= 4 && points[0].At == points[^1].At;

    /// <summary>The points in the order in which they are written: the ring of an area anticlockwise (RFC 7946, 3.1.6).</summary>
    private static PathPoint[] Oriented(Run run, PathPoint[] points) =>
        IsArea(run, points) && TwiceArea(points) < 0 ? [.. points.Reverse()] : points;

    private static double TwiceArea(PathPoint[] ring)
    {
        var twice = 0.0;
        for (var i = 1; i < ring.Length; i++) twice += (ring[i - 1].At - ring[0].At).Cross(ring[i].At - ring[0].At);
        return twice;
    }

    private void Line(Utf8JsonWriter json, GeoJsonFrame frame, AsBuiltRecord record, Run run, PathPoint[] points)
    {
        var area = IsArea(run, points);
        var high = points.All(point => point.Height is not null) && (!area || record.Site.Holes.Of(run.Number).All(hole => record.Runs[hole].SlopeLength is not null)); // positions of one geometry have one dimension
        json.WriteStartObject();
        json.WriteString("type", area ? "Polygon" : "LineString");
        json.WriteStartArray("coordinates");
        if (area) json.WriteStartArray();
        foreach (var point in Oriented(run, points)) frame.Position(json, point.At, high ? point.Height : null);
        if (area) json.WriteEndArray();
        foreach (var hole in area ? record.Site.Holes.Of(run.Number) : [])
        {
            json.WriteStartArray();
            var ring = record.Runs[hole].Path.Chords(Sagitta).AsSpan().ToArray();
            foreach (var point in TwiceArea(ring) > 0 ? ring.Reverse() : ring) frame.Position(json, point.At, high ? point.Height : null); // a hole turns clockwise
            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>A line that nobody shot.</summary>
    private static void Derived(Utf8JsonWriter json, GeoJsonFrame frame, PathPoint[] points)
    {
        var high = points.All(point => point.Height is not null);
        json.WriteStartObject();
        json.WriteString("type", "LineString");
        json.WriteStartArray("coordinates");
        foreach (var point in points) frame.Position(json, point.At, high ? point.Height : null);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void DerivedProperties(Utf8JsonWriter json, AsBuiltRecord record, DerivedLine line)
    {
        json.WriteStartObject();
        json.WriteString("what", "derived");
        json.WriteString("derived", line.Key(record.Runs));
        json.WriteString("of", record.Runs[line.Of].Key);
        json.WriteString("part", line.Part.Part);
        json.WriteString("code", line.Part.PartCode);
        json.WriteString("layer", record.Inputs.Delivery.LayerOf(line.Part.PartCode));
        json.Fixed("right_m", line.Part.Right, Fixed.Coordinate);
        json.Fixed("up_m", line.Part.Up, Fixed.Coordinate);
        json.Fixed("plan_length_m", line.PlanLength, Fixed.Coordinate);
        json.WriteBoolean("counted", false);
        json.WriteEndObject();
    }

    private static void Point(Utf8JsonWriter json, GeoJsonFrame frame, Point2 at, double? height)
    {
        json.WriteStartObject();
        json.WriteString("type", "Point");
        json.WritePropertyName("coordinates");
        frame.Position(json, at, height);
        json.WriteEndObject();
    }

    private static void PointProperties(Utf8JsonWriter json, AsBuiltRecord record, int row, ShotFacts facts)
    {
        json.WriteStartObject();
        json.WriteString("what", "point");
        json.WriteString("code", record.Shots.CodeOf(row));
        json.WriteString("name", record.Shots.Entry(row)?.Name);
        ShotProperties.Write(json, record, row, facts);
        json.WriteEndObject();
    }
}
