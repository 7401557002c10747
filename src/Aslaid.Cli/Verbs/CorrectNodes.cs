using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>What enters a chamber, fitting or joint, and which runs end there.</summary>
internal static class CorrectNodes
{
    public static IEnumerable<Command> Kinds(Shell shell, Argument<string> project)
    {
        var crew = new Option<string?>("--crew") { Description = "Whose ids are meant.", HelpName = "NAME" };
        var node = new Argument<string>("NODE") { Description = "The node's shot: 101, 101@Crew, 2:14 (batch:line)." };
        var name = new Argument<string>("NAME") { Description = "Name of the connection within the node, as A or north." };
        var (invert, size) = (VerbParts.Metres("--invert", "Height of its invert, metres."), VerbParts.Metres("--size", "Inside diameter, metres."));
        var clock = new Option<double?>("--clock") { Description = "Direction by the clock, 12 towards grid north.", HelpName = "HOURS" };
        var of = new Option<string?>("--of-run") { Description = "The run that ends there.", HelpName = "RUN" };
        var which = new Option<string?>("--which") { Description = "Which of its ends: start or end.", HelpName = "END" };
        which.AcceptOnlyFromAmong("start", "end");
        yield return CorrectVerb.Kind(shell, project, "connection", "Say what enters a node: invert, size, direction by the clock, run. A name said again is said anew.", [node, name, invert, size, clock, of, which, crew], (record, parsed) =>
        {
            var (at, called) = (VerbParts.ShotsOf(record, [parsed.GetValue(node)!], parsed.GetValue(crew))[0], PlainText.Demand("NAME", parsed.GetValue(name)!.Trim()));
            if (called.Length == 0) throw new ProjectException("A connection needs a name within its node.");
            if (parsed.GetValue(clock) is { } hours && !(hours is >= 0 and <= 12)) throw new ProjectException(FormattableString.Invariant($"--clock: {hours} is no hour from 0 to 12; 12 is towards grid north."));
            if (parsed.GetValue(size) is <= 0) throw new ProjectException("--size: an inside diameter is above 0 m.");
            if (parsed.GetValue(of) is null && parsed.GetValue(which) is not null) throw new ProjectException("--which says an end of a run: name the run with --of-run.");
            var run = parsed.GetValue(of) is { } label ? VerbParts.RunOf(record, label) : (Run?)null;
            return new ConnectionSet(at, called, parsed.GetValue(invert), parsed.GetValue(size), parsed.GetValue(clock) is 12 ? 0 : parsed.GetValue(clock), run?.Key, EndOf(parsed.GetValue(which)));
        });

        var tied = new Argument<string>("RUN") { Description = "The run: its label or key." };
        var to = new Option<string>("--to") { Description = "The node's shot.", HelpName = "SHOT", Required = true };
        var end = new Option<string>("--which") { Description = "Which end: start or end.", HelpName = "END", DefaultValueFactory = _ => "end" };
        end.AcceptOnlyFromAmong("start", "end");
        yield return CorrectVerb.Kind(shell, project, "node", "Say that an end of a run belongs to a node. Nothing is moved.", [tied, to, end, crew], (record, parsed) =>
            new NodeTied(VerbParts.RunOf(record, parsed.GetValue(tied)!).Key, EndOf(parsed.GetValue(end))!.Value, VerbParts.ShotsOf(record, [parsed.GetValue(to)!], parsed.GetValue(crew))[0]));
    }

    private static RunEnd? EndOf(string? word) => word switch { "start" => RunEnd.Start, "end" => RunEnd.End, _ => null };
}
