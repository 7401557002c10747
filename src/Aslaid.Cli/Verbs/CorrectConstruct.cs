using System.Collections.Immutable;
using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>Points that nobody could stand on, computed from shots.</summary>
internal static class CorrectConstruct
{
    public static IEnumerable<Command> Kinds(Shell shell, Argument<string> project)
    {
        var shots = new Argument<string[]>("SHOT") { Description = "The shots it is computed from, in the order that the kind asks for: 101, 101@Crew, 2:14 (batch:line).", Arity = ArgumentArity.OneOrMore };
        var id = new Option<string>("--id") { Description = "Id of the point.", HelpName = "ID", Required = true };
        var code = new Option<string>("--code") { Description = "Its code.", Required = true };
        var run = new Option<string?>("--run") { Description = "The run whose next shot it is; a point by itself where left out.", HelpName = "RUN" };
        var crew = new Option<string?>("--crew") { Description = "Whose ids are meant.", HelpName = "NAME" };
        var u = VerbParts.Metres("--u", "Standard uncertainty of each distance read, metres; tape_u_m of the settings where left out.");
        var (up, along, right) = (VerbParts.Metres("--up", "Metres up, below negative."), VerbParts.Metres("--along", "Metres along."), VerbParts.Metres("--right", "Metres to the right, left negative."));
        var (first, second) = (VerbParts.Metres("--first", "Metres from the first shot, in plan.", required: true), VerbParts.Metres("--second", "Metres from the second shot, in plan.", required: true));
        var side = new Option<string>("--side") { Description = "On which side of the way from the first shot to the second: left or right.", HelpName = "SIDE", Required = true };
        side.AcceptOnlyFromAmong("left", "right");
        var bearing = new Option<double>("--bearing") { Description = "Degrees clockwise from grid north.", HelpName = "DEG", Required = true };
        var uBearing = new Option<double>("--u-bearing") { Description = "Its standard uncertainty, degrees; 0.1 where left out.", HelpName = "DEG", DefaultValueFactory = _ => 0.1 };
        var distance = VerbParts.Metres("--distance", "Metres in plan.", required: true);

        yield return Kind("tape", "Construct a point straight above or below a shot, by tape.", ConstructionKind.Tape, 1, [up], (parsed, read) => [read(up)]);
        yield return Kind("offset", "Construct a point along, right and up from a shot, seen towards another.", ConstructionKind.Offset, 2, [along, right, up], (parsed, read) => [read(along), read(right), read(up)]);
        yield return Kind("two-distances", "Construct a point at two distances from two shots.", ConstructionKind.TwoDistances, 2, [first, second, side], (parsed, read) => [read(first), read(second)],
            parsed => parsed.GetValue(side) == "right" ? 1 : -1);
        yield return Kind("line-with-line", "Construct the point where the line of two shots meets that of two others.", ConstructionKind.LineWithLine, 4, [], (parsed, read) => []);
        yield return Kind("bearing", "Construct a point from a shot by a grid bearing and a distance.", ConstructionKind.BearingAndDistance, 1, [bearing, uBearing, distance, up], (parsed, read) =>
            [new(double.DegreesToRadians(parsed.GetValue(bearing)), double.DegreesToRadians(parsed.GetValue(uBearing))), read(distance), read(up)]);

        Command Kind(string name, string description, ConstructionKind kind, int needs, Option[] more, Func<ParseResult, Func<Option<double?>, Reading>, ImmutableArray<Reading>> readings, Func<ParseResult, int>? sense = null) =>
            CorrectVerb.Kind(shell, project, name, description, [shots, id, code, run, .. more, u, crew], (record, parsed) =>
            {
                var parents = VerbParts.ShotsOf(record, parsed.GetValue(shots)!, parsed.GetValue(crew));
                if (parents.Count != needs) throw new ProjectException($"{name} needs {needs} shot{(needs == 1 ? "" : "s")}; {parents.Count} {(parents.Count == 1 ? "is" : "are")} named.");
                var metres = parsed.GetValue(u) ?? record.Inputs.Settings.TapeU;
                if (!(metres > 0)) throw new ProjectException("--u: no reading is free of doubt; give a standard uncertainty above 0 m.");
                // A reading that was not given is 0 by definition, and free of doubt.
                Reading Read(Option<double?> option) => parsed.GetValue(option) is { } value ? new(value, metres) : new(0, 0);
                var made = Made(record, parsed.GetValue(id)!, parsed.GetValue(code)!, parsed.GetValue(run), new(kind, [.. parents], readings(parsed, Read), sense?.Invoke(parsed) ?? 0, []));
                Try(record, made);
                return made;
            });
    }

    internal static PointConstructed Made(AsBuiltRecord record, string id, string code, string? run, Construction how)
    {
        if (record.Inputs.Codes[code] is null) throw new ProjectException($"The code book has no code {code}. Its codes: {string.Join(", ", record.Inputs.Codes.Entries.Select(entry => entry.Code))}");
        var plain = PlainText.Demand("--id", id.Trim());
        if (plain.Length == 0) throw new ProjectException("--id: the point needs an id.");
        return new(plain, code, run is null ? null : LabelOf(record, code, run), how);
    }

    /// <summary>A point that cannot be made is no entry.</summary>
    private static void Try(AsBuiltRecord record, PointConstructed made)
    {
        var journal = record.Inputs.Journal;
        var after = Derivation.Derive(record.Inputs with { Journal = journal.Add(new(record.Position + 1, default, default, "", made)) });
        if (after.Unresolved.Except(record.Unresolved).FirstOrDefault() is { } problem) throw new ProjectException($"{problem[(problem.IndexOf(':', StringComparison.Ordinal) + 2)..]} Nothing was written.");
    }

    /// <summary>Label and crew of a run that the point goes on, as <c>WM-1@North</c>.</summary>
    private static string LabelOf(AsBuiltRecord record, string code, string name)
    {
        var run = VerbParts.RunOf(record, name);
        if (run.Code != code) throw new ProjectException($"{run.Label} is {run.Code}, not {code}.");
        var label = run.Key[(run.Code.Length + 1)..];
        return label.StartsWith("from ", StringComparison.Ordinal)
            ? throw new ProjectException($"{run.Label} has no label of its own: construct the point without --run, and name it in the run's path with: aslaid correct PROJECT path")
            : label;
    }
}
