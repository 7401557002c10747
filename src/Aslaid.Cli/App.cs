using System.CommandLine;
using System.Data.Common;
using System.IO;
using Aslaid.Cli.Verbs;
using Aslaid.Workbench;

namespace Aslaid.Cli;

/// <summary>The command line: one line a verb.</summary>
public static class App
{
    /// <summary>Runs a command line.</summary>
    /// <returns>0: done, nothing holds; 1: something holds; 2: it could not run.</returns>
    public static int Run(string[] args, Shell shell)
    {
        var root = Root(shell);
        var parsed = root.Parse(args);
        if (parsed.Errors.Count > 0)
        {
            if (HelpNearest.Verb(parsed) is { } nearest) shell.Error.WriteLine(nearest);
            else foreach (var error in parsed.Errors) shell.Error.WriteLine(error.Message);
            shell.Error.WriteLine($"For help: aslaid {PathTo(parsed.CommandResult.Command, root)}--help");
            return Exit.Failed;
        }

        try
        {
            return parsed.Invoke(new() { Output = shell.Out, Error = shell.Error, EnableDefaultExceptionHandler = false });
        }
        catch (ProjectException problem)
        {
            shell.Error.WriteLine(problem.Message);
            return Exit.Failed;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            shell.Error.WriteLine($"A file could not be read or written: {problem.Message}");
            return Exit.Failed;
        }
        catch (DbException problem) // past the words of the project file, which name it
        {
            shell.Error.WriteLine($"A project or GeoPackage, which is an SQLite file, could not be read or written: {problem.Message} It may be damaged; go back to a copy.");
            return Exit.Failed;
        }
        catch (Exception problem) // whatever is not foreseen is shown whole: it is what a report needs
        {
            shell.Error.WriteLine("This is a fault of the program. What was acknowledged before is safe. Please report it, with the command and these lines:");
            shell.Error.WriteLine(problem);
            return Exit.Failed;
        }
    }

    /// <summary>All verbs.</summary>
    public static RootCommand Root(Shell shell)
    {
        var root = new RootCommand("Aslaid: shots in, checked as-built record out. It records where things lie; it is no permission to enter, backfill, load or energise.");
        root.Subcommands.Add(DemoVerb.Make(shell));
        root.Subcommands.Add(NewVerb.Make(shell));
        root.Subcommands.Add(TakeVerb.Make(shell));
        root.Subcommands.Add(AdoptVerbs.Control(shell));
        root.Subcommands.Add(AdoptVerbs.Codes(shell));
        root.Subcommands.Add(AdoptVerbs.Delivery(shell));
        root.Subcommands.Add(AdoptVerbs.Sections(shell));
        root.Subcommands.Add(AdoptVerbs.Separation(shell));
        root.Subcommands.Add(AdoptVerbs.Settings(shell));
        root.Subcommands.Add(DesignVerb.Make(shell));
        root.Subcommands.Add(CheckVerb.Make(shell));
        root.Subcommands.Add(ShowVerb.Make(shell));
        root.Subcommands.Add(WhyVerb.Make(shell));
        root.Subcommands.Add(CorrectVerb.Make(shell));
        root.Subcommands.Add(VisitVerb.Make(shell));
        root.Subcommands.Add(LongSectionVerb.Make(shell));
        root.Subcommands.Add(SetOutVerb.Make(shell));
        root.Subcommands.Add(DayVerb.Day(shell));
        root.Subcommands.Add(DayVerb.Morning(shell));
        root.Subcommands.Add(ClaimVerb.Make(shell));
        root.Subcommands.Add(CompareVerb.Make(shell));
        root.Subcommands.Add(HandoverVerb.Make(shell));
        root.Subcommands.Add(VerifyVerb.Make(shell));
        return root.PrintingExamples();
    }

    private static string PathTo(Command command, Command root)
    {
        var names = new List<string>();
        for (var at = command; at is not null && at != root; at = at.Parents.OfType<Command>().FirstOrDefault()) names.Insert(0, at.Name);
        return names.Count == 0 ? "" : string.Join(' ', names) + " ";
    }
}
