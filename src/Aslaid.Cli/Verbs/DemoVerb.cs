using System.CommandLine;
using System.IO;
using System.Text;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>The whole job on the invented site, as a crew and an engineer would do it.</summary>
internal static class DemoVerb
{
    public static Command Make(Shell shell)
    {
        var target = new Option<string?>("--out") { Description = "A new folder; aslaid-demo where left out.", HelpName = "DIR" };
        var seed = new Option<int>("--seed") { Description = "Another seed makes another site of the same kind.", DefaultValueFactory = _ => 1 };
        var week = new Option<bool>("--week") { Description = "A week of two crews instead: files that repeat the week so far, taken in evening by evening." };
        var verb = new Command("demo", "Make the sample site, do the whole job on it, write the handover.") { target, seed, week };
        verb.SetAction(parsed =>
        {
            if (parsed.GetValue(week)) DemoWeek.Do(shell, FolderFor(parsed.GetValue(target)), SampleWeek.Make(parsed.GetValue(seed)));
            else Do(shell, FolderFor(parsed.GetValue(target)), SampleSites.WithMistakes(parsed.GetValue(seed)));
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid demo", "aslaid demo --out my-demo --seed 7", "aslaid demo --week --out my-week");
    }

    private static string FolderFor(string? target)
    {
        if (target is not null)
        {
            if (Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any()) throw new ProjectException($"{target} is not empty. Name a new folder.");
            return target;
        }

        var folder = "aslaid-demo";
        for (var number = 2; Directory.Exists(folder); number++) folder = FormattableString.Invariant($"aslaid-demo-{number}");
        return folder;
    }

    private static void Do(Shell shell, string folder, SampleSite site)
    {
        var shots = Path.Combine(folder, "from-the-site");
        NamedFile.MakeFolder(folder);
        NamedFile.MakeFolder(shots);
        var utf8 = new UTF8Encoding(false);
        foreach (var file in site.Shots) File.WriteAllText(Path.Combine(shots, file.Name), file.Text, utf8);
        File.WriteAllText(Path.Combine(shots, "control.csv"), site.Control, utf8);
        File.WriteAllText(Path.Combine(shots, "codes.csv"), site.Codes, utf8);
        if (site.Design is { } drawn) File.WriteAllText(Path.Combine(shots, "design.xml"), drawn, utf8);
        shell.Say($"{site.Name}, an invented site: {site.Shots.Length} files of shots with {site.Mistakes.Length} mistakes seeded, in {shots}.");

        var project = Path.Combine(folder, "site.gpkg");
        var engineer = Actor.Typed("Demo engineer");
        using var session = ProjectSession.Create(project, site.Name, engineer, shell.Clock, ("codes.csv", File.ReadAllBytes(Path.Combine(shots, "codes.csv"))));
        session.Adopt(Adoptable.Control, "control.csv", File.ReadAllBytes(Path.Combine(shots, "control.csv")), engineer, "");
        if (site.Design is not null) session.AdoptDesign("design.xml", File.ReadAllBytes(Path.Combine(shots, "design.xml")), new(), engineer, "");
        foreach (var file in site.Shots)
            foreach (var outcome in session.Take([Path.Combine(shots, file.Name)], file.Crew, default, Actor.Typed($"Crew {file.Crew}"))) TakeVerb.Say(shell, outcome);

        shell.Say($"");
        shell.Say($"— As measured: aslaid check {project}");
        CheckVerb.Print(shell, session.Record(), 12);

        shell.Say($"");
        shell.Say($"— At the desk: corrections that are ready, written to the journal");
        Correct(shell, session, engineer);
        session.Publish();
        Summary.Print(shell, session.Record());

        shell.Say($"");
        shell.Say($"— For the crew: aslaid visit {project}");
        var visit = NextVisit.Plan(session.Record());
        foreach (var stop in visit.Take(5)) shell.Say($"{stop.Order,3}  E {stop.Place.East:0.000} N {stop.Place.North:0.000}  {stop.Sentence}");
        if (visit.Length > 5) shell.Say($"… and {visit.Length - 5} more.");

        shell.Say($"");
        shell.Say($"— For the client: aslaid handover {project}");
        var package = Path.Combine(folder, "handover");
        var manifest = PackageWriter.Write(session, session.Record(), package, engineer.Name, shell.Clock);
        HandoverVerb.Say(shell, session.Record(), manifest, package);
        shell.Say($"Look at {Path.Combine(package, "plan.pdf")}. The sites, names and figures are invented; local code and licensed practice prevail.");
    }

    /// <summary>
    /// Applies ready corrections one after the other, each on the record as the one before left it. A leg that nobody shot is left to
    /// the next visit.
    /// </summary>
    private static void Correct(Shell shell, ProjectSession session, Actor engineer)
    {
        var tried = new HashSet<string>(StringComparer.Ordinal);
        while (Next(session.Record(), tried) is { } finding)
        {
            tried.Add(finding.Id);
            var entry = session.Append(finding.Correction!, engineer, $"ready correction of {finding.Id}, {finding.Check.Name}");
            shell.Say($"journal {entry.Position}: {JournalText.Of(entry)} ({finding.Check.Name})");
        }

        var released = Enumerable.Range(0, session.Record().Runs.Count).Select(number => session.Record().Runs[number])
            .FirstOrDefault(run => run.PieceCount > 0 && session.Record().Holds.Where(hold => hold.Run == run.Number).All(hold => hold.State == HoldState.Open));
        if (released.Table is null) return;
        var release = session.Append(Releases.Of(session.Record(), released, 0, released.PlanLength), engineer, "checked against the trench");
        shell.Say($"journal {release.Position}: {JournalText.Of(release)}");
    }

    private static Finding? Next(AsBuiltRecord record, HashSet<string> tried) =>
        Summary.FindingsInOrder(record).Where(finding => finding.Severity != Severity.Note && !tried.Contains(finding.Id) && finding.Correction is not (null or EndTied { Instead: false })).Cast<Finding?>().FirstOrDefault();
}
