using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Aslaid.Geometry;
using ProjNet.CoordinateSystems;
using ProjNet.CoordinateSystems.Transformations;

namespace Aslaid.Exchange;

/// <summary>Longitude and latitude, degrees, east and north positive.</summary>
public readonly record struct Geographic(double Longitude, double Latitude)
{
    /// <summary>Degrees to nine decimals (0.1 mm), whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"({Longitude:0.000000000}°, {Latitude:0.000000000}°)");
}

/// <summary>From a site's grid to longitude and latitude and back.</summary>
/// <remarks>
/// Plan only; heights are never touched. Within a UTM zone it agrees with PROJ to well under 1 mm. ETRS89 and any datum on the
/// ellipsoids of GRS 1980 or WGS 84 is taken as WGS 84 unless the text says otherwise: by plate motion that may be wrong by
/// one or two metres, which map displays do not mind and surveys must not ignore. A datum with TOWGS84 is shifted by it.
/// </remarks>
public sealed class GridToGeographic
{
    private readonly MathTransform toGeographic;
    private readonly MathTransform toGrid;
    private readonly double metresPerUnit;

    private GridToGeographic(string name, ProjectedCoordinateSystem grid, GeographicCoordinateSystem geographic, bool reachesWgs84)
    {
        var make = new CoordinateTransformationFactory();
        (Name, ReachesWgs84, metresPerUnit) = (name, reachesWgs84, grid.LinearUnit.MetersPerUnit);
        toGeographic = make.CreateFromCoordinateSystems(grid, geographic).MathTransform;
        toGrid = make.CreateFromCoordinateSystems(geographic, grid).MathTransform;
    }

    /// <summary>What the grid calls itself.</summary>
    public string Name { get; }

    /// <summary>Whether the answer may be called WGS 84. False where the datum is another and no shift is given: the answer is then on that datum, hundreds of metres off at worst.</summary>
    public bool ReachesWgs84 { get; }

    /// <summary>The way out of a grid.</summary>
    /// <param name="coordinateSystem"><c>EPSG:326zz</c>, <c>EPSG:327zz</c> (UTM north and south on WGS 84), <c>EPSG:258zz</c> (UTM on
    /// ETRS89, zones 28 to 38), or the WKT 1 text of a projected system.</param>
    /// <exception cref="ArgumentException">It is neither; the message says what was expected.</exception>
    public static GridToGeographic For(string coordinateSystem) =>
        TryFor(coordinateSystem, out var grid, out var why) ? grid : throw new ArgumentException(why, nameof(coordinateSystem));

    /// <inheritdoc cref="For"/>
    /// <param name="why">Why there is none, in a sentence.</param>
    public static bool TryFor(string coordinateSystem, [NotNullWhen(true)] out GridToGeographic? grid, [NotNullWhen(false)] out string? why)
    {
        (grid, why) = (null, null);
        var text = coordinateSystem.Trim();
        if (text.StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase))
        {
            if (UtmZone.Wkt(text[5..]) is { } wkt) text = wkt;
            else why = $"{text} is not known here: expected EPSG:32601 to 32660, 32701 to 32760 or 25828 to 25838 (UTM), or the system's WKT 1 text.";
        }
        else if (UtmZone.Wkt(text) is not null) why = $"A number alone could be anything: write EPSG:{text}.";
        else if (!text.StartsWith("PROJCS", StringComparison.OrdinalIgnoreCase))
            why = "A site's coordinate system is an EPSG code of a UTM zone or the WKT 1 text of a projected system, beginning with PROJCS.";

        if (why is null && !IsWhole(text)) why = "The coordinate system's text cannot be used: its brackets or quotation marks do not close.";
        if (why is null) grid = Read(text, out why);
        return grid is not null;
    }

    /// <summary>Longitude and latitude of a place.</summary>
    /// <param name="place">Metres in the site grid, also where the system itself counts feet.</param>
    public Geographic Of(Point2 place)
    {
        var (longitude, latitude) = toGeographic.Transform(place.East / metresPerUnit, place.North / metresPerUnit);
        return new(longitude, latitude);
    }

    /// <summary>The place of a longitude and latitude, metres.</summary>
    public Point2 Back(Geographic at)
    {
        var (east, north) = toGrid.Transform(at.Longitude, at.Latitude);
        return new(east * metresPerUnit, north * metresPerUnit);
    }

    /// <summary>Whether each bracket closes once, the last at the very end. The library's reader waits for ever for one that does not.</summary>
    private static bool IsWhole(string wkt)
    {
        var (depth, quoted) = (0, false);
        for (var i = 0; i < wkt.Length; i++)
        {
            if (wkt[i] == '"') quoted = !quoted;
            else if (!quoted && wkt[i] is '[' or '(') depth++;
            else if (!quoted && wkt[i] is ']' or ')' && --depth == 0) return i == wkt.Length - 1;
        }

        return false;
    }

    private static GridToGeographic? Read(string wkt, out string? why)
    {
        why = null;
        try
        {
            if (new CoordinateSystemFactory().CreateFromWkt(wkt) is not ProjectedCoordinateSystem grid)
                why = "The coordinate system's text describes no projected system.";
            else if (grid.GeographicCoordinateSystem.PrimeMeridian.Longitude != 0)
                why = $"The prime meridian {grid.GeographicCoordinateSystem.PrimeMeridian.Name} is not supported: only Greenwich is.";
            else if (grid.GetAxis(0).Orientation != AxisOrientationEnum.East || grid.GetAxis(1).Orientation != AxisOrientationEnum.North)
                why = "The axes of the coordinate system must be east, then north.";
            else
            {
                var datum = grid.GeographicCoordinateSystem.HorizontalDatum;
                var shifted = datum.Wgs84Parameters is { } shift && !shift.HasZeroValuesOnly;
                var alike = datum.Wgs84Parameters is not null || SameEllipsoid(datum.Ellipsoid);
                return new(grid.Name, grid, shifted ? GeographicCoordinateSystem.WGS84 : grid.GeographicCoordinateSystem, shifted || alike);
            }
        }
        catch (Exception e) when (e is ArgumentException or FormatException or NotSupportedException or InvalidOperationException or NotImplementedException or InvalidCastException)
        {
            var said = (e as ArgumentException)?.ParamName is { } name ? e.Message.Replace($" (Parameter '{name}')", "", StringComparison.Ordinal) : e.Message;
            why = $"The coordinate system's text cannot be used: {said}";
        }

        return null;
    }

    /// <summary>GRS 1980 and WGS 84 differ by 0.1 mm in the shorter axis.</summary>
    private static bool SameEllipsoid(Ellipsoid ellipsoid) =>
        ellipsoid.SemiMajorAxis == 6_378_137 && Math.Abs(ellipsoid.InverseFlattening - 298.257223) < 1e-5;
}
