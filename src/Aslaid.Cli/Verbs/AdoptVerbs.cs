using System.CommandLine;
using System.IO;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>Verbs that bring in a table which holds from then on: control, code book, delivery table, settings.</summary>
internal static class AdoptVerbs
{
    public static Command Control(Shell shell) => Make(shell, Adoptable.Control, "control", "CSV",
        "Adopt control points: a CSV of id, east, north, height, u_plan, u_height.", "aslaid control site.gpkg control.csv");

    public static Command Codes(Shell shell) => Make(shell, Adoptable.CodeBook, "codes", "CSV",
        "Adopt a code book: a CSV, one code a row.", "aslaid codes site.gpkg codes.csv --why \"client's tolerances\"");

    public static Command Delivery(Shell shell) => Make(shell, Adoptable.Delivery, "delivery", "CSV",
        "Adopt a delivery table: a CSV of code, attribute, required, allowed, layer, field.", "aslaid delivery site.gpkg delivery.csv --why \"client's register\"");

    public static Command Sections(Shell shell) => Make(shell, Adoptable.Sections, "sections", "CSV",
        "Adopt sections: a CSV of code, part, right_m, up_m, part_code. Their lines are derived, and counted in nothing.", "aslaid sections site.gpkg sections.csv --why \"standard kerb\"");

    public static Command Separation(Shell shell) => Make(shell, Adoptable.Separation, "separation", "CSV",
        "Adopt clear distances between services: a CSV of service, other, alongside_m, crossing_m, measured, source.", "aslaid separation site.gpkg separation.csv --why \"county rules\"");

    public static Command Settings(Shell shell) => Make(shell, Adoptable.Settings, "settings", "FILE",
        "Adopt settings: lines of name = value.", "aslaid settings site.gpkg settings.txt --why \"longer gaps between shifts\"");

    private static Command Make(Shell shell, Adoptable table, string name, string file, string description, string example)
    {
        var project = VerbParts.Project();
        var path = new Argument<string>(file) { Description = "The file to adopt." };
        var by = VerbParts.By();
        var why = new Option<string?>("--why") { Description = "The reason, for the journal.", HelpName = "TEXT" };
        var verb = new Command(name, description) { project, path, by, why };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock);
            var from = parsed.GetValue(path)!;
            var released = session.Record().Holds.Count(hold => hold.State == HoldState.Complete);
            var bytes = NamedFile.Read(from);
            foreach (var remark in Adoptions.Remarks(table, Path.GetFileName(from), bytes)) shell.Tell($"{from}: {remark}");
            var entry = session.Adopt(table, Path.GetFileName(from), bytes, VerbParts.ActorOf(parsed.GetValue(by)), PlainText.Demand("--why", parsed.GetValue(why) ?? ""));
            if (entry is null) shell.Say($"{from} is what holds already. Nothing changed.");
            else
            {
                session.Publish();
                var lapsed = released - session.Record().Holds.Count(hold => hold.State == HoldState.Complete);
                shell.Say($"{from} holds from now on (journal {entry.Position}).");
                if (lapsed > 0) shell.Say($"{lapsed} released lengths lapsed: what they rest on changed.");
            }

            return Exit.Fine;
        });
        return verb.WithExamples(example);
    }
}
