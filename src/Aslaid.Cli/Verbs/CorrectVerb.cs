using System.Collections.Immutable;
using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>Corrections: each one an entry of the journal, with a name and a reason. Nothing measured is changed.</summary>
internal static class CorrectVerb
{
    public static Command Make(Shell shell)
    {
        var verb = new Command("correct", "Write a correction to the journal. Raw shots stay as they are; any entry can be withdrawn.");
        var project = VerbParts.Project();
        verb.Arguments.Add(project);
        var apply = new Option<string>("--apply") { Description = "Write the ready correction of a finding, as the correction 'apply' does.", HelpName = "FINDING" };
        Ask(verb, shell, project, required: false, [apply], (record, parsed) => [ReadyCorrection(record, parsed.GetValue(apply)!)]);
        verb.Validators.Add(parsed =>
        {
            if (parsed.GetResult(apply) is null) parsed.AddError("Which correction? Name one of those that aslaid correct --help lists, or --apply FINDING.");
        });
        foreach (var kind in Kinds(shell, project).Concat(CorrectRuns.Kinds(shell, project)).Concat(CorrectConstruct.Kinds(shell, project)).Append(CorrectTangents.Make(shell, project)).Append(CorrectRuns.Role(shell, project)).Concat(CorrectNodes.Kinds(shell, project)).Append(CorrectBuilt.Kind(shell, project))) verb.Subcommands.Add(kind.WithExamples(HelpOfCorrections.Of(kind.Name)));
        return verb.WithExamples(HelpOfCorrections.Of("recode"), HelpOfCorrections.Of("path"), HelpOfCorrections.Of("withdraw"));
    }

    private static IEnumerable<Command> Kinds(Shell shell, Argument<string> project)
    {
        var crew = new Option<string?>("--crew") { Description = "Whose ids are meant.", HelpName = "NAME" };
        var shots = new Argument<string[]>("SHOT") { Description = "Shots: 101, 101@Crew, 2:14 (batch:line) or a range 101..120.", Arity = ArgumentArity.OneOrMore };
        var run = new Argument<string>("RUN") { Description = "The run: its label or key." };
        var from = VerbParts.Metres("--from", "Chainage in metres; the start where left out.");
        var to = VerbParts.Metres("--to", "Chainage in metres; the end where left out.");

        var code = new Option<string>("--code") { Description = "The right code.", Required = true };
        var label = new Option<string?>("--run") { Description = "The right run label; empty for none.", HelpName = "LABEL" };
        yield return Kind(shell, project, "recode", "Give shots another code, and another run where named.", [shots, code, label, crew], (record, parsed) =>
        {
            if (record.Inputs.Codes[parsed.GetValue(code)] is null)
                throw new ProjectException($"The code book has no code {parsed.GetValue(code)}. Its codes: {string.Join(", ", record.Inputs.Codes.Entries.Select(entry => entry.Code))}");
            return new Recoded(Shots(record, parsed, shots, crew), parsed.GetValue(code)!, parsed.GetValue(label));
        });
        yield return Kind(shell, project, "set-aside", "Leave shots out of everything derived.", [shots, crew], (record, parsed) => new SetAside(Shots(record, parsed, shots, crew)));
        yield return Kind(shell, project, "restore", "Let shots set aside count again.", [shots, crew], (record, parsed) => new Restored(Shots(record, parsed, shots, crew)));

        var path = new Argument<string>("PATH") { Description = "As \"101 ~102 103 104\": ~ marks a through-shot." };
        var newCode = new Option<string?>("--code") { Description = "Code, for a run that does not exist yet." };
        yield return Kind(shell, project, "path", "Say which shots a run goes through.", [run, path, newCode, crew], (record, parsed) => Path(record, parsed.GetValue(run)!, parsed.GetValue(path)!, parsed.GetValue(newCode), parsed.GetValue(crew)));

        var onto = new Option<string>("--onto") { Description = "The shot on which it ends.", HelpName = "SHOT", Required = true };
        var end = new Option<string>("--which") { Description = "Which end: start or end.", HelpName = "END", DefaultValueFactory = _ => "end" };
        end.AcceptOnlyFromAmong("start", "end");
        var instead = new Option<bool>("--instead") { Description = "The run's own end shot is the same thing measured again and leaves the path." };
        yield return Kind(shell, project, "end", "Let an end of a run lie on another shot. Nothing is moved.", [run, onto, end, instead, crew], (record, parsed) => new EndTied(
            VerbParts.RunOf(record, parsed.GetValue(run)!).Key, parsed.GetValue(end) == "start" ? RunEnd.Start : RunEnd.End,
            VerbParts.ShotsOf(record, [parsed.GetValue(onto)!], parsed.GetValue(crew))[0], parsed.GetValue(instead)));

        var entered = VerbParts.Metres("--entered", "Pole height as entered, metres.", required: true);
        var true_ = VerbParts.Metres("--true", "Pole height as it was, metres.", required: true);
        yield return Kind(shell, project, "pole", "Correct the pole height: heights change by entered minus true.", [shots, entered, true_, crew], (record, parsed) =>
            new PoleHeightCorrected(Shots(record, parsed, shots, crew), Pole(parsed.GetValue(entered)), Pole(parsed.GetValue(true_))));

        var name = new Argument<string>("NAME") { Description = "Name of the attribute." };
        var value = new Argument<string>("VALUE") { Description = "Its value." };
        yield return Kind(shell, project, "attribute", "Set an attribute of a run; status, flow, start and end take given words.", [run, name, value], (record, parsed) =>
            string.IsNullOrWhiteSpace(parsed.GetValue(value)) || string.IsNullOrWhiteSpace(parsed.GetValue(name))
                ? throw new ProjectException("An attribute needs a name and a value.")
                : Attribute(VerbParts.RunOf(record, parsed.GetValue(run)!), PlainText.Demand("NAME", parsed.GetValue(name)!), PlainText.Demand("VALUE", parsed.GetValue(value)!)));

        var finding = new Argument<string>("FINDING") { Description = "Id of the finding, F-…" };
        yield return Kind(shell, project, "accept", "Accept a finding as it stands; it lapses when the evidence worsens.", [finding], (record, parsed) =>
            Acceptances.Of(record, FindingOf(record, parsed.GetValue(finding)!), VerbParts.ActorOf(parsed.GetValue<string?>("--by"))));
        yield return Kind(shell, project, "apply", "Write the ready correction of a finding.", [finding], (record, parsed) => ReadyCorrection(record, parsed.GetValue(finding)!));

        yield return Kind(shell, project, "release", "Release the position record of a length of a run. No permission to enter, backfill, load or energise.", [run, from, to], (record, parsed) =>
        {
            var released = VerbParts.RunOf(record, parsed.GetValue(run)!);
            var (start, stop) = Length(released, parsed.GetValue(from), parsed.GetValue(to));
            return Releases.Of(record, released, start, stop, parsed.GetValue<string?>("--by"));
        });
        yield return Kind(shell, project, "cover", "Say that a length of a run has been covered.", [run, from, to], (record, parsed) =>
        {
            var covered = VerbParts.RunOf(record, parsed.GetValue(run)!);
            var (start, stop) = Length(covered, parsed.GetValue(from), parsed.GetValue(to));
            return new LengthCovered(covered.Key, start, stop);
        });

        var entry = new Argument<int>("ENTRY") { Description = "Position of the journal entry." };
        yield return Kind(shell, project, "withdraw", "Withdraw an entry; it is as if never written, and stays in the journal.", [entry], (record, parsed) =>
        {
            var position = parsed.GetValue(entry);
            if (position < 1 || position > record.Position) throw new ProjectException($"The journal has entries 1 to {record.Position}; {position} is none of them.");
            if (record.Inputs.Journal[position - 1].What is ProjectMade) throw new ProjectException("The making of the project cannot be withdrawn.");
            if (Replay.InForce(record.Inputs.Journal).All(entry => entry.Position != position)) throw new ProjectException($"Entry {position} is withdrawn already. Nothing was written.");
            return new Withdrawn(position);
        });
    }

    internal static Command Kind(Shell shell, Argument<string> project, string name, string description, Symbol[] parts, Func<AsBuiltRecord, ParseResult, Change> make) =>
        Kind(shell, project, name, description, parts, (record, parsed) => (IReadOnlyList<Change>)[make(record, parsed)]);

    /// <summary>A correction of several entries, all of one person and one reason.</summary>
    internal static Command Kind(Shell shell, Argument<string> project, string name, string description, Symbol[] parts, Func<AsBuiltRecord, ParseResult, IReadOnlyList<Change>> make)
    {
        var verb = new Command(name, description);
        Ask(verb, shell, project, required: true, parts, make);
        return verb;
    }

    /// <summary>Lets a command write what <paramref name="make"/> makes, by a named person and for a reason.</summary>
    private static void Ask(Command verb, Shell shell, Argument<string> project, bool required, Symbol[] parts, Func<AsBuiltRecord, ParseResult, IReadOnlyList<Change>> make)
    {
        var (by, why) = (VerbParts.By(required), VerbParts.Why(required));
        foreach (var part in parts)
        {
            if (part is Argument argument) verb.Arguments.Add(argument);
            else verb.Options.Add((Option)part);
        }

        verb.Options.Add(by);
        verb.Options.Add(why);
        verb.SetAction(parsed =>
        {
            if (string.IsNullOrWhiteSpace(parsed.GetValue(why))) throw new ProjectException("A correction needs its reason: --why TEXT.");
            if (string.IsNullOrWhiteSpace(parsed.GetValue(by))) throw new ProjectException("A correction needs a name: --by NAME.");
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock);
            var before = session.Record();
            var changes = make(before, parsed);
            foreach (var change in changes) EmptyCorrection.Refuse(before, change);
            var (actor, reason) = (VerbParts.ActorOf(parsed.GetValue(by)), PlainText.Demand("--why", parsed.GetValue(why)!.Trim()));
            var entries = session.Append(changes, actor, reason);
            session.Publish();
            foreach (var entry in entries) shell.Say($"Journal {entry.Position}: {JournalText.Of(entry)}.");
            SayChanges(shell, before, session.Record());
            return Exit.Fine;
        });
    }

    private static Change ReadyCorrection(AsBuiltRecord record, string id)
    {
        var found = FindingOf(record, id);
        return found.Correction ?? throw new ProjectException($"{found.Id} has no ready correction. {found.Cure}");
    }

    /// <summary>Findings gone and new, and how metres moved between states.</summary>
    private static void SayChanges(Shell shell, AsBuiltRecord before, AsBuiltRecord now)
    {
        var (old, current) = (Standing(before), Standing(now));
        foreach (var (id, finding) in old)
            if (!current.ContainsKey(id)) shell.Say($"gone: {id} {finding.Message}");
        foreach (var (id, finding) in current)
            if (!old.ContainsKey(id)) shell.Say($"new:  {id} {finding.Message}");
        var (was, stands) = (HoldTotals.Of(before), HoldTotals.Of(now));
        foreach (var state in Enum.GetValues<HoldState>())
            if (Math.Abs(was[(int)state] - stands[(int)state]) > 0.0005) shell.Say($"{EnumWords.Of(state)}: {was[(int)state]:0.000} m, now {stands[(int)state]:0.000} m");
        if (HoldTotals.CoveredUnproven(now) - HoldTotals.CoveredUnproven(before) is > 0.0005 and var unproven)
            shell.Say($"covered while held: {unproven:0.000} m. Have it exposed by safe means and shot, or state a lesser class.");
        foreach (var run in Runs(before).Except(Runs(now))) shell.Say($"gone: run {run}");
        foreach (var run in Runs(now).Except(Runs(before))) shell.Say($"new:  run {run}");
        foreach (var position in Lapsed(now).Except(Lapsed(before))) shell.Say($"lapsed: release of journal {position}, what it rests on changed");
        foreach (var line in now.Unresolved) shell.Out.WriteLine(line);
    }

    private static IEnumerable<string> Runs(AsBuiltRecord record) => Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run].Key);

    private static IEnumerable<int> Lapsed(AsBuiltRecord record) => record.Holds.SelectMany(hold => hold.Lapsed).Distinct();

    private static SortedDictionary<string, Finding> Standing(AsBuiltRecord record)
    {
        var standing = new SortedDictionary<string, Finding>(StringComparer.Ordinal);
        for (var number = 0; number < record.Findings.Count; number++)
            if (record.Findings[number].State != FindingState.Accepted) standing[record.Findings[number].Id] = record.Findings[number];
        return standing;
    }

    private static ImmutableArray<ShotKey> Shots(AsBuiltRecord record, ParseResult parsed, Argument<string[]> shots, Option<string?> crew) =>
        [.. VerbParts.ShotsOf(record, parsed.GetValue(shots)!, parsed.GetValue(crew))];

    /// <summary>Attributes of which the record takes some words only refuse others.</summary>
    private static AttributeSet Attribute(Run run, string name, string value)
    {
        var words = RunFacts.WordsOf(name);
        return words.IsEmpty || words.Contains(value) ? new(run.Key, name, value)
            : throw new ProjectException($"The attribute {name} is one of: {string.Join(", ", words)}. '{value}' is none of them.");
    }

    private static PathSet Path(AsBuiltRecord record, string name, string text, string? code, string? crew)
    {
        var lookup = new ShotLookup(record.Shots.Raw, record.Shots.Versions);
        if (!PathNotation.TryParse(text, shot => (lookup.Find(shot, crew, out var problem), problem), out var steps, out var fault))
            throw new ProjectException(fault!.Pointed(text));
        if (code is null) return new(VerbParts.RunOf(record, name).Key, null, steps);
        if (record.Inputs.Codes[code] is null) throw new ProjectException($"The code book has no code {code}.");
        var key = $"{code}/{name}{(crew is null ? "" : $"@{crew}")}";
        return record.Runs.Find(key) is null ? new(key, code, steps) : throw new ProjectException($"There is a run {key} already; leave out --code to set its path.");
    }

    private static (double From, double To) Length(Run run, double? from, double? to)
    {
        if (run.PieceCount == 0) throw new ProjectException($"{run.Label} has one shot and no length; shoot the rest of it first.");
        var (start, stop) = (from ?? 0, to ?? run.PlanLength);
        if (!(start >= 0 && stop <= run.PlanLength + 0.001 && start < stop))
            throw new ProjectException(FormattableString.Invariant($"{run.Label} is {run.PlanLength:0.000} m long; a length from {start:0.000} to {stop:0.000} m is not on it."));
        return (start, Math.Min(stop, run.PlanLength));
    }

    private static double Pole(double? height) => height is >= 0 and < 50 ? height.Value : throw new ProjectException("A pole height is between 0 and 50 m.");

    private static Finding FindingOf(AsBuiltRecord record, string id) =>
        record.Findings.Find(id) ?? throw new ProjectException($"There is no finding {id} now. List them with: aslaid show PROJECT findings");
}
