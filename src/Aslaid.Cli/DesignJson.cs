using System.Globalization;
using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Cli;

/// <summary>The record held against the design as JSON with stable names: deviations, coverage, clearances, the design itself.</summary>
internal static class DesignJson
{
    public static void Deviations(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var one in Record.Deviations.Of(record))
        {
            json.WriteStartObject();
            json.WriteString("run", one.Run?.Key);
            json.WriteString("shot", record.Shots.Raw.Id(one.Row));
            json.WriteString("shot_key", record.Shots.Raw.Key(one.Row).ToString());
            json.WriteString("code", one.Code);
            json.WriteString("design", one.Design);
            json.Number("chainage_m", one.Chainage);
            json.WriteNumber("offset_m", one.Offset);
            json.Number("u_offset_m", one.UOffset);
            json.Number("height_m", one.Height);
            json.Number("u_height_m", one.UHeight);
            Judged(json, "plan", one.Plan);
            Judged(json, "height", one.Level);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Judged(Utf8JsonWriter json, string name, Judgement? judged)
    {
        if (judged is not { } known)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteStartObject("tolerance");
        json.Number("lower_m", known.Limits.Lower);
        json.Number("upper_m", known.Limits.Upper);
        json.WriteEndObject();
        if (known.Within is { } within) json.WriteBoolean("within", within);
        else json.WriteNull("within");
        json.Number("p_conforms", known.PConforms);
        json.WriteString("verdict", EnumWords.Of(known.Verdict));
        json.WriteEndObject();
    }

    public static void Coverage(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartObject();
        json.WriteStartArray("lines");
        foreach (var line in record.Site.Coverage.Lines)
        {
            json.WriteStartObject();
            json.WriteString("design", line.Line.Name);
            json.WriteString("code", line.Line.Code);
            json.WriteNumber("length_m", line.Line.Length);
            json.WriteNumber("measured_m", line.Length);
            json.WriteNumber("share", line.Share);
            json.WriteStartArray("missing");
            foreach (var range in line.Missing)
            {
                json.WriteStartObject();
                json.WriteNumber("from_m", line.Line.StationAt(range.From));
                json.WriteNumber("to_m", line.Line.StationAt(range.To));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("points");
        foreach (var point in record.Site.Coverage.Points)
        {
            json.WriteStartObject();
            json.WriteString("design", point.Point.Name);
            json.WriteString("code", point.Code);
            json.WriteNumber("east_m", point.Point.At.East);
            json.WriteNumber("north_m", point.Point.At.North);
            json.Number("height_m", point.Point.Height);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static void Clearances(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var one in record.Site.Clearances.All)
        {
            json.WriteStartObject();
            json.WriteString("kind", EnumWords.Of(one.Kind));
            json.WriteString("run", record.Runs[one.One].Key);
            json.WriteNumber("chainage_m", one.Chainage);
            json.WriteString("other_run", record.Runs[one.Other].Key);
            json.WriteNumber("other_chainage_m", one.OtherChainage);
            json.WriteNumber("plan_m", one.Plan);
            json.Number("vertical_m", one.Vertical);
            json.Number("space_m", one.Space);
            json.Number("u_m", one.Judgement.U);
            json.WriteString("source", one.Rule.Source);
            Judged(json, "judged", one.Judgement);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Design(Utf8JsonWriter json, AsBuiltRecord record)
    {
        var design = record.Site.Design;
        json.WriteStartObject();
        json.WriteStartArray("files");
        foreach (var file in design.Files)
        {
            json.WriteStartObject();
            json.WriteString("file", file.What.FileName);
            json.WriteString("sha256", file.What.Sha256);
            json.WriteNumber("journal", file.Entry);
            json.WriteBoolean("holds", file.Holds);
            json.WriteStartArray("skipped");
            foreach (var line in file.File.Skipped) json.WriteStringValue(line);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("lines");
        foreach (var line in design.Lines)
        {
            json.WriteStartObject();
            json.WriteString("design", line.Name);
            json.WriteString("code", line.Code);
            json.WriteString("file", line.Of.What.FileName);
            json.WriteNumber("length_m", line.Length);
            json.WriteNumber("from_m", line.StationAt(0));
            json.WriteNumber("to_m", line.StationAt(line.Length));
            json.WriteString("status", line.IsExisting ? "existing" : "new");
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("surfaces");
        foreach (var surface in design.Surfaces)
        {
            json.WriteStartObject();
            json.WriteString("surface", surface.Name);
            json.WriteString("kind", EnumWords.Of(surface.Kind));
            json.WriteString("date", surface.Date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            json.Number("u_m", surface.U);
            json.WriteNumber("triangles", surface.Tin.TriangleCount);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("unmapped");
        foreach (var word in design.Unmapped)
        {
            json.WriteStartObject();
            json.WriteString("word", word.Word);
            json.WriteNumber("lines", word.Lines);
            json.WriteNumber("points", word.Points);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
