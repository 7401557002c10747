using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class HandoverVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var target = new Option<string>("--out") { Description = "A new folder, or a name ending in .zip.", HelpName = "DIR|ZIP", Required = true };
        var (by, at) = (VerbParts.By(), VerbParts.At());
        var verb = new Command("handover", "Write the package for the client: drawings, data, journal, and a manifest of hashes.") { project, target, by, at };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record(parsed.GetValue(at));
            var manifest = Progress.Run(shell, "Writing the handover", _ =>
                PackageWriter.Write(session, record, parsed.GetValue(target)!, VerbParts.ActorOf(parsed.GetValue(by)).Name, shell.Clock));
            Say(shell, record, manifest, parsed.GetValue(target)!);
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid handover site.gpkg --out handover-1", "aslaid handover site.gpkg --out handover-1.zip --by \"A. Person\"");
    }

    internal static void Say(Shell shell, AsBuiltRecord record, Manifest manifest, string target)
    {
        foreach (var file in manifest.Files) shell.Say($"  {file.Name,-24} {file.Bytes,10} bytes  {file.What}");
        shell.Say($"{target}: {manifest.Files.Length} files, journal {manifest.Journal}, head {manifest.Head}.");
        var held = Enumerable.Range(0, record.Findings.Count).Count(number => record.Findings[number].Holds);
        if (held > 0) shell.Say($"{Figures.Count(held, "finding")} still {(held == 1 ? "holds" : "hold")} lengths of this record; what holds is in the package as it stands.");
    }
}
