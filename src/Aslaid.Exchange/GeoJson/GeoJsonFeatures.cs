using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Aslaid.Exchange;

/// <summary>Takes the features of a GeoJSON file as a design, one by one.</summary>
internal sealed class GeoJsonFeatures(GeoJsonHead head, DesignFrame frame, DesignGather into)
{
    private const int Deepest = 8; // collections in one another
    private const int LongestWord = 200; // letters
    private static readonly string[] Texts = [.. DesignFeature.WordNames, .. DesignFeature.TitleNames];
    private DesignFeature feature = null!;
    private int number;
    private int here; // byte of the feature at which reading has come
    private bool beyond; // some coordinate is no degree
    private bool high; // some position has a height

    /// <summary>Whether there was any position.</summary>
    public bool Any { get; private set; }

    /// <summary>Whether all positions could be longitude and latitude.</summary>
    public bool LooksLikeDegrees => Any && !beyond;

    /// <summary>Takes the next feature of a collection.</summary>
    /// <param name="line">The line it begins in.</param>
    public void Feature(ReadOnlySpan<byte> text, int line) => Take(text, line, isRoot: false);

    /// <summary>Takes a file that is one feature, or one geometry.</summary>
    public void Root(ReadOnlySpan<byte> text, int line) => Take(text, line, isRoot: true);

    /// <summary>Says what is to be known of the whole.</summary>
    public void Finish()
    {
        if (frame.IsGeographic && high) into.Remark("Heights were taken as they stand; GeoJSON by RFC 7946 counts them above the ellipsoid of WGS 84: compare them with known heights.");
    }

    private void Take(ReadOnlySpan<byte> text, int line, bool isRoot)
    {
        number++;
        here = 0;
        try
        {
            if (isRoot && head.Type != "Feature") Bare(text);
            else Whole(text);
        }
        catch (FormatException fault)
        {
            throw new DesignRefusedException(line + JsonFeed.LinesIn(text[..Math.Min(here, text.Length)]), null,
                string.Create(CultureInfo.InvariantCulture, $"feature {number}: {fault.Message}"));
        }
    }

    private void Whole(ReadOnlySpan<byte> text)
    {
        Span<Range> found = stackalloc Range[4];
        JsonMembers.Find(text, Range.All, ["type", "geometry", "properties", "id"], found);
        if (TextIn(text, found[0]) is not "Feature" and var type) throw new FormatException($"its type is {(type is null ? "missing" : CellText.Shown(type))}; Feature was expected");
        Begin(text, found[2], found[3]);
        if (IsAbsent(text, found[1])) into.Skip("feature", "it has no geometry");
        else Geometry(text, found[1], 0);
    }

    private void Bare(ReadOnlySpan<byte> text)
    {
        Begin(text, default, default);
        if (!Geometry(text, Range.All, 0))
            throw new FormatException($"the file's type is {CellText.Shown(head.Type)}; FeatureCollection, Feature, GeometryCollection or a kind of geometry was expected");
    }

    /// <summary>Name and words of the feature.</summary>
    private void Begin(ReadOnlySpan<byte> text, Range properties, Range id)
    {
        var said = new string?[Texts.Length];
        if (!IsAbsent(text, properties)) Properties(text, properties, said);
        var words = new string?[DesignFeature.WordNames.Length + 1];
        said.AsSpan(0, words.Length - 1).CopyTo(words);
        words[^1] = Cut(head.Name);
        var title = said.AsSpan(words.Length - 1).ToArray().FirstOrDefault(one => !string.IsNullOrWhiteSpace(one)) ?? Cut(Scalar(text, id));
        feature = new(into, frame, "the file", title ?? string.Create(CultureInfo.InvariantCulture, $"feature {number}"), words);
    }

    private static void Properties(ReadOnlySpan<byte> text, Range where, string?[] said)
    {
        Span<bool> seen = stackalloc bool[Texts.Length];
        var (from, length) = where.GetOffsetAndLength(text.Length);
        var reader = new Utf8JsonReader(text.Slice(from, length));
        reader.Read();
        if (reader.TokenType != JsonTokenType.StartObject) throw new FormatException("its properties are no object; an object or null was expected");
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = JsonFeed.TextOf(ref reader);
            var at = Array.FindIndex(Texts, wanted => wanted.Equals(name, StringComparison.OrdinalIgnoreCase));
            reader.Read();
            if (at >= 0)
            {
                if (name == Texts[at] && seen[at]) throw new FormatException($"property {name} stands twice");
                seen[at] |= name == Texts[at];
                said[at] ??= Cut(Scalar(ref reader));
            }

            reader.Skip();
        }
    }

    /// <returns>False for a kind that is none.</returns>
    private bool Geometry(ReadOnlySpan<byte> text, Range where, int depth)
    {
        Span<Range> found = stackalloc Range[3];
        here = where.GetOffsetAndLength(text.Length).Offset;
        JsonMembers.Find(text, where, ["type", "coordinates", "geometries"], found);
        var type = TextIn(text, found[0]) ?? throw new FormatException("its geometry has no type; a kind such as LineString was expected");
        switch (type)
        {
            case "Point" or "MultiPoint": Coordinates(text, found[1], type == "Point" ? 0 : 1, Shape.Point); break;
            case "LineString" or "MultiLineString": Coordinates(text, found[1], type == "LineString" ? 1 : 2, Shape.Line); break;
            case "Polygon" or "MultiPolygon": Coordinates(text, found[1], type == "Polygon" ? 2 : 3, Shape.Ring); break;
            case "GeometryCollection": Collection(text, found[2], depth); break;
            default:
                into.Skip("geometry of type " + CellText.Shown(type), "GeoJSON knows no such");
                return false;
        }

        return true;
    }

    private void Collection(ReadOnlySpan<byte> text, Range where, int depth)
    {
        if (depth >= Deepest) throw new FormatException(FormattableString.Invariant($"collections of geometries lie in one another more than {Deepest} deep"));
        var from = ArrayAt(text, where, "geometries");
        var reader = new Utf8JsonReader(text[where]);
        reader.Read();
        var any = false;
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            var start = from + (int)reader.TokenStartIndex;
            reader.Skip();
            Geometry(text, start..(from + (int)reader.BytesConsumed), depth + 1);
            any = true;
        }

        if (!any) feature.Empty();
    }

    private void Coordinates(ReadOnlySpan<byte> text, Range where, int level, Shape shape)
    {
        var from = ArrayAt(text, where, "coordinates");
        var reader = new Utf8JsonReader(text[where]);
        reader.Read();
        Parts(ref reader, from, level, shape);
    }

    /// <summary>An array of arrays, down to positions. The reader stands on its bracket.</summary>
    private void Parts(ref Utf8JsonReader reader, int from, int level, Shape shape)
    {
        if (level == 0)
        {
            if (Position(ref reader, from, out var x, out var y, out var z)) feature.Point(x, y, z);
            else feature.Empty();
            return;
        }

        var any = false;
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            here = from + (int)reader.TokenStartIndex;
            if (reader.TokenType != JsonTokenType.StartArray) throw new FormatException($"its coordinates hold '{Shown(ref reader)}' where an array was expected");
            any = true;
            if (level > 1 || shape == Shape.Point) Parts(ref reader, from, level - 1, shape);
            else if (Position(ref reader, from, out var x, out var y, out var z)) feature.LineTo(x, y, z);
            else throw new FormatException("a position is empty; east, north and perhaps a height were expected");
        }

        if (level == 1 && shape == Shape.Line) feature.EndLine();
        else if (level == 1 && shape == Shape.Ring) feature.EndRing();
        else if (!any) feature.Empty();
    }

    /// <summary>A position; false where it is empty. The reader stands on its bracket.</summary>
    /// <param name="z">NaN where it has none.</param>
    private bool Position(ref Utf8JsonReader reader, int from, out double x, out double y, out double z)
    {
        (x, y, z) = (double.NaN, double.NaN, double.NaN);
        here = from + (int)reader.TokenStartIndex;
        var count = 0;
        for (; reader.Read() && reader.TokenType != JsonTokenType.EndArray; count++)
        {
            if (reader.TokenType != JsonTokenType.Number || !reader.TryGetDouble(out var value)) throw new FormatException($"a position holds '{Shown(ref reader)}' where a number was expected");
            if (count == 0) x = value;
            else if (count == 1) y = value;
            else if (count == 2) z = value;
        }

        if (count == 1) throw new FormatException("a position has one number; east, north and perhaps a height were expected");
        if (count == 0) return false;
        Any = true;
        beyond |= !(Math.Abs(x) <= 180 && Math.Abs(y) <= 90);
        high |= count > 2;
        return true;
    }

    private static int ArrayAt(ReadOnlySpan<byte> text, Range where, string member)
    {
        var (from, length) = where.GetOffsetAndLength(text.Length);
        return length > 0 && text[from] == '[' ? from : throw new FormatException($"its geometry has no array {member}");
    }

    private static bool IsAbsent(ReadOnlySpan<byte> text, Range where) => text[where].IsEmpty || text[where].SequenceEqual("null"u8);

    private static string? TextIn(ReadOnlySpan<byte> text, Range where) => text[where].StartsWith("\""u8) ? Scalar(text, where) : null;

    private static string? Scalar(ReadOnlySpan<byte> text, Range where)
    {
        if (text[where].IsEmpty) return null;
        var reader = new Utf8JsonReader(text[where]);
        reader.Read();
        return Scalar(ref reader);
    }

    /// <summary>A text, or a number as it is written; null for anything else.</summary>
    private static string? Scalar(ref Utf8JsonReader reader) => reader.TokenType switch
    {
        JsonTokenType.String => JsonFeed.TextOf(ref reader),
        JsonTokenType.Number => Encoding.ASCII.GetString(reader.ValueSpan),
        _ => null,
    };

    private static string Shown(ref Utf8JsonReader reader) => CellText.Shown(reader.ValueSpan);

    private static string? Cut(string? word) => word is null || word.Length <= LongestWord ? word : word[..(char.IsHighSurrogate(word[LongestWord - 1]) ? LongestWord - 1 : LongestWord)];

    private enum Shape
    {
        Point,
        Line,
        Ring,
    }
}
