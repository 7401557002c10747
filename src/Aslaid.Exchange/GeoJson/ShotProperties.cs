using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What is told of a shot: alone, or as a vertex of a run.</summary>
internal static class ShotProperties
{
    /// <summary>Members of an object that the caller opens and closes.</summary>
    public static void Write(Utf8JsonWriter json, AsBuiltRecord record, int row, ShotFacts facts)
    {
        json.WriteString("shot", record.Shots.Raw.Key(row).ToString());
        json.WriteString("id", record.Shots.Raw.Id(row));
        json.WriteString("crew", record.Shots.Raw.Crew(row));
        json.Fixed("height_m", record.Shots.HeightOf(row), Fixed.Coordinate);
        json.WriteString("accuracy", facts.Accuracy(row));
        json.Fixed("u_plan_m", facts.UPlan(row), Fixed.Coordinate);
        json.Fixed("u_height_m", facts.UHeight(row), Fixed.Coordinate);
        json.WriteString("method", facts.Method(row));
        json.WriteString("time", facts.Time(row));
    }
}
