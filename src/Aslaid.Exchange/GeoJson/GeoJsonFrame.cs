using System.Text.Json;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>In which coordinates a GeoJSON file is written.</summary>
/// <param name="Grid">The way to longitude and latitude; null for site coordinates.</param>
internal sealed record GeoJsonFrame(GridToGeographic? Grid)
{
    private const int Degrees = 9; // decimals: 0.1 mm

    /// <summary>A position. The height goes in only on the site grid: RFC 7946 asks for heights above the ellipsoid, and the record's are not known to be.</summary>
    public void Position(Utf8JsonWriter json, Point2 at, double? height)
    {
        json.WriteStartArray();
        if (Grid is null)
        {
            json.Fixed(at.East, Fixed.Coordinate);
            json.Fixed(at.North, Fixed.Coordinate);
            if (height is { } known) json.Fixed(known, Fixed.Coordinate);
        }
        else
        {
            var place = Grid.Of(at);
            json.Fixed(place.Longitude, Degrees);
            json.Fixed(place.Latitude, Degrees);
        }

        json.WriteEndArray();
    }

    /// <summary>The bbox member over the box of a grid. Meridians converge, so the edges are looked at all along, and half a metre is added.</summary>
    public void Box(Utf8JsonWriter json, Box2 box)
    {
        var wide = box.Grow(Grid is null ? 0 : 0.5);
        var (low, high) = (new Point2(wide.MinEast, wide.MinNorth), new Point2(wide.MaxEast, wide.MaxNorth));
        var (west, south, east, north) = (low.East, low.North, high.East, high.North);
        if (Grid is not null)
        {
            (west, south, east, north) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
            for (var step = 0; step <= 16; step++)
            {
                var (e, n) = (low.East + (high.East - low.East) * step / 16, low.North + (high.North - low.North) * step / 16);
                foreach (var edge in new Point2[] { new(e, low.North), new(e, high.North), new(low.East, n), new(high.East, n) })
                {
                    var place = Grid.Of(edge);
                    (west, east) = (Math.Min(west, place.Longitude), Math.Max(east, place.Longitude));
                    (south, north) = (Math.Min(south, place.Latitude), Math.Max(north, place.Latitude));
                }
            }
        }

        json.WriteStartArray();
        foreach (var side in new[] { west, south, east, north }) json.Fixed(side, Grid is null ? Fixed.Coordinate : Degrees);
        json.WriteEndArray();
    }
}
