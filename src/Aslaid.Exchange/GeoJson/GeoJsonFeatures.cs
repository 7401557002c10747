using System.Globalization;
using System.Text.Json;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>Takes the features of a GeoJSON design one by one.</summary>
internal sealed class GeoJsonFeatures(DesignOptions options, DesignGather into)
{
    private readonly GridToGeographic? grid = options.CoordinateSystem is { } system && GridToGeographic.TryFor(system, out var made, out _) ? made : null;
    private bool onGrid;
    private bool remarked;

    public int Count { get; private set; }

    /// <summary>An old <c>crs</c> member (GeoJSON 2008) may say that coordinates are in the site grid.</summary>
    public void Reference(JsonElement? crs)
    {
        if (crs is not { ValueKind: JsonValueKind.Object } member || !member.TryGetProperty("properties", out var properties) || properties.ValueKind != JsonValueKind.Object || !properties.TryGetProperty("name", out var named) || named.ValueKind != JsonValueKind.String) return;
        var name = named.GetString()!;
        if (name.EndsWith("CRS84", StringComparison.OrdinalIgnoreCase) || name.EndsWith(":4326", StringComparison.Ordinal)) return;
        var code = name[(name.LastIndexOf(':') + 1)..];
        if (Count > 0) throw new DesignRefusedException(0, name, "comes behind the features that it speaks of; a coordinate system before them was expected");
        if (options.CoordinateSystem is { } site && site.Trim().StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase) && site.Trim()[5..] != code)
            throw new DesignRefusedException(0, name, $"is another coordinate system than the site's, {site}; export the design in the site grid or in WGS 84");
        onGrid = true;
    }

    public void Take(JsonElement feature)
    {
        Count++;
        if (feature.ValueKind != JsonValueKind.Object)
        {
            into.Skip("feature", "it is no object");
            return;
        }

        var type = Text(feature, "type");
        var geometry = type == "Feature" ? feature.TryGetProperty("geometry", out var own) ? own : default : feature;
        var properties = type == "Feature" && feature.TryGetProperty("properties", out var said) && said.ValueKind == JsonValueKind.Object ? said : default;
        string?[] words = [.. FeatureWords.Codes.Select(word => Property(properties, word))];
        var name = FeatureWords.Names.Select(word => Property(properties, word)).FirstOrDefault(text => !string.IsNullOrWhiteSpace(text)) ?? Property(feature, "id") ?? string.Create(CultureInfo.InvariantCulture, $"feature {Count}");
        if (geometry.ValueKind != JsonValueKind.Object) into.Skip("feature", "it has no geometry");
        else Geometry(geometry, name, words, FeatureWords.IsExisting(Property(properties, "status")), 0);
    }

    private void Geometry(JsonElement geometry, string name, string?[] words, bool existing, int depth)
    {
        var type = Text(geometry, "type");
        if (type == "GeometryCollection" && depth < 16 && geometry.TryGetProperty("geometries", out var members) && members.ValueKind == JsonValueKind.Array)
        {
            foreach (var member in members.EnumerateArray())
                if (member.ValueKind == JsonValueKind.Object) Geometry(member, name, words, existing, depth + 1);
            return;
        }

        if (!geometry.TryGetProperty("coordinates", out var coordinates) || coordinates.ValueKind != JsonValueKind.Array)
        {
            into.Skip(type ?? "geometry", "it has no coordinates");
            return;
        }

        switch (type)
        {
            case "Point": Point(coordinates, name, words); break;
            case "MultiPoint":
                foreach (var place in coordinates.EnumerateArray()) Point(place, name, words);
                break;
            case "LineString": Line(coordinates, name, words, existing); break;
            case "MultiLineString" or "Polygon":
                foreach (var line in coordinates.EnumerateArray()) Line(line, name, words, existing);
                break;
            case "MultiPolygon":
                foreach (var polygon in coordinates.EnumerateArray())
                    foreach (var ring in polygon.EnumerateArray()) Line(ring, name, words, existing);
                break;
            default: into.Skip(type ?? "geometry", "it is no geometry that is read"); break;
        }
    }

    private void Point(JsonElement place, string name, string?[] words)
    {
        if (place.GetArrayLength() == 0) into.Skip("Point", "it is empty");
        else
        {
            var (at, height) = Place(place);
            into.Point(name, words, at, height);
        }
    }

    private void Line(JsonElement places, string name, string?[] words, bool existing)
    {
        var chain = new PathChain();
        foreach (var place in places.EnumerateArray())
        {
            var (at, height) = Place(place);
            if (chain.IsStarted) chain.LineTo(at, height);
            else chain.Start(at, height);
        }

        if (chain.IsStarted && chain.Build() is { } path) into.Line(name, words, path, existing: existing);
        else into.Skip("line", "it has no length");
    }

    private (Point2 At, double? Height) Place(JsonElement place)
    {
        var size = place.GetArrayLength();
        if (size < 2) throw new DesignRefusedException(0, null, string.Create(CultureInfo.InvariantCulture, $"a place of feature {Count} has fewer than two numbers"));
        double x = Number(place[0]), y = Number(place[1]);
        double? height = size > 2 ? DesignGather.Height(Number(place[2]), 0) : null;
        if (onGrid || !(Math.Abs(x) <= 180 && Math.Abs(y) <= 90))
        {
            if (!onGrid && !remarked) into.Remark("Coordinates are no longitudes and latitudes, which GeoJSON knows alone (RFC 7946): they were taken as the site grid.");
            remarked = true;
            return (DesignGather.Place(x, y, 0), height);
        }

        if (grid is null) throw new DesignRefusedException(0, string.Create(CultureInfo.InvariantCulture, $"{x:R}, {y:R}"), "are degrees, as GeoJSON has them, and the project names no coordinate system; name one in its settings, or export the design in the site grid");
        if (remarked) throw new DesignRefusedException(0, string.Create(CultureInfo.InvariantCulture, $"{x:R}, {y:R}"), "could be degrees, while other places of the file cannot; one of both throughout was expected");
        var at = grid.Back(new(x, y));
        return (DesignGather.Place(at.East, at.North, 0), height);
    }

    private double Number(JsonElement number) => number.ValueKind == JsonValueKind.Number && number.TryGetDouble(out var value) && double.IsFinite(value)
        ? value : throw new DesignRefusedException(0, number.ToString(), string.Create(CultureInfo.InvariantCulture, $"is no finite number; a coordinate of feature {Count} was expected"));

    private static string? Text(JsonElement of, string name) => of.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static string? Property(JsonElement of, string name)
    {
        if (of.ValueKind != JsonValueKind.Object) return null;
        foreach (var property in of.EnumerateObject())
            if (property.Name.Equals(name, StringComparison.OrdinalIgnoreCase) && property.Value.ValueKind is JsonValueKind.String or JsonValueKind.Number) return property.Value.ToString();
        return null;
    }
}
