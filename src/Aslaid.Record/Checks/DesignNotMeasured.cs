using System.Globalization;

namespace Aslaid.Record;

/// <summary>What of the design is not measured: progress, one look for the whole site; missing, a stop, within a range that somebody said is built.</summary>
internal sealed class DesignNotMeasured : ICheck
{
    public string Name => "design-not-measured";

    public string Title => "Design not measured yet";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        if (site.Design.Lines.IsEmpty || site.ShotRows.Length == 0) return;
        var rows = new List<int>();
        var (whole, measured, codes) = (0.0, 0.0, new SortedDictionary<string, (double Whole, double Measured)>(StringComparer.Ordinal));
        foreach (var line in site.Coverage.Lines)
        {
            var said = 0.0;
            foreach (var built in site.Built[line.Line.Name])
                foreach (var missing in line.Missing)
                    said += Add(site, line.Line, Math.Max(built.From, missing.From), Math.Min(built.To, missing.To), found);
            whole += line.Line.Length;
            measured += line.Length + said; // what is said to be built is no progress to come
            var of = codes.GetValueOrDefault(line.Line.Code!);
            codes[line.Line.Code!] = (of.Whole + line.Line.Length, of.Measured + line.Length + said);
            foreach (var missing in line.Missing)
                if (rows.Count < MostShots) rows.Add(site.ShotRows[site.ShotIndex.Nearest(line.Line.Path.PointAt((missing.From + missing.To) / 2), out _)]);
        }

        var left = codes.Where(code => code.Value.Whole - code.Value.Measured > DesignCoverage.Least).ToArray();
        if (left.Length == 0) return;
        var words = string.Join(", ", left.Select(code => string.Create(CultureInfo.InvariantCulture, $"{code.Key} {100 * code.Value.Measured / code.Value.Whole:0} %")));
        var shots = rows.Distinct().ToArray();
        found.Add(Severity.Look, shots, site.Shots.At(shots[0]), site.Shots.HeightOf(shots[0]), measured: whole - measured, word: words, figures: [whole, 0, 0]);
    }

    /// <summary>Shots beside what is missing that a finding names.</summary>
    private const int MostShots = 50;

    /// <returns>Metres of it.</returns>
    private static double Add(Site site, DesignedLine line, double from, double to, Findings found)
    {
        if (to - from <= DesignCoverage.Least) return 0;
        var middle = line.Path.PointAt((from + to) / 2);
        var row = site.ShotRows[site.ShotIndex.Nearest(middle, out _)];
        found.Add(Severity.Stop, [row], middle, line.HeightAt((from + to) / 2)?.Height, measured: to - from, allowed: DesignCoverage.Least, word: line.Name, figures: [line.Length, line.StationAt(from), line.StationAt(to)]);
        return to - from;
    }

    public string Message(Finding finding) => finding.Severity == Severity.Stop
        ? $"{finding.Word} of the design is said to be built, but from station {CheckText.Number(finding.Figure(1), "0.00")} m to {CheckText.Number(finding.Figure(2), "0.00")} m ({CheckText.Number(finding.Measured, "0.00")} m) nothing of it is measured."
        : $"Of {CheckText.Number(finding.Figure(0), "0.0")} m designed, {CheckText.Number(finding.Measured, "0.0")} m are not measured yet; measured: {finding.Word}.";

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? $"Shoot {finding.Word} from station {CheckText.Number(finding.Figure(1), "0.00")} m to {CheckText.Number(finding.Figure(2), "0.00")} m, or withdraw that it is built."
        : "Nothing while the work goes on; say which ranges are built once they are.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.None;
}
