using System.Collections.Immutable;
using System.CommandLine;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>A stretch of a run through many shots becomes straight, arc and straight with their tangent points.</summary>
internal static class CorrectTangents
{
    public static Command Make(Shell shell, Argument<string> project)
    {
        var run = new Argument<string>("RUN") { Description = "The run: its label or key." };
        var from = new Option<string?>("--from-shot") { Description = "First shot of the stretch; the run's first where left out.", HelpName = "SHOT" };
        var to = new Option<string?>("--to-shot") { Description = "Last shot of the stretch; the run's last where left out.", HelpName = "SHOT" };
        var (by, why) = (VerbParts.By(required: true), VerbParts.Why());
        var verb = new Command("tangents", "Fit straight, arc and straight tangentially through the shots of a stretch, and let the run go by their tangent points.") { run, from, to, by, why };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock);
            var record = session.Record();
            var fitted = VerbParts.RunOf(record, parsed.GetValue(run)!);
            var (first, last) = (Member(record, fitted, parsed.GetValue(from), 0), Member(record, fitted, parsed.GetValue(to), fitted.MemberCount - 1));
            var (fit, changes) = Changes(record, fitted, first, last);
            foreach (var entry in session.Append(changes, VerbParts.ActorOf(parsed.GetValue(by)), PlainText.Demand("--why", parsed.GetValue(why)!.Trim())))
                shell.Say($"Journal {entry.Position}: {JournalText.Of(entry)}.");

            session.Publish();
            shell.Say($"Radius {fit.Radius:0.000} m, {fit.FirstStraight} shots on the first straight, {fit.OnArc} on the arc; the shots lie at most {fit.Residuals.Max(Math.Abs):0.000} m from it.");
            foreach (var line in session.Record().Unresolved) shell.Out.WriteLine(line);
            return Exit.Fine;
        });
        return verb;
    }

    private static int Member(AsBuiltRecord record, Run run, string? name, int otherwise)
    {
        if (name is null) return otherwise;
        var shot = record.Shots.Shot(record.Shots.Versions.Stand(record.Shots.Raw.Find(VerbParts.ShotsOf(record, [name], null)[0])));
        return run.Members.IndexOf(shot) is >= 0 and var member ? member : throw new ProjectException($"{name} is no shot of {run.Label}.");
    }

    private static (TangentFit Fit, ImmutableArray<Change> Changes) Changes(AsBuiltRecord record, Run run, int first, int last)
    {
        if (last - first < 4) throw new ProjectException("Straight, arc and straight need five shots at least: two, one and two.");
        var rows = run.Members[first..(last + 1)].ToArray();
        if (Array.Find(rows, row => record.Shots.Constructed?.Find(row)?.Fit is not null) is > 0 and var fitted)
            throw new ProjectException($"{run.Label} goes by a tangential fit here already ({record.Shots.Raw.Id(fitted)}): withdraw its path and points first, or name another stretch.");
        if (!TangentFitting.TryFit(Array.ConvertAll(rows, record.Shots.At), out var fit, out var fault))
        {
            throw new ProjectException(fault switch
            {
                TangentFault.TooFew => "Straight, arc and straight need two, one and two shots; these have fewer on one of them.",
                TangentFault.NotConverged => "The fit did not settle. Name a shorter stretch with --from-shot and --to-shot.",
                _ => "These shots do not bend once from one straight into another. Name the stretch with --from-shot and --to-shot.",
            });
        }

        ImmutableArray<ShotKey> parents = [.. rows.Select(record.Shots.Raw.Key)];
        ImmutableArray<int> parts = [fit!.FirstStraight, fit.OnArc, rows.Length - fit.FirstStraight - fit.OnArc];
        var stem = record.Shots.Raw.Id(rows[0]);
        Change[] points =
        [
            Point($"{stem}-TS", ConstructionKind.TangentStart), Point($"{stem}-TM", ConstructionKind.TangentMiddle), Point($"{stem}-TE", ConstructionKind.TangentEnd),
        ];
        var steps = ImmutableArray.CreateBuilder<PathStep>();
        for (var member = 0; member <= first; member++) steps.Add(Step(member));
        for (var point = 0; point < 3; point++) steps.Add(new(new(0, record.Position + 1 + point), Through: point == 1));
        for (var member = last; member < run.MemberCount; member++) steps.Add(Step(member));
        return (fit, [.. points, new PathSet(run.Key, null, steps.ToImmutable())]);

        PointConstructed Point(string id, ConstructionKind kind) => CorrectConstruct.Made(record, id, run.Code, null, new(kind, parents, [], 0, parts));

        PathStep Step(int member) => new(record.Shots.Raw.Key(run.Members[member]), run.Through[member]);
    }
}
