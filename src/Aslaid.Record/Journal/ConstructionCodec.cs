using System.Text.Json;

namespace Aslaid.Record;

/// <summary>A construction within the bytes of a journal entry.</summary>
internal static class ConstructionCodec
{
    public static void Write(Utf8JsonWriter json, Construction how)
    {
        json.WriteString("construction", EnumWords.Of(how.Kind));
        json.WriteStartArray("parents");
        foreach (var parent in how.Parents) json.WriteStringValue(parent.ToString());
        json.WriteEndArray();
        json.WriteStartArray("readings");
        foreach (var reading in how.Readings)
        {
            json.WriteStartObject();
            ChangeCodec.WriteNumber(json, "value", reading.Value);
            ChangeCodec.WriteNumber(json, "u", reading.U);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("side", how.Side);
        json.WriteStartArray("parts");
        foreach (var part in how.Parts) json.WriteNumberValue(part);
        json.WriteEndArray();
    }

    public static Construction Read(JsonElement json)
    {
        var word = ChangeCodec.Text(json, "construction");
        return new(
            EnumWords.ConstructionOf(word) ?? throw new FormatException($"A journal entry holds a construction of unknown kind '{word}'."),
            [.. json.GetProperty("parents").EnumerateArray().Select(parent => ChangeCodec.Key(parent.GetString()!))],
            [.. json.GetProperty("readings").EnumerateArray().Select(reading => new Reading(ChangeCodec.Number(reading, "value"), ChangeCodec.Number(reading, "u")))],
            json.GetProperty("side").GetInt32(),
            [.. json.GetProperty("parts").EnumerateArray().Select(part => part.GetInt32())]);
    }
}
