using System.Collections.Immutable;
using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>What a person says of a run that no shot tells: its status, where it flows, what its ends are.</summary>
internal static class CorrectDeclare
{
    public static Command Kind(Shell shell, Argument<string> project, Argument<string> run)
    {
        var facts = ImmutableArray.Create(
            Fact("status", "What it is to the works; only what is new counts:"),
            Fact("flow", "Where it flows, by the order of its shots:"),
            Fact("start", "What its start is meant to be:"),
            Fact("end", "What its end is meant to be:"));
        return CorrectVerb.Kind(shell, project, "declare", "Say what a run is, where it flows and what its ends are.", [run, .. facts.Select(fact => fact.Option)], (record, parsed) =>
            Said(VerbParts.RunOf(record, parsed.GetValue(run)!), facts.Select(fact => (fact.Name, parsed.GetValue(fact.Option)))));
    }

    private static (string Name, Option<string?> Option) Fact(string name, string description)
    {
        var words = RunFacts.WordsOf(name);
        var option = new Option<string?>("--" + name) { Description = $"{description} {string.Join(", ", words)}.", HelpName = "WORD" };
        option.AcceptOnlyFromAmong([.. words]);
        return (name, option);
    }

    /// <summary>One entry for each thing said that is not in the journal already.</summary>
    private static Change[] Said(Run run, IEnumerable<(string Name, string? Word)> facts)
    {
        var said = facts.Where(fact => fact.Word is not null).ToList();
        if (said.Count == 0) throw new ProjectException("Declare what? Give one of --status, --flow, --start, --end.");
        var known = run.Table.AttributesOf(run.Number);
        var changes = said.Where(fact => known.GetValueOrDefault(fact.Name) != fact.Word).Select(fact => (Change)new AttributeSet(run.Key, fact.Name, fact.Word!)).ToArray();
        return changes.Length > 0 ? changes : throw new ProjectException("Nothing would change: declared already. Nothing was written.");
    }
}
