using System.Globalization;
using System.IO;
using System.Text.Json;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>
/// A design as GeoJSON (RFC 7946): points, lines, and rings of polygons as closed lines. Longitude and latitude come to the grid by the project's coordinate system; coordinates that can be no degrees are taken as
/// the site grid, with a remark. A feature's code is sought in its properties code, desc, description, layer, type.
/// </summary>
internal sealed class GeoJsonDesignReader : IDesignReader
{
    /// <summary>One feature may have so many bytes; the file any number.</summary>
    private const int LargestFeature = 1 << 26;

    private const int Deepest = 64;

    public string Name => "GeoJSON";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName)
    {
        if (head.StartsWith("\uFEFF"u8)) head = head[3..];
        return head.TrimStart(" \t\r\n"u8).StartsWith("{"u8);
    }

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        var features = new GeoJsonFeatures(options, into);
        var parts = new Parts(file);
        try
        {
            parts.Read(features);
        }
        catch (JsonException wrong)
        {
            throw new DesignRefusedException((int)Math.Min(int.MaxValue, (wrong.LineNumber ?? 0) + 1 + parts.LinesBefore), null, "the file is no well-formed JSON, or ends too early; export it again");
        }
        catch (InvalidOperationException)
        {
            throw new DesignRefusedException(0, null, string.Create(CultureInfo.InvariantCulture, $"feature {features.Count + 1} does not hold what GeoJSON says it holds"));
        }
    }

    /// <summary>Walks through the root object; hands over each feature as soon as it is whole.</summary>
    private sealed class Parts(Stream file)
    {
        private byte[] buffer = new byte[1 << 16];
        private int length;
        private bool ended;
        private JsonReaderState state = new(new() { MaxDepth = Deepest });

        /// <summary>Lines of what is no longer in the buffer.</summary>
        public long LinesBefore { get; private set; }

        public void Read(GeoJsonFeatures features)
        {
            var root = new Dictionary<string, JsonElement>(StringComparer.Ordinal);
            Fill();
            if (buffer.AsSpan(0, length).StartsWith("\uFEFF"u8)) Drop(3);
            Expect(JsonTokenType.StartObject);
            while (Token(out var type, out var name) && type == JsonTokenType.PropertyName)
            {
                if (name == "features")
                {
                    Expect(JsonTokenType.StartArray);
                    features.Reference(root.TryGetValue("crs", out var crs) ? crs : null);
                    while (Value() is { } feature) features.Take(feature);
                }
                else
                {
                    var value = Value() ?? throw new DesignRefusedException(0, name, "has no value");
                    if (!root.TryAdd(name!, value)) throw new DesignRefusedException(0, name, "stands twice in the root of the file");
                    if (name == "crs" && features.Count > 0) features.Reference(value);
                }
            }

            var word = Text(root);
            if (word is not null && word != "FeatureCollection" && features.Count == 0)
            {
                features.Reference(root.TryGetValue("crs", out var crs) ? crs : null);
                features.Take(JsonSerializer.SerializeToElement(root));
            }
            else if (features.Count == 0 && word is null) throw new DesignRefusedException(0, null, "the file is JSON, but no GeoJSON: it has neither features nor a type");
        }

        private static string? Text(Dictionary<string, JsonElement> root) => root.TryGetValue("type", out var kind) && kind.ValueKind == JsonValueKind.String ? kind.GetString() : null;

        private void Expect(JsonTokenType wanted)
        {
            if (!Token(out var type, out _) || type != wanted) throw new DesignRefusedException(0, null, "the file is JSON, but no GeoJSON: an object with features, a feature or a geometry was expected");
        }

        private bool Token(out JsonTokenType type, out string? name)
        {
            while (true)
            {
                var reader = new Utf8JsonReader(buffer.AsSpan(0, length), ended, state);
                if (reader.Read())
                {
                    (type, name) = (reader.TokenType, reader.TokenType == JsonTokenType.PropertyName ? reader.GetString() : null);
                    state = reader.CurrentState;
                    Drop((int)reader.BytesConsumed);
                    return true;
                }

                (type, name) = (JsonTokenType.None, null);
                if (ended) return false;
                Fill();
            }
        }

        /// <summary>The next value, whole; null at the end of an array.</summary>
        private JsonElement? Value()
        {
            while (true)
            {
                var look = new Utf8JsonReader(buffer.AsSpan(0, length), ended, state);
                if (look.Read())
                {
                    if (look.TokenType is JsonTokenType.EndArray or JsonTokenType.EndObject)
                    {
                        state = look.CurrentState;
                        Drop((int)look.BytesConsumed);
                        return null;
                    }

                    if (JsonDocument.TryParseValue(ref look, out var document))
                    {
                        using (document)
                        {
                            state = look.CurrentState;
                            var value = document.RootElement.Clone();
                            Drop((int)look.BytesConsumed);
                            return value;
                        }
                    }
                }

                if (ended) throw new DesignRefusedException(0, null, "the file ends too early; export it again");
                Fill();
            }
        }

        private void Drop(int count)
        {
            LinesBefore += buffer.AsSpan(0, count).Count((byte)'\n');
            buffer.AsSpan(count, length - count).CopyTo(buffer);
            length -= count;
        }

        private void Fill()
        {
            if (length == buffer.Length)
            {
                if (length >= LargestFeature) throw new DesignRefusedException(0, null, string.Create(CultureInfo.InvariantCulture, $"a feature has more than {LargestFeature} bytes; a line of a site was expected"));
                Array.Resize(ref buffer, 2 * buffer.Length);
            }

            var got = file.Read(buffer, length, buffer.Length - length);
            length += got;
            ended = got == 0;
        }
    }
}
