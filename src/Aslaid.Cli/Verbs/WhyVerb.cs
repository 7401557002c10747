using System.Collections.Immutable;
using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class WhyVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var thing = new Argument<string>("THING") { Description = "A finding (F-…), a run (label or key), a shot (id, 101@Crew or batch:line), or a code for its quantities." };
        var (json, at) = (VerbParts.Json(), VerbParts.At());
        var verb = new Command("why", "Unfold a finding, a run, a shot or a quantity into what it rests on.") { project, thing, json, at };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var lines = Explain(session.Record(parsed.GetValue(at)), parsed.GetValue(thing)!);
            if (parsed.GetValue(json)) Json.Write(shell.Out, json => Write(json, lines));
            else foreach (var line in lines) shell.Out.WriteLine(new string(' ', 2 * line.Depth) + line.Text);
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid why site.gpkg F-3K7Q2MX", "aslaid why site.gpkg WM-1", "aslaid why site.gpkg 13@North", "aslaid why site.gpkg WATER-MAIN");
    }

    private static ImmutableArray<WhyLine> Explain(AsBuiltRecord record, string thing)
    {
        if (record.Findings.Find(thing) is { } finding) return Explanation.Of(record, finding);
        if (record.Quantities.Any(quantity => quantity.Code == thing)) return Explanation.Of(record, thing);
        var isRun = Enumerable.Range(0, record.Runs.Count).Any(number => record.Runs[number].Label == thing || record.Runs[number].Key == thing);
        if (!isRun && thing.StartsWith("F-", StringComparison.OrdinalIgnoreCase))
            throw new ProjectException($"There is no finding {thing} now. List them with: aslaid show PROJECT findings");
        if (!isRun && new ShotLookup(record.Shots.Raw, record.Shots.Versions).Find(thing, null, out _) is { } shot && record.Shots.Raw.Find(shot) is >= 0 and var row) return Explanation.OfShot(record, row);
        return Explanation.Of(record, VerbParts.RunOf(record, thing));
    }

    private static void Write(System.Text.Json.Utf8JsonWriter json, ImmutableArray<WhyLine> lines)
    {
        json.WriteStartArray();
        foreach (var line in lines)
        {
            json.WriteStartObject();
            json.WriteNumber("depth", line.Depth);
            json.WriteString("text", line.Text);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
