using System.Text.Json;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli;

/// <summary>The record as JSON with stable names; lengths in metres, angles in degrees, null where unknown.</summary>
internal static class RecordJson
{
    public static void Check(Utf8JsonWriter json, ProjectSession session, AsBuiltRecord record, bool holds)
    {
        json.WriteStartObject();
        json.WriteString("project", session.Name);
        json.WriteNumber("journal", record.Position);
        json.WriteString("head", session.HeadHash(record.Position));
        json.WriteBoolean("holds", holds);
        json.WriteNumber("shots", record.Shots.Raw.Again.Count(-1));
        json.WriteNumber("runs", record.Runs.Count);
        var length = HoldTotals.Of(record);
        json.WriteStartObject("lengths_m");
        foreach (var state in Enum.GetValues<HoldState>()) json.WriteNumber(EnumWords.Of(state), length[(int)state]);
        json.WriteEndObject();
        Findings(json, "findings", record);
        json.WriteStartArray("unresolved");
        foreach (var line in record.Unresolved) json.WriteStringValue(line);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static void Findings(Utf8JsonWriter json, string? name, AsBuiltRecord record)
    {
        Open(json, name);
        foreach (var finding in Summary.FindingsInOrder(record)) Finding(json, finding);
        json.WriteEndArray();
    }

    public static void Finding(Utf8JsonWriter json, Finding finding)
    {
        json.WriteStartObject();
        json.WriteString("id", finding.Id);
        json.WriteString("check", finding.Check.Name);
        json.WriteString("severity", EnumWords.Of(finding.Severity));
        json.WriteStartArray("shots");
        foreach (var id in finding.ShotIds) json.WriteStringValue(id);
        json.WriteEndArray();
        json.WriteStartArray("shot_keys");
        foreach (var shot in finding.Shots) json.WriteStringValue(finding.Table.RunTable.Shots.Raw.Key(shot).ToString());
        json.WriteEndArray();
        json.WriteStartArray("runs");
        if (finding.Run is { } run) json.WriteStringValue(run.Key);
        json.WriteEndArray();
        if (finding.From is { } from && finding.To is { } to) Numbers(json, "range", from, to);
        else json.WriteNull("range");
        Point(json, "at", finding.At, finding.AtHeight);
        json.Number("measured", finding.Measured);
        json.Number("allowed", finding.Allowed);
        json.WriteString("unit", finding.Check.Unit);
        json.WriteString("message", finding.Message);
        json.WriteString("cure", finding.Cure);
        if (finding.Correction is { } correction) json.WriteString("correction", ChangeCodec.KindOf(correction));
        else json.WriteNull("correction");
        json.WriteString("reshoot", EnumWords.Of(finding.Reshoot));
        json.WriteString("state", EnumWords.Of(finding.State));
        json.WriteString("under", finding.Under?.Id);
        json.WriteStartArray("folded");
        foreach (var other in finding.Folded) json.WriteStringValue(other.Id);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static void Runs(Utf8JsonWriter json, AsBuiltRecord record)
    {
        var holds = record.Holds.ToLookup(hold => hold.Run);
        json.WriteStartArray();
        for (var number = 0; number < record.Runs.Count; number++) Run(json, record, record.Runs[number], holds[number]);
        json.WriteEndArray();
    }

    private static void Run(Utf8JsonWriter json, AsBuiltRecord record, Run run, IEnumerable<Hold> holds)
    {
        json.WriteStartObject();
        json.WriteString("run", run.Key);
        json.WriteString("label", run.Label);
        json.WriteString("code", run.Code);
        json.WriteString("status", run.Facts.StatusWord);
        json.WriteString("flow", run.Facts.FlowWord);
        json.WriteString("start", run.Facts.Start);
        json.WriteString("end", run.Facts.End);
        json.WriteBoolean("closed", run.IsClosed);
        json.WriteNumber("plan_length_m", run.PlanLength);
        json.Number("u_plan_length_m", run.UPlanLength);
        json.Number("slope_length_m", run.SlopeLength);
        json.Number("u_slope_length_m", run.USlopeLength);
        json.Number("area_m2", run.Area);
        json.Number("u_area_m2", run.UArea);
        json.WriteString("path", PathNotation.Write(run));
        json.WriteStartObject("attributes");
        foreach (var (name, value) in record.Runs.AttributesOf(run.Number)) json.WriteString(name, value);
        json.WriteEndObject();
        json.WriteStartArray("holds");
        foreach (var hold in holds) Hold(json, record, hold);
        json.WriteEndArray();
        json.WriteStartArray("pieces");
        for (var piece = 0; piece < run.PieceCount; piece++) Piece(json, run.Piece(piece));
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Piece(Utf8JsonWriter json, Piece piece)
    {
        var (run, shots) = (piece.Run, piece.Run.Table.Shots);
        json.WriteStartObject();
        json.WriteString("kind", EnumWords.Of(piece.Kind));
        json.WriteStartArray("shots");
        for (var member = piece.First; member <= piece.Last; member++) json.WriteStringValue(shots.Raw.Id(run.Members[member]));
        json.WriteEndArray();
        Point(json, "from", piece.From, shots.HeightOf(run.Members[piece.First]));
        Point(json, "to", piece.To, shots.HeightOf(run.Members[piece.Last]));
        if (piece.Kind == PieceKind.Arc)
        {
            var arc = piece.Arc;
            json.WriteNumber("radius_m", arc.Radius);
            json.Number("u_radius_m", piece.URadius);
            if (piece.URadius is { } u && !RadiusInterval.IsLinear(arc.Radius, u))
            {
                var interval = RadiusInterval.Of(arc.Radius, u);
                json.WriteNumber("radius_low_m", interval.Low);
                json.Number("radius_high_m", double.IsFinite(interval.High) ? interval.High : null);
            }

            Numbers(json, "centre", arc.Centre.East, arc.Centre.North);
            json.WriteNumber("sweep_deg", double.RadiansToDegrees(arc.Sweep));
            json.WriteString("turns", arc.Turn == Turn.Left ? "left" : "right");
        }

        json.WriteEndObject();
    }

    public static void Holds(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var hold in record.Holds) Hold(json, record, hold);
        json.WriteEndArray();
    }

    private static void Hold(Utf8JsonWriter json, AsBuiltRecord record, Hold hold)
    {
        json.WriteStartObject();
        json.WriteString("run", record.Runs[hold.Run].Key);
        json.WriteNumber("from_m", hold.From);
        json.WriteNumber("to_m", hold.To);
        json.WriteString("state", EnumWords.Of(hold.State));
        json.WriteStartArray("by");
        foreach (var finding in hold.By) json.WriteStringValue(record.Findings[finding].Id);
        json.WriteEndArray();
        json.WriteStartArray("lapsed_releases");
        foreach (var position in hold.Lapsed) json.WriteNumberValue(position);
        json.WriteEndArray();
        if (hold.Entry > 0) json.WriteNumber("journal", hold.Entry);
        else json.WriteNull("journal");
        json.WriteEndObject();
    }

    public static void Quantities(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var quantity in record.Quantities)
        {
            json.WriteStartObject();
            json.WriteString("code", quantity.Code);
            json.WriteString("pay_item", quantity.PayItem);
            json.WriteString("kind", EnumWords.Of(quantity.Kind));
            json.WriteNumber("value", quantity.Value);
            json.WriteString("unit", quantity.Unit);
            json.Number("u", quantity.U);
            json.Number("of_which_held", quantity.Held);
            json.Number("gross", quantity.Gross);
            json.WriteNumber("runs", quantity.Runs);
            json.WriteNumber("left_out", quantity.LeftOut);
            json.WriteString("rule", quantity.Rule);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Shots(Utf8JsonWriter json, AsBuiltRecord record)
    {
        var shots = record.Shots;
        json.WriteStartArray();
        for (var row = 0; row < shots.Count; row++)
        {
            if (!shots.IsPlace(row)) continue;
            var shot = shots.Raw[row];
            json.WriteStartObject();
            json.WriteString("id", shot.Id);
            if (shots.Raw.IsConstructed(row)) json.WriteString("constructed", shots.Raw.Text("constructed", row));
            json.WriteString("key", shot.Key.ToString());
            json.WriteString("crew", shot.Crew);
            Point(json, "at", shot.At, shots.HeightOf(row));
            json.Number("height_measured_m", shot.Height);
            json.WriteString("code", shots.CodeOf(row));
            json.WriteString("code_measured", shot.Code);
            json.WriteString("run", shots.Labels[shots.Label[row]]);
            json.WriteString("leg", EnumWords.Of(shot.Leg));
            if (shot.Time is { } time) json.WriteString("time", time);
            else json.WriteNull("time");
            json.Number("u_plan_m", double.IsNaN(shots.SigmaPlan[row]) ? null : shots.SigmaPlan[row] * Math.Sqrt(2));
            json.Number("u_height_m", double.IsNaN(shots.SigmaHeight[row]) ? null : shots.SigmaHeight[row]);
            json.Number("u_place_m", double.IsNaN(shots.SigmaPlan[row]) ? null : shots.PlaceSigma(row) * Math.Sqrt(2));
            json.Number("u_level_m", double.IsNaN(shots.SigmaHeight[row]) ? null : shots.LevelSigma(row));
            json.WriteNumber("session", shots.Session[row] + 1);
            json.WriteBoolean("used", shots.Used[row]);
            json.WriteStartArray("journal");
            foreach (var position in shots.BecauseOf(row)) json.WriteNumberValue(position);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Journal(Utf8JsonWriter json, ProjectSession session, int position)
    {
        json.WriteStartArray();
        foreach (var entry in session.Journal.Take(position))
        {
            json.WriteStartObject();
            json.WriteString("hash", session.HeadHash(entry.Position));
            json.WritePropertyName("entry");
            json.WriteRawValue(session.EntryBytes(entry.Position));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Batches(Utf8JsonWriter json, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var batch in record.Shots.Raw.Batches)
        {
            json.WriteStartObject();
            json.WriteNumber("batch", batch.Number);
            json.WriteString("file", batch.FileName);
            json.WriteString("file_sha256", batch.FileSha256);
            json.WriteString("crew", batch.Crew);
            json.WriteNumber("rows", batch.Count);
            json.Number("declared_u_plan_m", batch.Declared.UPlan);
            json.Number("declared_u_height_m", batch.Declared.UHeight);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Open(Utf8JsonWriter json, string? name)
    {
        if (name is null) json.WriteStartArray();
        else json.WriteStartArray(name);
    }

    private static void Point(Utf8JsonWriter json, string name, Point2 at, double? height)
    {
        json.WriteStartArray(name);
        json.WriteNumberValue(at.East);
        json.WriteNumberValue(at.North);
        if (height is { } known) json.WriteNumberValue(known);
        else json.WriteNullValue();
        json.WriteEndArray();
    }

    private static void Numbers(Utf8JsonWriter json, string name, double first, double second)
    {
        json.WriteStartArray(name);
        json.WriteNumberValue(first);
        json.WriteNumberValue(second);
        json.WriteEndArray();
    }
}
