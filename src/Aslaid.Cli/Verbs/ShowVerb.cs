using System.CommandLine;
using System.Globalization;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class ShowVerb
{
    private static readonly string[] Things = ["runs", "shots", "findings", "quantities", "holds", "verdicts", "journal", "batches", "sessions", "instruments", "claims", "nodes", "design", "deviations", "coverage", "clearances"];

    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var what = new Argument<string>("WHAT") { HelpName = "WHAT", Description = string.Join(", ", Things) + "." };
        what.AcceptOnlyFromAmong(Things);
        var (json, at) = (VerbParts.Json(), VerbParts.At());
        var verb = new Command("show", "Show what the record holds, now or as it was known at a journal position.") { project, what, json, at };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record(parsed.GetValue(at));
            if (parsed.GetValue(json)) PrintJson(shell, session, record, parsed.GetValue(what)!);
            else Print(shell, session, record, parsed.GetValue(what)!);
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid show site.gpkg runs", "aslaid show site.gpkg findings --at 6", "aslaid show site.gpkg verdicts", "aslaid show site.gpkg quantities --json");
    }

    private static void PrintJson(Shell shell, ProjectSession session, AsBuiltRecord record, string what) => Json.Write(shell.Out, json =>
    {
        switch (what)
        {
            case "runs": RecordJson.Runs(json, record); break;
            case "shots": RecordJson.Shots(json, record); break;
            case "findings": RecordJson.Findings(json, null, record); break;
            case "quantities": RecordJson.Quantities(json, record); break;
            case "holds": RecordJson.Holds(json, record); break;
            case "verdicts": AccuracyJson.Verdicts(json, record); break;
            case "batches": RecordJson.Batches(json, record); break;
            case "sessions": AccuracyJson.Sessions(json, record); break;
            case "instruments": AccuracyJson.Instruments(json, record); break;
            case "nodes": NodeJson.Write(json, record); break;
            case "design": DesignJson.Design(json, record); break;
            case "deviations": DesignJson.Deviations(json, record); break;
            case "coverage": DesignJson.Coverage(json, record); break;
            case "clearances": DesignJson.Clearances(json, record); break;
            case "claims": ClaimText.Write(json, session, record); break;
            default: RecordJson.Journal(json, session, record.Position); break;
        }
    });

    private static void Print(Shell shell, ProjectSession session, AsBuiltRecord record, string what)
    {
        switch (what)
        {
            case "findings":
                foreach (var finding in Summary.FindingsInOrder(record)) Summary.Print(shell, finding);
                if (record.Findings.Count == 0) shell.Say($"No findings.");
                return;
            case "journal":
                foreach (var entry in session.Journal.Take(record.Position))
                    shell.Say($"{entry.Position,4}  {entry.Time:yyyy-MM-dd HH:mm}  {entry.By.Name}: {JournalText.Of(entry)}{(entry.Why.Length > 0 ? $" — {entry.Why}" : "")}");
                shell.Say($"Head {session.HeadHash(record.Position)}");
                return;
            case "verdicts":
                VerdictText.Print(shell, record);
                return;
            case "design":
                DesignText.Design(shell, record);
                return;
            case "deviations":
                DesignText.Deviations(shell, record);
                return;
            case "coverage":
                DesignText.Coverage(shell, record);
                return;
            case "clearances":
                DesignText.Clearances(shell, record);
                return;
            case "claims":
                ClaimText.Print(shell, session, record);
                return;
            default:
                Table(record, what).Write(shell.Out);
                return;
        }
    }

    private static Columns Table(AsBuiltRecord record, string what)
    {
        Columns table;
        switch (what)
        {
            case "runs":
                var states = RunStates(record);
                table = new("run", "crew", "code", "shots", "arcs", "plan length m, 95 %", "slope length m", "area m2", "state");
                for (var number = 0; number < record.Runs.Count; number++)
                {
                    var run = record.Runs[number];
                    var arcs = Enumerable.Range(0, run.PieceCount).Count(piece => run.Piece(piece).ArcNumber >= 0);
                    table.Add(run.Label, record.Shots.Raw.Crew(run.Members[0]) ?? "–", run.Code, Figures.Whole(run.MemberCount), Figures.Whole(arcs), Figures.With95(run.PlanLength, run.UPlanLength),
                        Figures.Metres(run.SlopeLength), Figures.Metres(record.Site.Holes.Net(run)), states[number]);
                }

                return table;
            case "shots":
                table = new("shot", "key", "crew", "code", "run", "east m", "north m", "height m", "u plan m", "u height m", "state");
                for (var row = 0; row < record.Shots.Count; row++)
                {
                    if (!record.Shots.IsPlace(row)) continue;
                    var shot = record.Shots.Raw[row];
                    table.Add(shot.Id, shot.Key.ToString(), shot.Crew ?? "–", record.Shots.CodeOf(row), record.Shots.Labels[record.Shots.Label[row]] ?? "–",
                        Figures.Metres(shot.At.East), Figures.Metres(shot.At.North), Figures.Metres(record.Shots.HeightOf(row)),
                        Sigma(record.Shots.SigmaPlan[row] * Math.Sqrt(2)), Sigma(record.Shots.SigmaHeight[row]), !record.Shots.Used[row] ? "set aside" : record.Shots.Raw.IsConstructed(row) ? "constructed" : "counts");
                }

                return table;
            case "quantities":
                table = new("code", "pay item", "kind", "value, 95 %", "unit", "of which held", "runs", "left out");
                foreach (var quantity in record.Quantities)
                {
                    table.Add(quantity.Code, quantity.PayItem ?? "–", EnumWords.Of(quantity.Kind),
                        quantity.Kind == QuantityKind.Count ? quantity.Value.ToString("0", CultureInfo.InvariantCulture) : Figures.With95(quantity.Value, quantity.U),
                        quantity.Unit, Figures.Metres(quantity.Held), Figures.Whole(quantity.Runs), Figures.Whole(quantity.LeftOut));
                }

                return table;
            case "holds":
                table = new("run", "from m", "to m", "state", "held by", "journal");
                foreach (var hold in record.Holds)
                {
                    table.Add(record.Runs[hold.Run].Label, Figures.Metres(hold.From), Figures.Metres(hold.To), EnumWords.Of(hold.State),
                        string.Join(' ', hold.By.Select(finding => record.Findings[finding].Id)) + (hold.Lapsed.IsEmpty ? "" : $" (release lapsed: {string.Join("; ", hold.Lapsed.Select(entry => LapseReason.Of(record, record.Runs[hold.Run], entry)).Distinct())})"),
                        hold.Entry > 0 ? Figures.Whole(hold.Entry) : "–");
                }

                return table;
            case "nodes":
                table = new("node", "code", "east m", "north m", "level m", "connections", "ends of runs", "lowest invert m", "below its level m");
                foreach (var node in record.Site.Nodes.All)
                {
                    var (at, level) = (record.Shots.At(node.Row), record.Shots.HeightOf(node.Row));
                    var lowest = node.Connections.Min(connection => connection.What.Invert);
                    table.Add(record.Shots.Raw.Id(node.Row), record.Shots.CodeOf(node.Row), Figures.Metres(at.East), Figures.Metres(at.North), Figures.Metres(level),
                        Figures.Whole(node.Connections.Length), Figures.Whole(node.Ends.Length), Figures.Metres(lowest), Figures.Metres(level - lowest));
                }

                return table;
            case "sessions":
                table = new("session", "batch", "crew", "instrument", "set-up", "shots", "check shots", "common u plan m", "common u height m", "misfit east, north, height m");
                foreach (var session in SessionFacts.Of(record))
                {
                    var accuracy = session.Accuracy;
                    table.Add(Figures.Whole(session.Number + 1), Figures.Whole(session.Batch), session.Crew ?? "–", session.Instrument ?? "–", session.Setup ?? "–",
                        Figures.Whole(session.Shots), Figures.Whole(accuracy.CheckShots), Figures.Metres(accuracy.UPlan * Math.Sqrt(2)), Figures.Metres(accuracy.UHeight),
                        accuracy.CheckShots == 0 ? "–" : FormattableString.Invariant($"{accuracy.East:+0.000;-0.000;0.000} {accuracy.North:+0.000;-0.000;0.000} {accuracy.Height:+0.000;-0.000;0.000}"));
                }

                return table;
            case "instruments":
                table = new("crew", "instrument", "method", "check shots", "plan", "factor", "ratio", "height", "factor", "ratio");
                foreach (var instrument in record.Shots.Receivers)
                {
                    table.Add(instrument.Crew ?? "–", instrument.Name ?? "–", instrument.Method ?? "–", Figures.Whole(instrument.CheckShots),
                        EnumWords.Of(instrument.Plan.State), Ratio(instrument.Plan.Factor), Ratio(instrument.Plan.Ratio),
                        EnumWords.Of(instrument.Height.State), Ratio(instrument.Height.Factor), Ratio(instrument.Height.Ratio));
                }

                return table;
            default:
                table = new("batch", "file", "crew", "rows", "declared u plan m", "declared u height m", "file sha-256");
                foreach (var batch in record.Shots.Raw.Batches)
                {
                    table.Add(Figures.Whole(batch.Number), batch.FileName, batch.Crew ?? "–", Figures.Whole(batch.Count), Figures.Metres(batch.Declared.UPlan),
                        Figures.Metres(batch.Declared.UHeight), batch.FileSha256);
                }

                return table;
        }
    }

    private static string[] RunStates(AsBuiltRecord record) => Exchange.RunStates.Of(record);

    private static string Ratio(double? value) => value?.ToString("0.00", CultureInfo.InvariantCulture) ?? "–";

    private static string Sigma(double value) => double.IsNaN(value) ? "–" : Figures.Metres(value);
}
