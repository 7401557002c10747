using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What is told of a finding.</summary>
internal static class FindingProperties
{
    public static void Write(Utf8JsonWriter json, AsBuiltRecord record, Finding finding)
    {
        json.WriteStartObject();
        json.WriteString("what", "finding");
        json.WriteString("id", finding.Id);
        json.WriteString("check", finding.Check.Name);
        json.WriteString("severity", EnumWords.Of(finding.Severity));
        json.WriteString("state", EnumWords.Of(finding.State));
        json.WriteStartArray("shots");
        foreach (var shot in finding.Shots) json.WriteStringValue(TablesDeliverable.Ids(record, [shot]));
        json.WriteEndArray();
        json.WriteString("run", finding.Run?.Key);
        json.Fixed("from_m", finding.From, Fixed.Coordinate);
        json.Fixed("to_m", finding.To, Fixed.Coordinate);
        json.Fixed("height_m", finding.AtHeight, Fixed.Coordinate);
        json.Fixed("measured", finding.Measured, Fixed.Figure);
        json.Fixed("allowed", finding.Allowed, Fixed.Figure);
        json.WriteString("unit", finding.Check.Unit);
        json.WriteString("message", finding.Message);
        json.WriteString("cure", finding.Cure);
        json.WriteString("reshoot", EnumWords.Of(finding.Reshoot));
        json.WriteEndObject();
    }
}
