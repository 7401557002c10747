using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>One line of an explanation; deeper lines are what the line above rests on.</summary>
public readonly record struct WhyLine(int Depth, string Text);

/// <summary>Why a figure or verdict is what it is: shots, formula, uncertainty, limit and its source, and the journal entries behind it.</summary>
public sealed class Explanation
{
    private readonly AsBuiltRecord record;
    private readonly ImmutableArray<WhyLine>.Builder lines = ImmutableArray.CreateBuilder<WhyLine>();

    private Explanation(AsBuiltRecord record) => this.record = record;

    /// <summary>Of a finding.</summary>
    public static ImmutableArray<WhyLine> Of(AsBuiltRecord record, Finding finding)
    {
        var why = new Explanation(record);
        why.Add(0, $"{EnumWords.Of(finding.Severity)} {finding.Id}: {finding.Message}");
        why.Add(1, $"check {finding.Check.Name}: {finding.Check.Title}");
        if (finding.Measured is { } measured) why.Add(1, $"measured {measured:0.####}{Unit(finding)}{(finding.Allowed is { } allowed ? FormattableString.Invariant($", allowed {allowed:0.####}") + Unit(finding) : "")}");
        if (finding.Run is { } run)
        {
            why.Add(1, $"run {run.Key}{(finding.From is { } from ? FormattableString.Invariant($", chainage {from:0.00} to {finding.To:0.00} m") : "")}");
            why.Limits(1, run.Entry);
        }
        else if (record.Shots.Entry(finding.Shots.Length > 0 ? finding.Shots[0] : 0) is { } entry) why.Limits(1, entry);
        why.Add(1, $"cure: {finding.Cure} Shoot again: {EnumWords.Of(finding.Reshoot)}.");
        if (finding.Correction is { } correction) why.Add(1, $"ready correction: {JournalText.Of(new(0, default, default, "", correction))}");
        if (finding.Under is { } leader) why.Add(1, $"a consequence of {leader.Id}: {leader.Message}");
        foreach (var other in finding.Folded) why.Add(1, $"folded under it, {EnumWords.Of(other.Severity)} {other.Id}: {other.Message}");
        if (finding.AcceptedAt > 0) why.Entry(1, finding.AcceptedAt, finding.State == FindingState.Lapsed ? "acceptance lapsed, the evidence worsened: " : "");
        foreach (var shot in finding.Shots) why.Shot(1, shot);
        return why.lines.ToImmutable();
    }

    /// <summary>Of a run.</summary>
    public static ImmutableArray<WhyLine> Of(AsBuiltRecord record, Run run)
    {
        var why = new Explanation(record);
        why.Add(0, $"run {run.Key}, {run.Entry?.Name ?? "code not in the code book"}");
        why.Limits(1, run.Entry);
        why.Add(1, $"status {run.Facts.StatusWord}{(run.Counts ? "" : ", which no quantity counts")}, flow {run.Facts.FlowWord}{End("start", run.Facts.Start)}{End("end", run.Facts.End)}");
        why.Measure(1, "length in plan", run.PlanLength, run.UPlanLength, "m", "sum of its pieces: a straight is the distance of its shots, an arc radius times sweep");
        if (run.SlopeLength is { } slope) why.Measure(1, "length on the slope", slope, run.USlopeLength, "m", "each stretch √(plan² + rise²), heights linear between shots");
        else why.Add(1, $"length on the slope: not known, a height is missing");
        if (run.Area is { } area) why.Measure(1, "area", area, run.UArea, "m²", "polygon of its corners and the circular segments of its arcs");
        foreach (var hole in record.Site.Holes.Of(run.Number)) why.Add(1, $"hole {record.Runs[hole].Key}: {record.Runs[hole].Area:0.000} m² taken off, {record.Site.Holes.Net(run):0.000} m² net");
        if (record.Site.Holes.AreaOf(run.Number) is { } outer) why.Add(1, $"a hole of {record.Runs[outer].Key}");
        if (record.Site.Relations.In(run.Number) is { } within) why.Add(1, $"lies in {record.Runs[within].Key}");
        foreach (var inner in record.Site.Relations.Inside(run.Number)) why.Add(1, $"holds {record.Runs[inner].Key}");
        foreach (var other in record.Site.Relations.Bank(run.Number)) why.Add(1, $"of one bank with {record.Runs[other].Key}");
        why.Add(1, $"uncertainty: gradient of the measure by each shot, times the shot's standard uncertainty, squared and added (JCGM 100:2008, 5.2); what a session has in common cancels where it should");
        foreach (var judged in Judgements.Of(record).Where(judged => judged.Run?.Number == run.Number)) why.Verdict(1, judged);
        why.Add(1, $"path {PathNotation.Write(run)}");
        for (var number = 0; number < run.PieceCount; number++) why.Piece(2, run.Piece(number));
        foreach (var hold in record.Holds.Where(hold => hold.Run == run.Number))
        {
            why.Add(1, $"{hold.From:0.00} to {hold.To:0.00} m {EnumWords.Of(hold.State)}");
            foreach (var finding in hold.By) why.Add(2, $"{record.Findings[finding].Id}: {record.Findings[finding].Message}");
            if (hold.Entry > 0) why.Entry(2, hold.Entry, "");
            foreach (var lapsed in hold.Lapsed) why.Entry(2, lapsed, $"lapsed, {LapseReason.Of(record, run, lapsed)}: ");
        }

        why.Levels(1, run);
        why.Former(1, run);
        foreach (var entry in record.Inputs.Journal)
            if (RunOf(entry.What) == run.Key) why.Entry(1, entry.Position, "");
        foreach (var shot in run.Members) why.Shot(1, shot);
        return why.lines.ToImmutable();
    }

    /// <summary>Of a shot: its row of the shot table.</summary>
    public static ImmutableArray<WhyLine> OfShot(AsBuiltRecord record, int row)
    {
        var why = new Explanation(record);
        why.Shot(0, row);
        var session = record.Shots.Sessions[record.Shots.Session[row]];
        why.Add(1, $"its session: {session.CheckShots} check shots, in common u plan {session.UPlan * Math.Sqrt(2):0.000} m radial, u height {session.UHeight:0.000} m");
        if (record.Site.Nodes.Find(row) is { } node) why.Node(1, node);
        for (var number = 0; number < record.Runs.Count; number++)
            if (record.Runs[number].Members.Contains(row)) why.Add(1, $"on run {record.Runs[number].Key}");
        for (var number = 0; number < record.Findings.Count; number++)
            if (record.Findings[number].Shots.Contains(row)) why.Add(1, $"{EnumWords.Of(record.Findings[number].Severity)} {record.Findings[number].Id}: {record.Findings[number].Message}");
        return why.lines.ToImmutable();
    }

    /// <summary>Of a quantity: all that is counted of a code.</summary>
    public static ImmutableArray<WhyLine> Of(AsBuiltRecord record, string code)
    {
        var why = new Explanation(record);
        why.Add(0, $"quantities of {code}, {record.Inputs.Codes[code]?.Name ?? "code not in the code book"}");
        foreach (var quantity in record.Quantities.Where(quantity => quantity.Code == code))
        {
            if (quantity.Kind == QuantityKind.Count) why.Add(1, $"{EnumWords.Of(quantity.Kind)}: {quantity.Value:0}");
            else why.Measure(1, EnumWords.Of(quantity.Kind), quantity.Value, quantity.U, quantity.Unit, quantity.Rule);
            if (quantity.LeftOut > 0) why.Add(2, $"{quantity.LeftOut} runs left out: a height is missing, the ring is open, or there is one shot only");
        }

        why.Add(1, $"a shot in two runs counts once in the uncertainty; gradients are added before they are squared");
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (run.Code == code) why.Measure(1, run.Key, run.PlanLength, run.UPlanLength, "m", $"path {PathNotation.Write(run)}");
        }

        foreach (var shot in record.Points)
            if (record.Shots.CodeOf(shot) == code) why.Shot(1, shot);
        return why.lines.ToImmutable();
    }

    /// <summary>Levels at both ends, as far as shots and sizes tell.</summary>
    private void Levels(int depth, Run run)
    {
        var levels = new LevelsOfRuns(record.Site);
        foreach (var member in run.MemberCount > 1 ? (int[])[0, run.MemberCount - 1] : [0])
        {
            if (levels.Of(run, member) is { } at && (at.Top ?? at.Invert ?? at.Centre ?? at.Underside ?? at.Soffit) is not null)
                Add(depth, $"levels at {record.Shots.Raw.Id(run.Members[member])}: top {Level(at.Top)}, centre {Level(at.Centre)}, soffit {Level(at.Soffit)}, invert {Level(at.Invert)}, underside {Level(at.Underside)}{(at.EncasedTop is null && at.EncasedUnderside is null ? "" : $", encased from {Level(at.EncasedUnderside)} to {Level(at.EncasedTop)}")}{(at.U is { } u ? FormattableString.Invariant($", ± {1.96 * u:0.000} m (95 %, sizes as stated)") : ", accuracy not stated")}");
        }
    }

    private static string Level(double? level) => level is { } known ? known.ToString("0.000", CultureInfo.InvariantCulture) : "not known";

    /// <summary>The card of a node.</summary>
    private void Node(int depth, Node node)
    {
        var cover = record.Shots.HeightOf(node.Row);
        Add(depth, $"node {record.Shots.CodeOf(node.Row)}: {Figures(node.Connections.Length, "connection")}, {Figures(node.Ends.Length, "end")} of runs");
        foreach (var (what, entry) in node.Connections)
        {
            var below = what.Invert is { } invert && cover is { } level ? FormattableString.Invariant($", {level - invert:0.000} m below its shot") : "";
            Add(depth + 1, $"{what.Name}: invert {Level(what.Invert)}{below}, inside {(what.Size is { } size ? FormattableString.Invariant($"{size:0.000} m") : "not known")}, direction {(what.Clock is { } clock ? FormattableString.Invariant($"{clock:0.0} o'clock, 12 is grid north") : "not known")}{(what.Run is { } run ? $", {(what.End is { } end ? EnumWords.Of(end) + " of " : "")}{run}" : "")}");
            Entry(depth + 2, entry, "");
        }

        foreach (var end in node.Ends)
            Add(depth + 1, $"the {EnumWords.Of(end.End)} of {record.Runs[end.Run].Key} at {record.Shots.Raw.Id(end.Shot)}{(NodeFacts.FlowsOut(record.Shots, record.Runs[end.Run], end.End) is { } flowsOut ? flowsOut ? ", flows out" : ", flows in" : ", flow not known")}");
    }

    private static string Figures(int count, string thing) => CheckText.Count(count, thing);

    /// <summary>What was measured under its label and no longer counts; of a check, how far it lies from the run.</summary>
    private void Former(int depth, Run run)
    {
        foreach (var former in record.Former.Of(run.Key))
        {
            var what = former.As switch { FormerAs.Check => "a check of it", FormerAs.Removed => "removed, replaced by it", _ => "superseded by it" };
            Add(depth, $"{former.Run.Label}, {former.Run.MemberCount} shots, {former.Run.PlanLength:0.000} m in plan: {what}, decided at journal {former.Entry}");
            if (former.As != FormerAs.Check || run.PieceCount == 0) continue;
            var path = run.Path;
            var off = former.Run.Members.ToArray().Max(shot => path.Locate(record.Shots.At(shot)).Distance);
            Add(depth + 1, $"it lies at most {off:0.000} m from the run in plan");
        }
    }

    private static string End(string name, string? word) => word is null ? "" : $", {name} {word}";

    private static string? RunOf(Change change) => change switch
    {
        RunJoined c => c.Into,
        RunSplit c => c.Run,
        LabelDecided c => c.Run,
        HoleDecided c => c.Run,
        RelationSet c => c.Run,
        PathSet c => c.Run,
        EndTied c => c.Run,
        AttributeSet c => c.Run,
        LengthReleased c => c.Run,
        LengthCovered c => c.Run,
        _ => null,
    };

    private static string Unit(Finding finding) => finding.Check.Unit is "" or "1" ? "" : " " + finding.Check.Unit;

    private void Piece(int depth, Piece piece)
    {
        var ids = Enumerable.Range(piece.First, piece.Last - piece.First + 1).Select(member => record.Shots.Raw.Id(piece.Run.Members[member]));
        if (piece.Kind == PieceKind.Straight)
        {
            Add(depth, $"straight {string.Join(' ', ids)}: {piece.PlanLength:0.000} m");
            return;
        }

        var arc = piece.Arc;
        var doubt = piece.URadius is not { } u ? FormattableString.Invariant($"{arc.Radius:0.000} m, accuracy not stated")
            : RadiusInterval.IsLinear(arc.Radius, u) ? FormattableString.Invariant($"{arc.Radius:0.000} m ± {1.96 * u:0.000} (95 %)") : CheckText.Radius(arc.Radius, u);
        Add(depth, $"arc {string.Join(' ', ids)}: radius {doubt}, sweep {double.RadiansToDegrees(arc.Sweep):0.000}° {(arc.Turn == Turn.Left ? "left" : "right")}, {arc.PlanLength:0.000} m");
    }

    private void Measure(int depth, string what, double value, double? u, string unit, string rule) =>
        Add(depth, $"{what} {value:0.000} {unit}{(u is { } known ? FormattableString.Invariant($" ± {1.96 * known:0.000} (95 %, u = {known:0.0000})") : ", accuracy not stated: nothing is proven")}: {rule}");

    private void Verdict(int depth, Judged judged)
    {
        var (judgement, unit) = (judged.Judgement, judged.Requirement.Unit);
        var doubt = judgement.U95 is { } u95 ? FormattableString.Invariant($" ± {u95:0.000}") : "";
        var value = judgement.Value is { } known ? FormattableString.Invariant($"{known:0.000}{doubt} {unit}") : "not known";
        var within = judgement.Within switch { true => "within its limits", false => "outside its limits", null => "not measured" };
        var p = judgement.PConforms is { } probability ? FormattableString.Invariant($" (probability {probability:0.000})") : "";
        var where = FormattableString.Invariant($"{judged.Requirement.Name} at {judged.From:0.00} m, shot {record.Shots.Raw.Id(judged.Shot)}");
        Add(depth, $"{where}: {value}, {judgement.Limits} {unit}: {within}, {EnumWords.Of(judgement.Verdict)}{p}");
    }

    private void Limits(int depth, CodeEntry? entry)
    {
        if (entry is null) return;
        Add(depth, $"limits of {entry.Code}: {CodeBookText.Of(entry).TrimEnd('\n').Replace("\n", ", ", StringComparison.Ordinal)}");
        if (entry.Source is { } source) Add(depth + 1, $"source: {source}");
    }

    private void Shot(int depth, int row)
    {
        var shots = record.Shots;
        var batch = shots.Raw.BatchOf(row);
        var height = shots.HeightOf(row) is { } h ? FormattableString.Invariant($"H {h:0.000}") : "no height";
        var accuracy = double.IsNaN(shots.SigmaPlan[row])
            ? "accuracy not stated"
            : FormattableString.Invariant($"u plan {shots.SigmaPlan[row] * Math.Sqrt(2):0.000} m radial, u height {shots.SigmaHeight[row]:0.000} m{Parts(row)}");
        if (shots.Raw.IsConstructed(row))
        {
            Constructed(depth, row, height);
            return;
        }

        var fix = shots.Raw.Text("fix", row) is { } word ? $", fix {word}" : "";
        Add(depth, $"shot {shots.Raw.Id(row)}: E {shots.Raw.East[row]:0.000} N {shots.Raw.North[row]:0.000} {height}, {shots.CodeOf(row)}, {accuracy}{fix}; {batch.FileName} line {shots.Raw.Line[row]}{(shots.Raw.Crew(row) is { } crew ? $", crew {crew}" : "")}{(shots.Used[row] ? "" : ", set aside")}");
        foreach (var position in shots.BecauseOf(row)) Entry(depth + 1, position, "");
    }

    /// <summary>A point that nobody measured: how it was computed, from what, and how well it is known.</summary>
    private void Constructed(int depth, int row, string height)
    {
        var shots = record.Shots;
        var made = shots.Constructed?.Find(row);
        var accuracy = double.IsNaN(shots.SigmaPlan[row]) ? "accuracy not stated" : FormattableString.Invariant($"u plan {shots.SigmaPlan[row] * Math.Sqrt(2):0.000} m radial, u height {shots.SigmaHeight[row]:0.000} m by its shots and readings");
        Add(depth, $"constructed point {shots.Raw.Id(row)}: E {shots.Raw.East[row]:0.000} N {shots.Raw.North[row]:0.000} {height}, {shots.CodeOf(row)}, {accuracy}; {shots.Raw.Text("constructed", row)}");
        Entry(depth + 1, shots.Raw.Line[row], "");
        if (made is null) return;
        foreach (var reading in made.How.Readings) Add(depth + 1, $"reading {reading.Value:0.0000} with u {reading.U:0.0000} (metres, or radians of a bearing)");
        if (made.Fit is { } fit)
            Add(depth + 1, $"tangential fit through {fit.Residuals.Length} shots: radius {fit.Radius:0.000} m, {fit.FirstStraight} on the first straight, {fit.OnArc} on the arc, largest distance {fit.Residuals.Max(Math.Abs):0.000} m{(fit.SigmaZero is { } zero ? FormattableString.Invariant($", {zero:0.000} m by the fit itself") : "")}");
        foreach (var parent in made.How.Parents) Shot(depth + 1, shots.Raw.Find(parent));
    }

    /// <summary>What the accuracy of a shot is made of: stated figure and factor, tip of the pole, and what its session has in common.</summary>
    private string Parts(int row)
    {
        var shots = record.Shots;
        var place = FormattableString.Invariant($"; with its session {shots.PlaceSigma(row) * Math.Sqrt(2):0.000} and {shots.LevelSigma(row):0.000} m");
        if (shots.IsDeclared(row)) return ", declared" + place;
        var instrument = shots.Receivers[shots.Receiver[row]];
        return FormattableString.Invariant($" (stated {shots.Raw.UPlan[row]:0.000} × {instrument.Plan.Factor:0.00} {EnumWords.Of(instrument.Plan.State)} and {shots.Raw.UHeight[row]:0.000} × {instrument.Height.Factor:0.00} {EnumWords.Of(instrument.Height.State)}, and the pole's tip)") + place;
    }

    private void Entry(int depth, int position, string before)
    {
        var entry = record.Inputs.Journal[position - 1];
        Add(depth, $"{before}journal {position}, {entry.Time:yyyy-MM-dd HH:mm} {entry.By.Name}: {JournalText.Of(entry)}{(entry.Why.Length > 0 ? $" — {entry.Why}" : "")}");
    }

    private void Add(int depth, FormattableString text) => lines.Add(new(depth, text.ToString(CultureInfo.InvariantCulture)));
}
