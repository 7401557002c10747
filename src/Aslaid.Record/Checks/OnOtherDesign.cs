using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots that lie off the design of their code and on that of another: the code was not changed.</summary>
internal sealed class OnOtherDesign : ICheck
{
    /// <summary>Metres off its own line from which another is asked for, at least three tolerances (DEFAULT).</summary>
    private const double Off = 0.5;

    /// <summary>Metres within which a shot lies on a line, at least three standard uncertainties (DEFAULT).</summary>
    private const double On = 0.1;

    public string Name => "on-other-design";

    public string Title => "Shots on the design of another code";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["off-design", "shots-too-far-apart", "bend-not-shot", "level-jump", "end-short", "fall-wrong", "built-without-design", "design-bend-missed", "design-curve-cut", "nearly-closed", "cover-too-small", "design-not-measured", "design-point-missing"];

    public void Look(Site site, Findings found)
    {
        if (site.Design.Lines.IsEmpty) return;
        var runs = new Dictionary<int, int>(); // the first run that follows each line
        for (var other = 0; other < site.Runs.Count; other++)
            for (var member = 0; member < site.Runs[other].MemberCount; member++)
                if (site.Match.LineOf(site.Runs[other], member) is >= 0 and var line) runs.TryAdd(line, other);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is null || site.Design.LinesOf(site.Runs.CodePlaces[number]).Count == 0) continue;
            for (var member = 0; member < run.MemberCount; member++)
            {
                if (Other(site, run, member) is not { } other) continue;
                var first = member;
                while (member + 1 < run.MemberCount && Other(site, run, member + 1)?.Line.Code == other.Line.Code) member++;
                if (member - first + 1 == run.MemberCount && run.MemberCount < 2) continue;
                var rows = run.Members[first..(member + 1)];
                var (from, to) = RunRange.About(run, first, member);
                found.Add(Severity.Stop, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), number, from, to, site.Match.Of(run, first)?.Distance ?? site.Settings.DesignReach, On, other.Line.Code, [other.Line.Number, other.Distance, runs.GetValueOrDefault(other.Line.Number, -1)]);
            }
        }
    }

    /// <summary>The line of another code that a member lies on, where it lies off its own.</summary>
    private static (DesignedLine Line, double Distance)? Other(Site site, Run run, int member)
    {
        var row = run.Members[member];
        if (site.Match.Of(run, member) is { } own && own.Distance <= Math.Max(Off, 3 * (run.Entry?.TolerancePlan ?? 0))) return null;
        if (site.Shots.CodeColumn[row] != run.Table.CodeWords[run.Number] || site.Membership.IsShared(row)) return null;
        var (line, _, beside) = site.Design.Pieces.Nearest(site.Shots.At(row));
        var sigma = site.Shots.PlaceSigma(row);
        if (beside.Distance > Math.Max(On, double.IsNaN(sigma) ? 0 : 3 * sigma) || site.Design.Lines[line].Place == site.Runs.CodePlaces[run.Number]) return null;
        return (site.Design.Lines[line], beside.Distance);
    }

    public string Message(Finding finding) =>
        $"{CheckText.Count(finding.Shots.Length, "shot")} of {finding.RunLabel()} ({CheckText.Shots(finding)}) {(finding.Shots.Length == 1 ? "lies" : "lie")} {CheckText.Metres(finding.Measured)} or more off the design of {finding.Run?.Code} and within {CheckText.Metres(finding.Figure(1))} of that of {finding.Word}: the code was not changed.";

    public string Cure(Finding finding) => $"Recode to {finding.Word}{(Label(finding) is { } label ? $" {label}" : "")}.";

    public Change? Correction(Finding finding) => new Recoded(finding.Keys(), finding.Word!, Label(finding));

    private static string? Label(Finding finding) => finding.Figure(2) < 0 ? null : finding.Table.RunTable[(int)finding.Figure(2)] is { } run && run.Label.StartsWith("from ", StringComparison.Ordinal) ? "" : finding.Table.RunTable[(int)finding.Figure(2)].Label;

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
