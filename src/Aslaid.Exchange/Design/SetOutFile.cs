using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Places to set out, for the instrument and for people. Site grid, metres.</summary>
public static class SetOutFile
{
    /// <summary>As CSV: id, east, north, height and code as the instrument wants them, then station, offset and what is there.</summary>
    public static byte[] Csv(IReadOnlyList<SetOutPoint> points, string? code, double offset) => Exchange.Csv.Write(
    [
        ["id", "east", "north", "height", "code", "station_m", "offset_m", "what"],
        .. points.Select(point => (IReadOnlyList<string?>)
        [
            point.Id, Fixed.Text(point.At.East, Fixed.Coordinate), Fixed.Text(point.At.North, Fixed.Coordinate), point.Height is { } height ? Fixed.Text(height, Fixed.Coordinate) : null, code,
            Fixed.Text(point.Station, 3), Fixed.Text(offset, 3), point.What,
        ]),
    ]);

    /// <summary>As points of LandXML 1.2, metres.</summary>
    public static void LandXml(string path, IReadOnlyList<SetOutPoint> points, string name, string? code, double offset, DateTimeOffset now)
    {
        using var xml = new LandXmlWriter(path);
        xml.Start("LandXML", ("version", "1.2"), ("language", "English"), ("readOnly", "true"), ("date", now.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), ("time", now.ToString("HH:mm:sszzz", CultureInfo.InvariantCulture)));
        xml.Start("Units");
        xml.Empty("Metric", ("areaUnit", "squareMeter"), ("linearUnit", "meter"), ("volumeUnit", "cubicMeter"), ("temperatureUnit", "celsius"), ("pressureUnit", "milliBars"), ("angularUnit", "decimal degrees"), ("directionUnit", "decimal degrees"));
        xml.End();
        xml.Empty("Application", ("name", "Aslaid"));
        xml.Start("CgPoints", ("name", name), ("desc", FormattableString.Invariant($"to set out, offset {offset:0.000} m right positive")), ("state", "proposed"));
        foreach (var point in points) xml.Place("CgPoint", point.At, point.Height, ("name", point.Id), ("desc", FormattableString.Invariant($"station {point.Station:0.000} {point.What}")), ("code", code));
        xml.End();
        xml.End();
    }
}

/// <summary>A long section as CSV. Site grid, metres; falls in per cent.</summary>
public static class LongSectionFile
{
    /// <summary>One place a row.</summary>
    public static byte[] Csv(AsBuiltRecord record, IReadOnlyList<SectionRow> rows) => Exchange.Csv.Write(
    [
        ["chainage_m", "shot", "east_m", "north_m", "surface", "surface_height_m", "top_m", "cover_m", "built_m", "design", "station_m", "designed_m", "offset_m", "fall_pct", "u_fall_pct"],
        .. rows.Select(row => (IReadOnlyList<string?>)
        [
            Metres(row.Chainage), row.Shot is { } shot ? record.Shots.Raw.Id(shot) : null, Metres(row.At.East), Metres(row.At.North), row.SurfaceName, Metres(row.Surface), Metres(row.Top), Metres(row.Cover), Metres(row.Built),
            row.Design, Metres(row.Station), Metres(row.Designed), Metres(row.Offset), Metres(100 * row.Fall), Metres(100 * row.UFall),
        ]),
    ]);

    private static string? Metres(double? value) => value is { } known ? Fixed.Text(known, Fixed.Coordinate) : null;
}
