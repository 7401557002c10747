using System.IO;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Aslaid.Cli;

/// <summary>JSON on a text writer, indented, for programs.</summary>
internal static class Json
{
    private static readonly JsonWriterOptions Readable = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Write(TextWriter to, Action<Utf8JsonWriter> write)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Readable)) write(json);
        to.WriteLine(Encoding.UTF8.GetString(bytes.GetBuffer().AsSpan(0, (int)bytes.Length)));
    }

    public static void Number(this Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } known) json.WriteNumber(name, known);
        else json.WriteNull(name);
    }
}
