using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class ClaimVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var period = new Argument<string>("PERIOD") { Description = "Name of the period, as 2026-03." };
        var by = VerbParts.By();
        var verb = new Command("claim", "Claim what the record holds now for a period; show claims tells previous, this period and to date.") { project, period, by };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock);
            var name = PlainText.Demand("PERIOD", parsed.GetValue(period)!.Trim());
            if (name.Length == 0) throw new ProjectException("A claim is for a period: name it, as 2026-03.");
            if (Replay.InForce([.. session.Journal]).Any(entry => entry.What is ClaimMade made && made.Period == name))
                throw new ProjectException($"Period {name} is claimed already. Withdraw that entry first, or name another period.");
            session.Append(new ClaimMade(name, session.Position), VerbParts.ActorOf(parsed.GetValue(by)), "");
            session.Publish();
            ClaimText.Print(shell, session, session.Record());
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid claim site.gpkg 2026-03 --by \"A. Person\"");
    }
}
