using System.CommandLine;
using System.Globalization;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class SetOutVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var line = new Argument<string>("LINE") { Description = "A line of the design, as show design names it." };
        var every = VerbParts.Metres("--every", "Metres between stations; none where left out.");
        var stations = new Option<string[]>("--station") { Description = "A station in metres; may be given several times.", HelpName = "M", AllowMultipleArgumentsPerToken = true };
        var offset = VerbParts.Metres("--offset", "Metres square off the line, right positive; 0 where left out.");
        var file = new Option<string?>("--out") { Description = "Also write it to a file: .xml as LandXML points, anything else as CSV.", HelpName = "FILE" };
        var json = VerbParts.Json();
        var verb = new Command("set-out", "Places to set out along a line of the design: at an interval, at tangent points, bends and changes of grade, and where asked.") { project, line, every, stations, offset, file, json };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var (design, name) = (session.Record().Site.Design, parsed.GetValue(line)!);
            var of = design.Find(name) ?? throw new ProjectException($"The design has no line {name}. List them with: aslaid show {parsed.GetValue(project)} design");
            if (parsed.GetValue(every) is { } step && !(step > 0 && of.Length / step <= SetOut.Most)) throw new ProjectException($"--every is above 0, and makes no more than {SetOut.Most} places.");
            var asked = (parsed.GetValue(stations) ?? []).Select(Station).ToArray();
            foreach (var station in asked)
                if (of.Line.Stationing.ChainagesOf(station, of.Length).IsEmpty) throw new ProjectException(FormattableString.Invariant($"{of.Name} has no station {station:0.###}: it goes from {of.StationAt(0):0.###} to {of.StationAt(of.Length):0.###} m."));
            var right = parsed.GetValue(offset) ?? 0;
            var points = SetOut.Of(of, parsed.GetValue(every), asked, right);
            if (parsed.GetValue(file) is { } path)
            {
                if (path.EndsWith(".xml", StringComparison.OrdinalIgnoreCase)) SetOutFile.LandXml(path, points, of.Name, of.Code, right, shell.Clock.GetUtcNow());
                else NamedFile.Write(path, Encoding.UTF8.GetString(SetOutFile.Csv(points, of.Code, right)));
            }

            if (parsed.GetValue(json)) Json.Write(shell.Out, writer => Write(writer, points, of, right));
            else
            {
                var table = new Columns("id", "station m", "east m", "north m", "height m", "what");
                foreach (var point in points) table.Add(point.Id, Figures.Metres(point.Station), Figures.Metres(point.At.East), Figures.Metres(point.At.North), Figures.Metres(point.Height), point.What);
                table.Write(shell.Out);
                shell.Say($"{of.Name}, {of.Code ?? "no code"}, {of.Of.What.FileName} (journal {of.Of.Entry}); offset {right:+0.000;-0.000;0.000} m, right positive. Check on control before and after. This is the design, not what lies there: locate services before digging.");
            }

            return Exit.Fine;
        });
        return verb.WithExamples("aslaid set-out site.gpkg WM-1 --every 10", "aslaid set-out site.gpkg KF-1 --every 5 --station 12.5 --offset -0.5 --out kerb.csv", "aslaid set-out site.gpkg WM-1 --every 10 --out main.xml");
    }

    private static double Station(string text) => double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var station)
        ? station : throw new ProjectException($"--station: '{text}' is no number of metres, as 12.5.");

    private static void Write(System.Text.Json.Utf8JsonWriter json, IEnumerable<SetOutPoint> points, DesignedLine line, double offset)
    {
        json.WriteStartArray();
        foreach (var point in points)
        {
            json.WriteStartObject();
            json.WriteString("id", point.Id);
            json.WriteString("design", line.Name);
            json.WriteNumber("station_m", point.Station);
            json.WriteNumber("chainage_m", point.Chainage);
            json.WriteNumber("offset_m", offset);
            json.WriteNumber("east_m", point.At.East);
            json.WriteNumber("north_m", point.At.North);
            json.Number("height_m", point.Height);
            json.WriteString("what", point.What);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
