using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Cli;

/// <summary>The record held against the design, for people: deviations, coverage, clearances, the design itself.</summary>
internal static class DesignText
{
    public static void Design(Shell shell, AsBuiltRecord record)
    {
        var design = record.Site.Design;
        foreach (var file in design.Files)
            shell.Say($"{file.What.FileName} (journal {file.Entry}): {Figures.Count(file.File.Lines.Length, "line")}, {Figures.Count(file.File.Points.Length, "point")}, {Figures.Count(file.File.Surfaces.Length, "surface")}{(file.Holds ? "" : "; an earlier revision, no longer in force")}");
        if (design.Files.IsEmpty) shell.Say($"No design is adopted. Adopt one with: aslaid design PROJECT FILE");
        var table = new Columns("line", "code", "length m", "from station m", "to station m", "heights", "status", "file");
        foreach (var line in design.Lines)
            table.Add(line.Name, line.Code ?? "–", Figures.Metres(line.Length), Figures.Metres(line.StationAt(0)), Figures.Metres(line.StationAt(line.Length)), line.Line.Profile is not null ? "profile" : line.HeightAt(0) is not null ? "places" : "none", line.IsExisting ? "existing" : "new", line.Of.What.FileName);
        if (!design.Lines.IsEmpty) table.Write(shell.Out);
        foreach (var surface in design.Surfaces)
            shell.Say($"Surface {surface.Name}: {EnumWords.Of(surface.Kind)}{(surface.Date is { } date ? FormattableString.Invariant($", {date:yyyy-MM-dd}") : "")}, {Figures.Count(surface.Tin.TriangleCount, "triangle")}, {(surface.U is { } u ? u == 0 ? "exact by design" : FormattableString.Invariant($"u {u:0.000} m") : "accuracy not stated")}, {surface.Of.What.FileName}");
        foreach (var word in design.Unmapped) shell.Say($"'{word.Word}' stands for no code: {Figures.Count(word.Lines, "line")}, {Figures.Count(word.Points, "point")}");
    }

    public static void Deviations(Shell shell, AsBuiltRecord record)
    {
        var all = Record.Deviations.Of(record).ToList();
        if (all.Count == 0)
        {
            shell.Say($"No shot lies within {record.Inputs.Settings.DesignReach:0.0} m of a design of its code.");
            return;
        }

        var table = new Columns("run or code", "axis", "shots", "mean m", "RMS m", "95 % m", "least m", "at", "most m", "at");
        foreach (var summary in Record.Deviations.Summaries(all))
        {
            if (summary.Plan is { } plan) Add(table, record, summary, "plan", plan);
            if (summary.Height is { } height) Add(table, record, summary, "height", height);
        }

        table.Write(shell.Out);
        var largest = new Columns("run", "largest departure m, between shots too", "at m", "design", "station m");
        for (var number = 0; number < record.Runs.Count; number++)
            if (Departures.Of(record.Site, record.Runs[number]) is { } found) largest.Add(found.Run.Label, found.U is { } u ? Figures.With95(found.At.Distance, u) : Figures.Metres(found.At.Distance), Figures.Metres(found.At.Here), found.Line.Name, Figures.Metres(found.Line.StationAt(found.At.Beside.Along)));
        largest.Write(shell.Out);
        shell.Say($"Departure from the design, not accuracy of the data. Plan: square off the line, right positive (of points the distance); height: above the design positive.");
        Verdicts(shell, "Plan", all.ConvertAll(one => one.Plan));
        Verdicts(shell, "Height", all.ConvertAll(one => one.Level));
    }

    private static void Verdicts(Shell shell, string axis, List<Judgement?> judged)
    {
        int Of(Verdict verdict) => judged.Count(one => one?.Verdict == verdict);
        shell.Say($"{axis}: {judged.Count(one => one?.Within == true)} measured within tolerance, {judged.Count(one => one?.Within == false)} not; {Of(Verdict.Conforms)} conform, {Of(Verdict.DoesNotConform)} do not, {Of(Verdict.NotProven)} not proven, {Of(Verdict.MethodUnfit)} method unfit; {judged.Count(one => one is null)} without a tolerance or a height.");
    }

    private static void Add(Columns table, AsBuiltRecord record, DeviationSummary summary, string axis, DeviationSpread spread) =>
        table.Add(summary.Run?.Label ?? "all " + summary.Code, axis, Figures.Whole(spread.Count), Figures.Signed(spread.Mean), Figures.Metres(spread.Rms), Figures.Metres(spread.Within95),
            Figures.Signed(spread.Least.Value), record.Shots.Raw.Id(spread.Least.Row), Figures.Signed(spread.Most.Value), record.Shots.Raw.Id(spread.Most.Row));

    public static void Coverage(Shell shell, AsBuiltRecord record)
    {
        var coverage = record.Site.Coverage;
        var table = new Columns("line", "code", "length m", "measured m", "share %", "not measured, stations m");
        foreach (var line in coverage.Lines)
            table.Add(line.Line.Name, line.Line.Code!, Figures.Metres(line.Line.Length), Figures.Metres(line.Length), (100 * line.Share).ToString("0.0", CultureInfo.InvariantCulture), line.Missing.IsEmpty ? "–" : Missing(line));
        table.Write(shell.Out);
        var (whole, measured) = (coverage.Lines.Sum(line => line.Line.Length), coverage.Lines.Sum(line => line.Length));
        if (whole > 0) shell.Say($"All: {measured:0.0} of {whole:0.0} m measured, {100 * measured / whole:0.0} %.");
        foreach (var code in coverage.Points.GroupBy(point => point.Code!)) shell.Say($"{code.Key}: {Figures.Count(code.Count(), "point")} of the design without a shot: {string.Join(", ", code.Take(20).Select(point => point.Point.Name))}{(code.Count() > 20 ? " …" : "")}");
    }

    private static string Missing(LineCoverage line) => string.Join("; ", line.Missing.Select(range => string.Create(CultureInfo.InvariantCulture, $"{line.Line.StationAt(range.From):0.0} to {line.Line.StationAt(range.To):0.0}")));

    public static void Clearances(Shell shell, AsBuiltRecord record)
    {
        var table = new Columns("how", "run", "at m", "other", "at m", "plan m", "vertical m", "in space m", "judged, 95 %", "least m", "verdict", "source");
        foreach (var one in record.Site.Clearances.All)
            table.Add(EnumWords.Of(one.Kind), record.Runs[one.One].Label, Figures.Metres(one.Chainage), record.Runs[one.Other].Label, Figures.Metres(one.OtherChainage), Figures.Metres(one.Plan), Figures.Metres(one.Vertical), Figures.Metres(one.Space),
                one.Judgement.Value is { } value ? Figures.With95(value, one.Judgement.U) : "–", Figures.Metres(one.Judgement.Limits.Lower), EnumWords.Of(one.Judgement.Verdict), one.Rule.Source);
        table.Write(shell.Out);
        shell.Say($"Clear distances outside to outside, sizes as the code book has them. They are project settings; local code prevails.");
    }
}
