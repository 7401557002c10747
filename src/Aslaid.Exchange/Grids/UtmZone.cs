using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>UTM zones by their EPSG codes, written out as WKT 1 (OGC 01-009).</summary>
internal static class UtmZone
{
    private const string Wgs84 = "GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]]";
    private const string Etrs89 = "GEOGCS[\"ETRS89\",DATUM[\"European_Terrestrial_Reference_System_1989\",SPHEROID[\"GRS 1980\",6378137,298.257222101]]";

    /// <summary>The text of a zone, or null for a code that is none.</summary>
    /// <param name="code">The digits after <c>EPSG:</c>.</param>
    public static string? Wkt(string code)
    {
        if (!int.TryParse(code, NumberStyles.None, CultureInfo.InvariantCulture, out var number)) return null;
        var zone = number % 100;
        return (number / 100, zone) switch
        {
            (326, >= 1 and <= 60) => Zone($"WGS 84 / UTM zone {zone}N", Wgs84, zone, 0),
            (327, >= 1 and <= 60) => Zone($"WGS 84 / UTM zone {zone}S", Wgs84, zone, 10_000_000),
            (258, >= 28 and <= 38) => Zone($"ETRS89 / UTM zone {zone}N", Etrs89, zone, 0),
            _ => null,
        };
    }

    private static string Zone(string name, string geographic, int zone, int falseNorthing) => string.Create(CultureInfo.InvariantCulture,
        $"PROJCS[\"{name}\",{geographic},PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",{6 * zone - 183}],PARAMETER[\"scale_factor\",0.9996],PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",{falseNorthing}],UNIT[\"metre\",1],AXIS[\"Easting\",EAST],AXIS[\"Northing\",NORTH]]");
}
