using System.IO;
using System.Text;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>A week of the invented site, as it comes in: what is offered is decided, and each evening is held against the truth.</summary>
internal static class DemoWeek
{
    public static void Do(Shell shell, string folder, SampleWeek week)
    {
        var shots = Path.Combine(folder, "from-the-site");
        NamedFile.MakeFolder(folder);
        NamedFile.MakeFolder(shots);
        var utf8 = new UTF8Encoding(false);
        File.WriteAllText(Path.Combine(shots, "control.csv"), week.Control, utf8);
        File.WriteAllText(Path.Combine(shots, "codes.csv"), week.Codes, utf8);
        foreach (var file in week.Files) File.WriteAllText(Path.Combine(shots, file.File.Name), file.File.Text, utf8);
        shell.Say($"{week.Name}, invented: {week.Files.Length} files of two crews with {week.Shots} different shots, in {shots}.");

        var project = Path.Combine(folder, "week.gpkg");
        var engineer = Actor.Typed("Demo engineer");
        using var session = ProjectSession.Create(project, week.Name, engineer, shell.Clock, ("codes.csv", File.ReadAllBytes(Path.Combine(shots, "codes.csv"))));
        session.Adopt(Adoptable.Control, "control.csv", File.ReadAllBytes(Path.Combine(shots, "control.csv")), engineer, "");
        foreach (var evening in week.Files.GroupBy(file => file.Day))
        {
            shell.Say($"");
            shell.Say($"— Evening {evening.Key}");
            foreach (var file in evening)
                foreach (var outcome in session.Take([Path.Combine(shots, file.File.Name)], file.File.Crew, default, Actor.Typed($"Crew {file.File.Crew}"))) TakeVerb.Say(shell, outcome);
            Decide(shell, session, engineer);
            Hold(shell, session.Record(), week, evening.Key);
        }

        session.Append(new ClaimMade("week", session.Position), engineer, "");
        session.Publish();
        shell.Say($"");
        shell.Say($"— Claimed: aslaid show {project} claims");
        ClaimText.Print(shell, session, session.Record());
        shell.Say($"Go on with aslaid day {project} and aslaid morning {project}. The site and its crews are invented; local code and licensed practice prevail.");
    }

    /// <summary>What the program offers about values, labels and crews, written to the journal as a person would who agrees.</summary>
    private static void Decide(Shell shell, ProjectSession session, Actor engineer)
    {
        for (var asked = 0; asked < 50; asked++)
        {
            var offered = Summary.FindingsInOrder(session.Record()).FirstOrDefault(finding => finding.Correction is LabelDecided or ValuesDecided or RunJoined);
            if (offered.Table is null) return;
            var entry = session.Append(offered.Correction!, engineer, $"ready correction of {offered.Id}, {offered.Check.Name}");
            shell.Say($"{offered.Message}");
            shell.Say($"journal {entry.Position}: {JournalText.Of(entry)}");
        }
    }

    private static void Hold(Shell shell, AsBuiltRecord record, SampleWeek week, int day)
    {
        var table = new Columns("code", "laid m", "on record m, 95 %", "difference m");
        foreach (var (code, metres) in week.InPlace[day - 1])
        {
            var quantity = record.Quantities.First(quantity => quantity.Code == code && quantity.Kind == QuantityKind.PlanLength);
            table.Add(code, Figures.Metres(metres), Figures.With95(quantity.Value, quantity.U), (quantity.Value - metres).ToString("+0.000;-0.000;0.000", System.Globalization.CultureInfo.InvariantCulture));
        }

        table.Write(shell.Out);
    }
}
