using System.IO;
using System.Text.Json;

namespace Aslaid.Exchange;

/// <summary>JSON as it streams by, token by token or a value at a time, with no more of it in memory than that takes.</summary>
internal sealed class JsonFeed
{
    /// <summary>The largest value that is taken whole, bytes.</summary>
    public const int Most = 64 << 20;

    private readonly Stream stream;
    private byte[] buffer = new byte[1 << 16];
    private int start;
    private int end;
    private bool ended;
    private JsonReaderState state;
    private long line = 1; // of what is not taken yet

    public JsonFeed(Stream stream)
    {
        this.stream = stream;
        Fill();
        if (buffer.AsSpan(0, end).StartsWith("\uFEFF"u8)) start = 3;
    }

    /// <summary>The line reached, the first being 1.</summary>
    public int Line => (int)Math.Min(line, int.MaxValue);

    /// <summary>The kind of token last read.</summary>
    public JsonTokenType Token { get; private set; }

    /// <summary>The text of a name or string last read; null for other tokens.</summary>
    public string? Text { get; private set; }

    /// <summary>Goes to the next token; false at the end.</summary>
    /// <exception cref="JsonException">It is not well-formed.</exception>
    public bool Read()
    {
        while (true)
        {
            var reader = Reader();
            if (reader.Read())
            {
                Token = reader.TokenType;
                Text = Token is JsonTokenType.PropertyName or JsonTokenType.String ? TextOf(ref reader) : null;
                Take(reader);
                return true;
            }

            if (ended) return false;
            Fill();
        }
    }

    /// <summary>Passes the value that follows.</summary>
    public void Skip()
    {
        for (var depth = 0; ;)
        {
            var reader = Reader();
            while (reader.Read())
            {
                if (reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray) depth++;
                else if (reader.TokenType is JsonTokenType.EndObject or JsonTokenType.EndArray) depth--;
                if (depth > 0) continue;
                Take(reader);
                return;
            }

            Take(reader);
            if (ended) throw new JsonException();
            Fill();
        }
    }

    /// <summary>The value that follows, whole; false where the array or object ends instead. Valid until the next is asked for.</summary>
    /// <param name="first">The line it begins in.</param>
    public bool TryWhole(out ReadOnlySpan<byte> value, out int first)
    {
        while (true)
        {
            var reader = Reader();
            if (reader.Read())
            {
                var ends = reader.TokenType is JsonTokenType.EndArray or JsonTokenType.EndObject;
                var from = (int)reader.TokenStartIndex;
                if (ends || reader.TrySkip())
                {
                    value = ends ? default : buffer.AsSpan(start + from, (int)reader.BytesConsumed - from);
                    first = (int)Math.Min(line + LinesIn(buffer.AsSpan(start, from)), int.MaxValue);
                    Take(reader);
                    return !ends;
                }
            }

            if (ended) throw new JsonException();
            Fill();
        }
    }

    /// <summary>The text of a name or string.</summary>
    /// <exception cref="FormatException">It is no Unicode text.</exception>
    public static string TextOf(ref Utf8JsonReader reader)
    {
        try
        {
            return reader.GetString() ?? "";
        }
        catch (InvalidOperationException)
        {
            throw new FormatException("a text holds bytes or escapes that are no letters; UTF-8 was expected");
        }
    }

    public static int LinesIn(ReadOnlySpan<byte> text) => text.Count((byte)'\n');

    private Utf8JsonReader Reader() => new(buffer.AsSpan(start, end - start), ended, state);

    private void Take(in Utf8JsonReader reader)
    {
        var taken = (int)reader.BytesConsumed;
        line += LinesIn(buffer.AsSpan(start, taken));
        start += taken;
        state = reader.CurrentState;
    }

    private void Fill()
    {
        if (start > 0)
        {
            buffer.AsSpan(start, end - start).CopyTo(buffer);
            (start, end) = (0, end - start);
        }
        else if (end == buffer.Length)
        {
            if (end >= Most) throw new DesignRefusedException(Line, null, "a single feature or text of more than 64 MB stands here; features of a design were expected, each smaller");
            Array.Resize(ref buffer, Math.Min(2 * end, Most));
        }

        var got = stream.ReadAtLeast(buffer.AsSpan(end), buffer.Length - end, throwOnEndOfStream: false);
        ended = got < buffer.Length - end;
        end += got;
    }
}
