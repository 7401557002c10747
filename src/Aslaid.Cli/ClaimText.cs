using System.Collections.Immutable;
using System.Text.Json;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli;

/// <summary>Claims as people and programs read them: previous, this period, to date.</summary>
internal static class ClaimText
{
    public static void Print(Shell shell, ProjectSession session, AsBuiltRecord record)
    {
        foreach (var claim in Of(session, record))
        {
            shell.Say($"{(claim.Period is { } period ? $"Period {period}, claimed at journal {claim.Entry} for the record up to {claim.Upto}" : $"Not claimed yet, the record up to {claim.Upto}")}:");
            if (claim.Lines.IsEmpty)
            {
                shell.Say($"  nothing");
                continue;
            }

            var table = new Columns("pay item", "code", "kind", "depth", "previous", "this period", "to date", "unit", "");
            foreach (var line in claim.Lines)
            {
                var kind = line.Line.Kind;
                table.Add(line.Line.Item ?? "–", line.Line.Code, EnumWords.Of(kind), line.Line.Band.Length == 0 ? "–" : line.Line.Band, Figure(kind, line.Previous), Figure(kind, line.Now), Figure(kind, line.ToDate),
                    kind switch { QuantityKind.Area => "m2", QuantityKind.Count => "no", _ => "m" }, line.Now < -0.0005 ? "correction" : "");
            }

            table.Write(shell.Out);
        }

        shell.Say($"Counted: new runs in plan along straights and true arcs, {(record.Inputs.Settings.NodeLeftOutShare == 0 ? "through chambers" : "chambers left out by their size")}; depth as the attribute trench_depth_m states it; each shot and length once.");
    }

    private static string Figure(QuantityKind kind, double value) => kind == QuantityKind.Count ? value.ToString("0", System.Globalization.CultureInfo.InvariantCulture) : Figures.Metres(Math.Abs(value) < 0.0005 ? 0 : value); // no minus before nothing

    private static ImmutableArray<Claim> Of(ProjectSession session, AsBuiltRecord record) =>
        Claims.Of([.. session.Journal.Take(record.Position)], at => at == record.Position ? record : session.Record(at));

    public static void Write(Utf8JsonWriter json, ProjectSession session, AsBuiltRecord record)
    {
        json.WriteStartArray();
        foreach (var claim in Of(session, record))
        {
            json.WriteStartObject();
            json.WriteString("period", claim.Period);
            json.WriteNumber("journal", claim.Entry);
            json.WriteNumber("upto", claim.Upto);
            json.WriteStartArray("lines");
            foreach (var line in claim.Lines)
            {
                json.WriteStartObject();
                json.WriteString("pay_item", line.Line.Item);
                json.WriteString("code", line.Line.Code);
                json.WriteString("kind", EnumWords.Of(line.Line.Kind));
                json.WriteString("depth", line.Line.Band);
                json.WriteNumber("previous", line.Previous);
                json.WriteNumber("this_period", line.Now);
                json.WriteNumber("to_date", line.ToDate);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
