using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Cli;

/// <summary>Nodes as programs read them.</summary>
internal static class NodeJson
{
    public static void Write(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var node in record.Site.Nodes.All)
        {
            var at = record.Shots.At(node.Row);
            json.WriteStartObject();
            json.WriteString("node", record.Shots.Raw.Id(node.Row));
            json.WriteString("key", record.Shots.Raw.Key(node.Row).ToString());
            json.WriteString("code", record.Shots.CodeOf(node.Row));
            json.WriteNumber("east_m", at.East);
            json.WriteNumber("north_m", at.North);
            json.Number("height_m", record.Shots.HeightOf(node.Row));
            json.WriteStartArray("connections");
            foreach (var (what, entry) in node.Connections)
            {
                json.WriteStartObject();
                json.WriteString("name", what.Name);
                json.Number("invert_m", what.Invert);
                json.Number("size_m", what.Size);
                json.Number("clock_h", what.Clock);
                json.WriteString("run", what.Run);
                json.WriteString("end", what.End is { } end ? EnumWords.Of(end) : null);
                json.WriteNumber("journal", entry);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("ends");
            foreach (var end in node.Ends)
            {
                json.WriteStartObject();
                json.WriteString("run", record.Runs[end.Run].Key);
                json.WriteString("end", EnumWords.Of(end.End));
                json.WriteString("shot", record.Shots.Raw.Id(end.Shot));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
