using System.CommandLine;
using System.IO;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class TakeVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var files = new Argument<string[]>("SHOTS") { Description = "Files of shots (CSV), taken in order.", Arity = ArgumentArity.OneOrMore };
        var crew = new Option<string?>("--crew") { Description = "The crew whose ids these are.", HelpName = "NAME" };
        var plan = VerbParts.Metres("--declare-u-plan-m", "Accuracy in plan of shots that state none: metres, 1 sigma, radial. It is marked as declared.");
        var height = VerbParts.Metres("--declare-u-height-m", "Accuracy of height of shots that state none: metres, 1 sigma.");
        var by = VerbParts.By();
        var verb = new Command("take", "Take in files of shots. A file goes in whole or not at all.") { project, files, crew, plan, height, by };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock);
            var declared = new DeclaredAccuracy(Positive(parsed.GetValue(plan), plan.Name), Positive(parsed.GetValue(height), height.Name));
            var paths = parsed.GetValue(files)!;
            var bytes = paths.Where(File.Exists).Sum(path => new FileInfo(path).Length);
            var outcomes = new List<TakeOutcome>();
            ProjectException? fault = null;
            try
            {
                Progress.Run(shell, "Taking in", progress =>
                {
                    foreach (var outcome in session.Take(paths, parsed.GetValue(crew), declared, VerbParts.ActorOf(parsed.GetValue(by)), progress)) outcomes.Add(outcome);
                    return 0;
                }, bytes);
            }
            catch (ProjectException problem)
            {
                fault = problem; // what was taken before it is on the disk, and is said
            }

            var fine = outcomes.Select(outcome => Say(shell, outcome)).ToList().TrueForAll(taken => taken) && fault is null;
            if (fault is not null) shell.Error.WriteLine(fault.Message);
            foreach (var path in paths.Skip(outcomes.Count + (fault is null ? 0 : 1))) shell.Tell($"{path} was not tried.");
            Progress.Run(shell, "Writing layers", _ => { session.Publish(); return 0; });
            return fine ? Exit.Fine : Exit.Failed;
        });
        return verb.WithExamples("aslaid take site.gpkg north-day1.csv --crew North", "aslaid take site.gpkg old.csv --declare-u-plan-m 0.02 --declare-u-height-m 0.03 --by \"A. Person\"");
    }

    /// <summary>Says how an intake ended; false where it was refused.</summary>
    internal static bool Say(Shell shell, TakeOutcome outcome)
    {
        var path = outcome.Path;
        foreach (var remark in outcome.Remarks) shell.Tell($"{path}: {remark}");
        if (outcome.Already is { What: BatchTaken earlier } already)
        {
            shell.Say($"{path} was taken in already as batch {earlier.Batch} on {already.Time:yyyy-MM-dd HH:mm} by {already.By.Name}. Nothing changed.");
            return true;
        }

        if (outcome.Batch is { } batch)
        {
            shell.Say($"{path}: {outcome.Shots} shots taken in as batch {batch.Batch}{(batch.Rows > outcome.Shots ? $", {batch.Rows - outcome.Shots} rows use a shot again" : "")}.");
            return true;
        }

        if (outcome.RejectedCount == 0)
        {
            shell.Say($"{path}: nothing new. Nothing changed.");
            return true;
        }

        foreach (var rejection in outcome.Rejected) shell.Error.WriteLine(rejection.Message(path));
        if (outcome.RejectedCount > outcome.Rejected.Length) shell.Tell($"… and {outcome.RejectedCount - outcome.Rejected.Length} more.");
        shell.Tell($"{path} was not taken in: {outcome.RejectedCount} to put right. Nothing changed.");
        return false;
    }

    private static double? Positive(double? value, string name) =>
        value is null or > 0 and < 100 ? value : throw new ProjectException($"{name} is a standard uncertainty in metres, above 0 and below 100.");
}
