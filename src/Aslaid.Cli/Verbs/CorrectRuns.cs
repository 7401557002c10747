using System.Collections.Immutable;
using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>Corrections of what is one run: joined, cut, or shot again.</summary>
internal static class CorrectRuns
{
    /// <summary>Who has which role.</summary>
    public static Command Role(Shell shell, Argument<string> project)
    {
        var person = new Argument<string>("PERSON") { Description = "The name as it is given with --by." };
        var role = new Argument<string?>("ROLE") { Description = "The role, as codes name it under releases; left out, all roles are taken away.", DefaultValueFactory = _ => null };
        return CorrectVerb.Kind(shell, project, "role", "Give a person a role: once any is given, lengths of codes that name a role are released by it only.", [person, role], (_, parsed) =>
            PlainText.Demand("PERSON", parsed.GetValue(person)!.Trim()) is { Length: > 0 } name ? new RoleGiven(name, PlainText.Demand("ROLE", (parsed.GetValue(role) ?? "").Trim())) : throw new ProjectException("A role is given to a person: write the name."));
    }

    public static IEnumerable<Command> Kinds(Shell shell, Argument<string> project)
    {
        var run = new Argument<string>("RUN") { Description = "The run: its label or key." };
        var crew = new Option<string?>("--crew") { Description = "Whose ids are meant.", HelpName = "NAME" };

        yield return CorrectDeclare.Kind(shell, project, run);

        var into = new Option<string>("--into") { Description = "The run to which they belong.", HelpName = "RUN", Required = true };
        yield return CorrectVerb.Kind(shell, project, "join", "Say that two runs are one; they meet at those ends that are nearest to each other.", [run, into], (record, parsed) =>
        {
            var (ends, goesOn) = (VerbParts.RunOf(record, parsed.GetValue(run)!), VerbParts.RunOf(record, parsed.GetValue(into)!));
            return ends.Key != goesOn.Key ? new RunJoined(ends.Key, goesOn.Key) : throw new ProjectException($"{ends.Key} is one run already.");
        });

        var at = new Option<string>("--at") { Description = "The shot that both parts share: their fitting.", HelpName = "SHOT", Required = true };
        var label = new Option<string>("--label") { Description = "Label of the part that begins there.", HelpName = "LABEL", Required = true };
        yield return CorrectVerb.Kind(shell, project, "split", "Cut a run at a shot; from there on it is another run.", [run, at, label, crew], (record, parsed) =>
            Split(record, VerbParts.RunOf(record, parsed.GetValue(run)!), VerbParts.ShotsOf(record, [parsed.GetValue(at)!], parsed.GetValue(crew))[0], PlainText.Demand("--label", parsed.GetValue(label)!.Trim())));

        var area = new Option<string>("--in") { Description = "The area in which it lies.", HelpName = "RUN", Required = true };
        var none = new Option<bool>("--not") { Description = "It is no hole." };
        yield return CorrectVerb.Kind(shell, project, "hole", "Say that a closed run within an area is its hole, or is none.", [run, area, none], (record, parsed) =>
        {
            var (hole, outer) = (VerbParts.RunOf(record, parsed.GetValue(run)!), VerbParts.RunOf(record, parsed.GetValue(area)!));
            foreach (var closed in (Run[])[hole, outer]) if (closed.Area is null) throw new ProjectException($"{closed.Label} is not closed and has no area.");
            return new HoleDecided(hole.Key, outer.Key, !parsed.GetValue(none));
        });

        var within = new Option<string?>("--in") { Description = "It lies in this run, as a cable in a duct.", HelpName = "RUN" };
        var bank = new Option<string?>("--bank") { Description = "It is of one bank with this run.", HelpName = "RUN" };
        yield return CorrectVerb.Kind(shell, project, "relation", "Say that a run lies in another, or that two are of one bank: then they may touch.", [run, within, bank], (record, parsed) =>
        {
            var (inner, outer, other) = (VerbParts.RunOf(record, parsed.GetValue(run)!), parsed.GetValue(within), parsed.GetValue(bank));
            if (outer is null == other is null) throw new ProjectException("Say one of both: --in RUN, or --bank RUN.");
            var of = VerbParts.RunOf(record, outer ?? other!);
            return of.Key != inner.Key ? new RelationSet(inner.Key, outer is null ? RunRelation.Bank : RunRelation.In, of.Key) : throw new ProjectException($"{of.Label} cannot be related to itself.");
        });

        var changed = new Option<int>("--batch") { Description = "The batch that brought known shots with other values.", HelpName = "N", Required = true };
        var which = new Option<string>("--count") { Description = "Which values count from now on: earlier or later.", HelpName = "WORD", Required = true };
        which.AcceptOnlyFromAmong("earlier", "later");
        yield return CorrectVerb.Kind(shell, project, "values", "Say which values of shots count that a later batch brought again with others.", [changed, which], (record, parsed) =>
            Values(record, parsed.GetValue(changed), parsed.GetValue(which) == "later"));

        var batch = new Option<int>("--batch") { Description = "The batch that brought the label again.", HelpName = "N", Required = true };
        var means = new Option<string>("--as") { Description = "What its shots of that batch are: continues, supersedes (measured anew), replaces (laid anew) or checks.", HelpName = "WORD", Required = true };
        means.AcceptOnlyFromAmong([.. Enum.GetValues<LabelAgain>().Select(EnumWords.Of)]);
        yield return CorrectVerb.Kind(shell, project, "label-again", "Say what a label that comes again in a later batch means.", [run, batch, means], (record, parsed) =>
            Again(record, parsed.GetValue(run)!, parsed.GetValue(batch), Enum.GetValues<LabelAgain>().First(word => EnumWords.Of(word) == parsed.GetValue(means))));
    }

    private static ValuesDecided Values(AsBuiltRecord record, int batch, bool adopt)
    {
        var raw = record.Shots.Raw;
        var keys = record.Shots.Versions.All.Select(version => raw.Key(version.Later)).Where(key => key.Batch == batch).ToImmutableArray();
        return keys.Length > 0 ? new(keys, adopt) : throw new ProjectException($"Batch {batch} brought no known shot with other values. List what stands with: aslaid show PROJECT findings");
    }

    private static RunSplit Split(AsBuiltRecord record, Run run, ShotKey at, string label)
    {
        if (label.Length == 0) throw new ProjectException("--label: the part that begins at the shot needs a label.");
        var member = run.Members.IndexOf(record.Shots.Shot(record.Shots.Versions.Stand(record.Shots.Raw.Find(at))));
        if (member <= 0 || member >= run.MemberCount - 1) throw new ProjectException($"{run.Label} can be cut at a shot between its ends; {at} is none of them.");
        if (run.Through[member]) throw new ProjectException($"{at} lies on an arc of {run.Label}; cut it where an arc begins or ends.");
        return new(run.Key, at, label);
    }

    private static LabelDecided Again(AsBuiltRecord record, string name, int batch, LabelAgain how)
    {
        var batches = record.Shots.Raw.Batches;
        if (batch < 2 || batch > batches.Length) throw new ProjectException($"There are batches 1 to {batches.Length}; a label comes again in the second or a later one, not in {batch}.");
        return new(record.Runs.KeyOfLabel(VerbParts.RunOf(record, name).Number), batch, how);
    }
}
