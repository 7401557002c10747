namespace Aslaid.Exchange;

/// <summary>One row of a GeoPackage's spatial references.</summary>
/// <param name="SrsId">Key within the file; for an EPSG system its code.</param>
/// <param name="Name">For people.</param>
/// <param name="Organization">Who defined it, as <c>EPSG</c>.</param>
/// <param name="OrganizationId">Its number there.</param>
/// <param name="Definition">WKT 1 (OGC 01-009), or <c>undefined</c>.</param>
public sealed record SpatialReference(int SrsId, string Name, string Organization, int OrganizationId, string Definition)
{
    /// <summary>The site's own grid in metres, of which nothing more is known: an engineering system.</summary>
    public static SpatialReference SiteGrid { get; } = new(100001, "Site grid", "NONE", 100001, """LOCAL_CS["Site grid",UNIT["metre",1]]""");

    /// <summary>Undefined plane coordinates; required in every file.</summary>
    public static SpatialReference UndefinedPlane { get; } = new(-1, "Undefined cartesian", "NONE", -1, "undefined");

    /// <summary>Undefined geographic coordinates; required in every file.</summary>
    public static SpatialReference UndefinedGeographic { get; } = new(0, "Undefined geographic", "NONE", 0, "undefined");

    /// <summary>Longitude and latitude of WGS 84; required in every file.</summary>
    public static SpatialReference Wgs84 { get; } = Epsg(4326, "WGS 84 geodetic",
        """GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4326"]]""");

    /// <summary>A system of the EPSG registry, with its WKT 1 definition.</summary>
    public static SpatialReference Epsg(int code, string name, string definition) => new(code, name, "EPSG", code, definition);
}
