using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Cli;

/// <summary>How good the record is, as JSON: verdicts, sessions, instruments.</summary>
internal static class AccuracyJson
{
    public static void Verdicts(Utf8JsonWriter json, AsBuiltRecord record)
    {
        var raw = record.Shots.Raw;
        json.WriteStartArray();
        foreach (var judged in Judgements.Of(record))
        {
            var judgement = judged.Judgement;
            json.WriteStartObject();
            json.WriteString("requirement", judged.Requirement.Name);
            json.WriteString("code", judged.Code);
            json.WriteString("run", judged.Run?.Key);
            json.WriteString("shot", raw.Id(judged.Shot));
            json.WriteString("key", raw.Key(judged.Shot).ToString());
            json.Number("from_m", judged.From);
            json.Number("to_m", judged.To);
            json.Number("value", judgement.Value);
            json.Number("u", judgement.U);
            json.Number("u95", judgement.U95);
            json.WriteString("unit", judged.Requirement.Unit);
            json.Number("lower", judgement.Limits.Lower);
            json.Number("upper", judgement.Limits.Upper);
            if (judgement.Within is { } within) json.WriteBoolean("within", within);
            else json.WriteNull("within");
            json.WriteString("verdict", EnumWords.Of(judgement.Verdict));
            json.Number("p_conforms", judgement.PConforms);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Sessions(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var session in SessionFacts.Of(record))
        {
            json.WriteStartObject();
            json.WriteNumber("session", session.Number + 1);
            json.WriteNumber("batch", session.Batch);
            json.WriteString("crew", session.Crew);
            json.WriteString("instrument", session.Instrument);
            json.WriteString("setup", session.Setup);
            json.WriteNumber("shots", session.Shots);
            json.WriteNumber("check_shots", session.Accuracy.CheckShots);
            json.WriteNumber("u_common_plan_m", session.Accuracy.UPlan * Math.Sqrt(2));
            json.WriteNumber("u_common_height_m", session.Accuracy.UHeight);
            if (session.Accuracy.CheckShots == 0) json.WriteNull("misfit_m");
            else
            {
                json.WriteStartArray("misfit_m");
                json.WriteNumberValue(session.Accuracy.East);
                json.WriteNumberValue(session.Accuracy.North);
                json.WriteNumberValue(session.Accuracy.Height);
                json.WriteEndArray();
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Instruments(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var instrument in record.Shots.Receivers)
        {
            json.WriteStartObject();
            json.WriteString("crew", instrument.Crew);
            json.WriteString("instrument", instrument.Name);
            json.WriteString("method", instrument.Method);
            json.WriteNumber("check_shots", instrument.CheckShots);
            Factor(json, "plan", instrument.Plan);
            Factor(json, "height", instrument.Height);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Factor(Utf8JsonWriter json, string axis, LearntFactor learnt)
    {
        json.WriteString(axis + "_state", EnumWords.Of(learnt.State));
        json.WriteNumber(axis + "_factor", learnt.Factor);
        json.Number(axis + "_ratio", learnt.Ratio);
    }
}
