using System.CommandLine;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class CompareVerb
{
    private const int Told = 40;

    public static Command Make(Shell shell)
    {
        var first = new Argument<string>("A") { Description = "A project (site.gpkg), a journal position of one (site.gpkg@12), or a package (folder or ZIP)." };
        var second = new Argument<string>("B") { Description = "The same, to compare it with." };
        var (json, all) = (VerbParts.Json(), new Option<bool>("--all") { Description = "List every difference, not only the first 40." });
        var verb = new Command("compare", "Say what differs between two records: runs, shots, findings, quantities. Exit 0: nothing; 1: something.") { first, second, json, all };
        verb.SetAction(parsed =>
        {
            var (a, b) = (Snapshot.Of(parsed.GetValue(first)!, shell.Clock), Snapshot.Of(parsed.GetValue(second)!, shell.Clock));
            var differences = Comparison.Of(a, b);
            if (parsed.GetValue(json)) Json.Write(shell.Out, writer => Write(writer, a, b, differences));
            else
            {
                shell.Say($"First:  {a.Name}, journal {a.Position}, head {a.Head}");
                shell.Say($"Second: {b.Name}, journal {b.Position}, head {b.Head}");
                foreach (var difference in differences.Take(parsed.GetValue(all) ? int.MaxValue : Told)) shell.Say($"{difference.Kind,-8} {difference.What}: {difference.Text}");
                if (!parsed.GetValue(all) && differences.Length > Told) shell.Say($"… and {differences.Length - Told} more; --all lists them.");
                shell.Say($"{(differences.IsEmpty ? "Both say the same." : Figures.Count(differences.Length, "difference") + ".")}");
            }

            return differences.IsEmpty ? Exit.Fine : Exit.Holds;
        });
        return verb.WithExamples("aslaid compare site.gpkg@12 site.gpkg", "aslaid compare handover-1 handover-2.zip");
    }

    private static void Write(System.Text.Json.Utf8JsonWriter json, Snapshot a, Snapshot b, System.Collections.Immutable.ImmutableArray<Difference> differences)
    {
        json.WriteStartObject();
        foreach (var (name, of) in new[] { ("first", a), ("second", b) })
        {
            json.WriteStartObject(name);
            json.WriteString("name", of.Name);
            json.WriteNumber("journal", of.Position);
            json.WriteString("head", of.Head);
            json.WriteEndObject();
        }

        json.WriteStartArray("differences");
        foreach (var difference in differences)
        {
            json.WriteStartObject();
            json.WriteString("kind", difference.Kind);
            json.WriteString("what", difference.What);
            json.WriteString("text", difference.Text);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
