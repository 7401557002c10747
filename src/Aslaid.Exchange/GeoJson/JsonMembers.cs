using System.Text.Json;

namespace Aslaid.Exchange;

/// <summary>Finds the members of an object in a JSON text known to be well-formed.</summary>
internal static class JsonMembers
{
    /// <summary>Where the values of some members stand.</summary>
    /// <param name="where">Where the object stands in the text.</param>
    /// <param name="found">For each name the place of its value in the text; an empty range where it is absent.</param>
    /// <exception cref="FormatException">It is no object, or one of the members stands twice.</exception>
    public static void Find(ReadOnlySpan<byte> text, Range where, ReadOnlySpan<string> names, Span<Range> found)
    {
        var (from, length) = where.GetOffsetAndLength(text.Length);
        found.Fill(0..0);
        if (length == 0 || text[from] != '{') throw new FormatException("something else stands where an object was expected");
        var reader = new Utf8JsonReader(text.Slice(from, length));
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var at = names.IndexOf(JsonFeed.TextOf(ref reader));
            reader.Read();
            var start = from + (int)reader.TokenStartIndex;
            reader.Skip();
            if (at < 0) continue;
            if (found[at].End.Value > 0) throw new FormatException($"member {names[at]} stands twice");
            found[at] = start..(from + (int)reader.BytesConsumed);
        }
    }
}
