using System.CommandLine;
using System.IO;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class NewVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var name = new Option<string?>("--name") { Description = "What the project is called on sheets; the file's name where left out.", HelpName = "NAME" };
        var codes = new Option<string?>("--codes") { Description = "Code book; the default one where left out.", HelpName = "CSV" };
        var settings = new Option<string?>("--settings") { Description = "Settings, lines of name = value; the defaults where left out.", HelpName = "FILE" };
        var crs = new Option<string?>("--crs") { Description = "Coordinate system of the site grid: EPSG:258xx, 326xx, 327xx or WKT 1; a bare site grid where left out.", HelpName = "SYSTEM" };
        var by = VerbParts.By();
        var verb = new Command("new", "Make a project.") { project, name, codes, settings, crs, by };
        verb.SetAction(parsed =>
        {
            var path = parsed.GetValue(project)!;
            using var session = ProjectSession.Create(
                path, parsed.GetValue(name) ?? Path.GetFileNameWithoutExtension(path), VerbParts.ActorOf(parsed.GetValue(by)), shell.Clock,
                Read(parsed.GetValue(codes)), Adoptions.WithCoordinateSystem(Read(parsed.GetValue(settings)), parsed.GetValue(crs)));
            session.Publish();
            shell.Say($"Made {path}: {session.Record().Inputs.Codes.Entries.Length} codes, journal {session.Position}.");
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid new site.gpkg", "aslaid new site.gpkg --name \"Marlhithe Interchange\" --codes codes.csv --crs EPSG:25832");
    }

    private static (string Name, byte[] Bytes)? Read(string? path) => path is null ? null : (Path.GetFileName(path), NamedFile.Read(path));
}
