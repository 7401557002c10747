using System.IO;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;

namespace Aslaid.Exchange;

/// <summary>A feature collection being written, a feature a line, numbers with a stated count of decimals.</summary>
internal sealed class FeatureFile : IDisposable
{
    // Letters of all scripts stay readable; what HTML would take for its own is escaped.
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };
    private readonly Stream stream;
    private bool any;

    public FeatureFile(string path)
    {
        stream = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 16);
        Raw("{\"type\":\"FeatureCollection\"");
    }

    /// <summary>A member of the collection itself; before the features.</summary>
    public void Member(string name, Action<Utf8JsonWriter> write)
    {
        Raw($",\n\"{name}\":");
        Value(write);
    }

    public void Feature(Action<Utf8JsonWriter> geometry, Action<Utf8JsonWriter> properties)
    {
        Raw(any ? ",\n" : ",\n\"features\":[\n");
        any = true;
        Value(json =>
        {
            json.WriteStartObject();
            json.WriteString("type", "Feature");
            json.WritePropertyName("geometry");
            geometry(json);
            json.WritePropertyName("properties");
            properties(json);
            json.WriteEndObject();
        });
    }

    public void Dispose()
    {
        Raw(any ? "\n]}\n" : ",\n\"features\":[]}\n");
        stream.Dispose();
    }

    private void Value(Action<Utf8JsonWriter> write)
    {
        using var json = new Utf8JsonWriter(stream, Options);
        write(json);
    }

    private void Raw(string text) => stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
}

/// <summary>Short words for what is written again and again.</summary>
internal static class JsonNumbers
{
    public static void Fixed(this Utf8JsonWriter json, double value, int decimals)
    {
        Span<byte> text = stackalloc byte[Exchange.Fixed.Longest];
        json.WriteRawValue(text[..Exchange.Fixed.Write(value, decimals, text)], skipInputValidation: true);
    }

    /// <summary>A number, or null where it is unknown.</summary>
    public static void Fixed(this Utf8JsonWriter json, string name, double? value, int decimals)
    {
        json.WritePropertyName(name);
        if (value is { } known) json.Fixed(known, decimals);
        else json.WriteNullValue();
    }
}
