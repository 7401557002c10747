using System.CommandLine;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class LongSectionVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var run = new Argument<string>("RUN") { Description = "The run: its label or key." };
        var every = VerbParts.Metres("--every", "Metres between further places; only shots and breaks of the surface where left out.");
        var file = new Option<string?>("--out") { Description = "Also write it to a file as CSV.", HelpName = "FILE" };
        var (json, at) = (VerbParts.Json(), VerbParts.At());
        var verb = new Command("long-section", "The long section of a run: surface, design, built, cover, fall between shots.") { project, run, every, file, json, at };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record(parsed.GetValue(at));
            var of = VerbParts.RunOf(record, parsed.GetValue(run)!);
            if (parsed.GetValue(every) is { } step && !(step > 0 && of.PlanLength / step <= SetOut.Most)) throw new ProjectException($"--every is above 0, and makes no more than {SetOut.Most} places.");
            var rows = LongSection.Of(record, of, parsed.GetValue(every));
            if (parsed.GetValue(file) is { } path) NamedFile.Write(path, Encoding.UTF8.GetString(LongSectionFile.Csv(record, rows)));
            if (parsed.GetValue(json)) Json.Write(shell.Out, writer => Write(writer, record, rows));
            else
            {
                var table = new Columns("chainage m", "shot", "surface m", "top m", "cover m", "built m", "designed m", "station m", "offset m", "fall %, 95 %");
                foreach (var row in rows)
                    table.Add(Figures.Metres(row.Chainage), row.Shot is { } shot ? record.Shots.Raw.Id(shot) : "–", Figures.Metres(row.Surface), Figures.Metres(row.Top), Figures.Metres(row.Cover), Figures.Metres(row.Built),
                        Figures.Metres(row.Designed), Figures.Metres(row.Station), Figures.Metres(row.Offset), row.Fall is { } fall ? Figures.With95(100 * fall, 100 * row.UFall) : "–");
                table.Write(shell.Out);
                foreach (var name in rows.Select(row => row.SurfaceName).OfType<string>().Distinct())
                    if (record.Site.Design.Surfaces.FirstOrDefault(surface => surface.Name == name) is { } surface)
                        shell.Say($"Surface {name}: {EnumWords.Of(surface.Kind)}{(surface.Date is { } date ? FormattableString.Invariant($", {date:yyyy-MM-dd}") : ", no date given")}, {surface.Of.What.FileName}. Depth refers to it, on that date.");
            }

            return Exit.Fine;
        });
        return verb.WithExamples("aslaid long-section site.gpkg SD-1", "aslaid long-section site.gpkg WM-1 --every 5 --out wm-1.csv");
    }

    private static void Write(System.Text.Json.Utf8JsonWriter json, AsBuiltRecord record, IEnumerable<SectionRow> rows)
    {
        json.WriteStartArray();
        foreach (var row in rows)
        {
            json.WriteStartObject();
            json.WriteNumber("chainage_m", row.Chainage);
            json.WriteString("shot", row.Shot is { } shot ? record.Shots.Raw.Id(shot) : null);
            json.WriteNumber("east_m", row.At.East);
            json.WriteNumber("north_m", row.At.North);
            json.WriteString("surface", row.SurfaceName);
            json.Number("surface_height_m", row.Surface);
            json.Number("top_m", row.Top);
            json.Number("cover_m", row.Cover);
            json.Number("built_m", row.Built);
            json.WriteString("design", row.Design);
            json.Number("station_m", row.Station);
            json.Number("designed_m", row.Designed);
            json.Number("offset_m", row.Offset);
            json.Number("fall_pct", 100 * row.Fall);
            json.Number("u_fall_pct", 100 * row.UFall);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
