using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class CheckVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var (json, at) = (VerbParts.Json(), VerbParts.At());
        var all = new Option<bool>("--all") { Description = "List every finding, not only the first 40." };
        var verb = new Command("check", "Check the record: exit 0, nothing holds; 1, something holds; 2, it could not run.") { project, json, at, all };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record(parsed.GetValue(at));
            var holds = !record.Unresolved.IsEmpty || Enumerable.Range(0, record.Findings.Count).Any(number => record.Findings[number].Holds);
            if (parsed.GetValue(json)) Json.Write(shell.Out, json => RecordJson.Check(json, session, record, holds));
            else Print(shell, record, parsed.GetValue(all) ? int.MaxValue : 40);
            if (!session.IsPublished) shell.Tell($"The layers in {parsed.GetValue(project)} show an earlier state of the journal; the next take or correct brings them up to date.");
            return holds ? Exit.Holds : Exit.Fine;
        });
        return verb.WithExamples("aslaid check site.gpkg", "aslaid check site.gpkg --json | jq '.findings[] | select(.severity == \"stop\")'");
    }

    internal static void Print(Shell shell, AsBuiltRecord record, int most)
    {
        Summary.Print(shell, record);
        var order = Summary.FindingsInOrder(record);
        foreach (var finding in order.Take(most)) Summary.Print(shell, finding);
        if (order.Count > most) shell.Say($"… and {order.Count - most} more; --all lists them.");
        foreach (var line in record.Unresolved) shell.Say($"stop {line} Withdraw it, or write it anew for what is there now.");
    }
}
