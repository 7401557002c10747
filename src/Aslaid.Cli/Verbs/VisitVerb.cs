using System.CommandLine;
using System.Globalization;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class VisitVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var (json, at) = (VerbParts.Json(), VerbParts.At());
        var file = new Option<string?>("--out") { Description = "Also write it to a file: .csv as a table, anything else as text.", HelpName = "FILE" };
        var verb = new Command("visit", "What only another visit can cure, as sentences in walking order.") { project, file, json, at };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record(parsed.GetValue(at));
            var stops = NextVisit.Plan(record);
            var stamp = string.Create(CultureInfo.InvariantCulture, $"{session.Name}, journal {record.Position}, head {session.HeadHash(record.Position)}");
            if (parsed.GetValue(file) is { } path)
                NamedFile.Write(path, path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? VisitText.Csv(stops) : VisitText.Plain(stops, stamp));
            if (parsed.GetValue(json)) Json.Write(shell.Out, writer => Write(writer, stops));
            else shell.Out.Write(VisitText.Plain(stops, stamp));
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid visit site.gpkg", "aslaid visit site.gpkg --out next-visit.csv");
    }

    private static void Write(System.Text.Json.Utf8JsonWriter json, IEnumerable<VisitStop> stops)
    {
        json.WriteStartArray();
        foreach (var stop in stops)
        {
            json.WriteStartObject();
            json.WriteNumber("order", stop.Order);
            json.WriteString("finding", stop.Finding.Id);
            json.WriteString("reshoot", EnumWords.Of(stop.Finding.Reshoot));
            json.WriteNumber("east_m", stop.Place.East);
            json.WriteNumber("north_m", stop.Place.North);
            json.Number("height_m", stop.Height);
            json.WriteNumber("walk_m", stop.Walk);
            json.WriteString("sentence", stop.Sentence);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
