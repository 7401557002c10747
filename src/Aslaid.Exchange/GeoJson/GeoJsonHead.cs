using System.Globalization;
using System.IO;
using System.Text.Json;

namespace Aslaid.Exchange;

/// <summary>What a GeoJSON file says of itself outside its features, wherever in the file it stands.</summary>
/// <param name="Type">As <c>FeatureCollection</c>.</param>
/// <param name="Name">The name of a collection, which some programs write; null where there is none.</param>
/// <param name="System">What the old member <c>crs</c> names; null where there is none.</param>
/// <param name="IsBare">The member <c>crs</c> is there and null: coordinates are of no known system.</param>
internal sealed record GeoJsonHead(string Type, string? Name, string? System, bool IsBare)
{
    /// <summary>Reads through the whole file, which is thereby known to be well-formed.</summary>
    public static GeoJsonHead Of(Stream file)
    {
        var feed = new JsonFeed(file);
        if (!feed.Read() || feed.Token != JsonTokenType.StartObject) throw new DesignRefusedException(feed.Line, null, "the file begins with no JSON object; GeoJSON was expected");
        var (type, name, system, bare, features) = (default(string), default(string), default(string), false, false);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        while (feed.Read() && feed.Token == JsonTokenType.PropertyName)
        {
            var member = feed.Text!;
            if (member is "type" or "features" or "crs" && !seen.Add(member)) throw new DesignRefusedException(feed.Line, member, "stands twice in the file's outermost object; once was expected");
            if (member is not ("type" or "name" or "crs"))
            {
                features |= member == "features";
                feed.Skip();
                continue;
            }

            feed.TryWhole(out var value, out var line);
            if (member == "type") type = TextIn(value) ?? throw new DesignRefusedException(line, "type", "is no text; FeatureCollection, Feature or a kind of geometry was expected");
            else if (member == "name") name = TextIn(value);
            else if (value.SequenceEqual("null"u8)) bare = true;
            else system = SystemIn(value) ?? throw new DesignRefusedException(line, "crs", "names no coordinate system; {\"type\":\"name\",\"properties\":{\"name\":\"EPSG:...\"}} was expected, or no such member");
        }

        if (feed.Read()) throw new JsonException();
        if (type is null) throw new DesignRefusedException(0, null, "the outermost object has no member type; GeoJSON was expected");
        if (type == "FeatureCollection" && !features) throw new DesignRefusedException(0, null, "the collection has no member features; GeoJSON was expected");
        return new(type, name, system, bare);
    }

    /// <summary>The EPSG code in the name of a system: <c>EPSG:n</c>, a URN or an address; null where there is none.</summary>
    public static int? EpsgIn(string system)
    {
        string[] parts = system.Trim().Split(':', '/');
        var at = Array.FindLastIndex(parts, part => part.Equals("EPSG", StringComparison.OrdinalIgnoreCase));
        return at >= 0 && at < parts.Length - 1 && int.TryParse(parts[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var code) ? code : null;
    }

    private static string? TextIn(ReadOnlySpan<byte> value)
    {
        var reader = new Utf8JsonReader(value);
        return reader.Read() && reader.TokenType == JsonTokenType.String ? JsonFeed.TextOf(ref reader) : null;
    }

    private static string? SystemIn(ReadOnlySpan<byte> value)
    {
        Span<Range> found = stackalloc Range[2];
        if (value[0] != '{') return null;
        JsonMembers.Find(value, Range.All, ["type", "properties"], found);
        if (TextIn(value[found[0]]) != "name" || !value[found[1]].StartsWith("{"u8)) return null;
        var properties = value[found[1]];
        JsonMembers.Find(properties, Range.All, ["name"], found[..1]);
        return TextIn(properties[found[0]]);
    }
}
