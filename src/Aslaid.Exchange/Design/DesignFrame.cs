using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>How the coordinates of a design file come to the site grid: as they stand, by a unit, or from longitude and latitude of WGS 84.</summary>
internal sealed class DesignFrame
{
    private const double Settled = 1e-8; // degrees, 1 mm: what comes back by so much otherwise lies beyond the reach of the grid
    private readonly double unit;
    private readonly GridToGeographic? grid;

    private DesignFrame(double unit, GridToGeographic? grid) => (this.unit, this.grid) = (unit, grid);

    /// <summary>Whether the file counts degrees: then an arc of the file is none in the grid.</summary>
    public bool IsGeographic => grid is not null;

    /// <summary>The site grid itself.</summary>
    /// <param name="unit">Metres to a unit of the file, heights included.</param>
    public static DesignFrame Site(double unit) => new(unit, null);

    /// <summary>A system of the EPSG registry: that of the site, or WGS 84 (4326, with heights 4979).</summary>
    /// <param name="of">Whose it is, as <c>table kerbs</c> or <c>the file</c>.</param>
    /// <param name="unit">Metres to its unit as the file says; null where it does not.</param>
    /// <exception cref="DesignRefusedException">It is another.</exception>
    public static DesignFrame OfEpsg(int code, string of, double? unit, DesignOptions options, DesignGather into)
    {
        if (code == EpsgOf(options.CoordinateSystem)) return new(WktHead.Of(options.CoordinateSystem ?? "").Unit ?? unit ?? 1, null);
        return code is 4326 or 4979 && options.CoordinateSystem is not null ? OfWgs84(of, options, into) : throw Other(string.Create(CultureInfo.InvariantCulture, $"EPSG:{code}"), of, options);
    }

    /// <summary>A system given by its text: a site grid, that of the site, or one of the EPSG registry.</summary>
    /// <inheritdoc cref="OfEpsg" path="/param"/>
    /// <inheritdoc cref="OfEpsg" path="/exception"/>
    public static DesignFrame OfWkt(string wkt, string of, DesignOptions options, DesignGather into)
    {
        var head = WktHead.Of(wkt);
        if (head.IsEngineering) return new(head.Unit ?? options.UnitInMetres ?? 1, null);
        if (options.CoordinateSystem is { } site && Close(site) == Close(wkt)) return new(head.Unit ?? 1, null);
        return head.Epsg is { } code ? OfEpsg(code, of, head.Unit, options, into) : throw Other(head.Keyword.Length > 0 ? head.Shown : wkt, of, options);
    }

    /// <summary>Longitude and latitude of WGS 84, brought to the grid of the site; a remark says so.</summary>
    /// <inheritdoc cref="OfEpsg" path="/param"/>
    /// <exception cref="DesignRefusedException">The site has no grid to which there is a way.</exception>
    public static DesignFrame OfWgs84(string of, DesignOptions options, DesignGather into)
    {
        if (options.CoordinateSystem is not { } system) throw Other("WGS 84", of, options);
        if (!GridToGeographic.TryFor(system, out var grid, out var why))
            throw new DesignRefusedException(0, "WGS 84", $"is the coordinate system of {of}, and it cannot be brought to that of the site, {SiteOf(options)}. {why.TrimEnd('.')}; write the file in the site's grid");
        if (!grid.ReachesWgs84)
            throw new DesignRefusedException(0, "WGS 84", $"is the coordinate system of {of}, and that of the site, {grid.Name}, gives no shift to it; write the file in the site's grid");
        into.Remark($"Longitude and latitude in {of} were brought from WGS 84 to {grid.Name}."
            + (EpsgOf(system) is >= 32601 and <= 32760 ? "" : " Their datums were taken as one, though plate motion may part them by a metre or two: compare it with known points."));
        return new(1, grid);
    }

    /// <summary>The place of two coordinates, metres.</summary>
    public bool TryPlace(double x, double y, out Point2 at, [NotNullWhen(false)] out string? why)
    {
        why = null;
        if (grid is null) at = new(x * unit, y * unit);
        else if (Math.Abs(x) <= 180 && Math.Abs(y) <= 90)
        {
            at = grid.Back(new(x, y));
            var back = Math.Abs(at.East) <= DesignGather.Farthest && Math.Abs(at.North) <= DesignGather.Farthest ? grid.Of(at) : new(double.NaN, double.NaN);
            if (Math.Abs(back.Longitude - x) <= Settled && Math.Abs(back.Latitude - y) <= Settled) return true;
            why = string.Create(CultureInfo.InvariantCulture, $"{x:R}, {y:R} lies too far from {grid.Name} to be brought to it");
        }
        else
        {
            at = default;
            why = string.Create(CultureInfo.InvariantCulture, $"{x:R}, {y:R} is no longitude and latitude in degrees, as WGS 84 has them");
        }

        if (why is null && !(Math.Abs(at.East) <= DesignGather.Farthest && Math.Abs(at.North) <= DesignGather.Farthest))
            why = string.Create(CultureInfo.InvariantCulture, $"{x:R}, {y:R} is a place on no grid; east and north within 100 000 km were expected");
        return why is null;
    }

    /// <summary>The height of a third coordinate, metres.</summary>
    public bool TryHeight(double z, out double height, [NotNullWhen(false)] out string? why)
    {
        height = z * unit;
        why = Math.Abs(height) <= DesignGather.Highest ? null : string.Create(CultureInfo.InvariantCulture, $"{z:R} is a height of no site; one within 100 km was expected");
        return why is null;
    }

    private static DesignRefusedException Other(string found, string of, DesignOptions options) => new(0, found, options.CoordinateSystem is null
        ? $"is the coordinate system of {of}, and the site names none; name the site's coordinate system, or write the file in the bare site grid"
        : $"is the coordinate system of {of}, and that of the site is {SiteOf(options)}; write the file in the site's system");

    private static string SiteOf(DesignOptions options)
    {
        var head = WktHead.Of(options.CoordinateSystem ?? "");
        return head.Keyword.Length > 0 ? head.Shown : CellText.Shown(options.CoordinateSystem ?? "");
    }

    private static int? EpsgOf(string? system)
    {
        system = system?.Trim() ?? "";
        if (!system.StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase)) return WktHead.Of(system).Epsg;
        return int.TryParse(system.AsSpan(5), NumberStyles.None, CultureInfo.InvariantCulture, out var code) ? code : null;
    }

    private static string Close(string wkt) => string.Concat(wkt.Where(letter => !char.IsWhiteSpace(letter)));
}
