using System.Text.Json;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What is told of a run: its measures, its true pieces, its vertices as shot, its lengths by state.</summary>
internal sealed class RunProperties(AsBuiltRecord record, ShotFacts facts)
{
    private readonly ClientFields fields = new(record);
    private readonly ILookup<int, Hold> holds = record.Holds.ToLookup(hold => hold.Run);

    /// <param name="points">The places as they stand in the geometry.</param>
    public void Write(Utf8JsonWriter json, Run run, PathPoint[] points)
    {
        json.WriteStartObject();
        json.WriteString("what", "run");
        json.WriteString("run", run.Key);
        json.WriteString("label", run.Label);
        json.WriteString("code", run.Code);
        json.WriteString("name", run.Entry?.Name);
        json.WriteString("layer", record.Inputs.Delivery.LayerOf(run.Code));
        json.WriteString("status", run.Facts.StatusWord);
        json.WriteString("flow", run.Facts.FlowWord);
        json.WriteString("start", run.Facts.Start);
        json.WriteString("end", run.Facts.End);
        json.WriteBoolean("closed", run.IsClosed);
        json.Fixed("plan_length_m", run.PlanLength, Fixed.Coordinate);
        json.Fixed("u_plan_length_m", run.UPlanLength, Fixed.Coordinate);
        json.Fixed("slope_length_m", run.SlopeLength, Fixed.Coordinate);
        json.Fixed("u_slope_length_m", run.USlopeLength, Fixed.Coordinate);
        json.Fixed("area_m2", run.Area, Fixed.Area);
        json.Fixed("u_area_m2", run.UArea, Fixed.Area);
        foreach (var (name, value) in fields.Of(run)) json.WriteString("attribute " + name, value);
        json.WriteStartArray("height_m");
        foreach (var point in points)
        {
            if (point.Height is { } height) json.Fixed(height, Fixed.Coordinate);
            else json.WriteNullValue();
        }

        json.WriteEndArray();
        Pieces(json, run);
        Vertices(json, run);
        Holds(json, run);
        json.WriteEndObject();
    }

    private void Pieces(Utf8JsonWriter json, Run run)
    {
        json.WriteStartArray("pieces");
        for (var at = 0; at < run.PieceCount; at++)
        {
            var piece = run.Piece(at);
            json.WriteStartObject();
            json.WriteString("kind", EnumWords.Of(piece.Kind));
            json.WriteStartArray("shots");
            foreach (var shot in run.Members[piece.First..(piece.Last + 1)]) json.WriteStringValue(record.Shots.Raw.Key(shot).ToString());
            json.WriteEndArray();
            Place(json, "from", piece.From, record.Shots.HeightOf(run.Members[piece.First]));
            Place(json, "to", piece.To, record.Shots.HeightOf(run.Members[piece.Last]));
            if (piece.Kind == PieceKind.Arc)
            {
                json.Fixed("radius_m", piece.Arc.Radius, Fixed.Coordinate);
                json.Fixed("u_radius_m", piece.URadius, Fixed.Coordinate);
                Place(json, "centre", piece.Arc.Centre, null);
                json.Fixed("sweep_deg", double.RadiansToDegrees(piece.Arc.Sweep), Fixed.Angle);
                json.WriteString("turns", piece.Arc.Turn == Turn.Left ? "left" : "right");
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private void Vertices(Utf8JsonWriter json, Run run)
    {
        json.WriteStartArray("vertices");
        for (var member = 0; member < run.MemberCount; member++)
        {
            json.WriteStartObject();
            json.Fixed("chainage_m", run.Chainages[member], Fixed.Coordinate);
            json.WriteBoolean("through", run.Through[member]);
            ShotProperties.Write(json, record, run.Members[member], facts);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private void Holds(Utf8JsonWriter json, Run run)
    {
        json.WriteStartArray("holds");
        foreach (var hold in holds[run.Number])
        {
            json.WriteStartObject();
            json.Fixed("from_m", hold.From, Fixed.Coordinate);
            json.Fixed("to_m", hold.To, Fixed.Coordinate);
            json.WriteString("state", EnumWords.Of(hold.State));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Place(Utf8JsonWriter json, string name, Point2 at, double? height)
    {
        json.WriteStartArray(name);
        json.Fixed(at.East, Fixed.Coordinate);
        json.Fixed(at.North, Fixed.Coordinate);
        if (height is { } known) json.Fixed(known, Fixed.Coordinate);
        json.WriteEndArray();
    }
}
