using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Heights that are off by one value from one shot of a session to another: the pole was longer or shorter than entered.</summary>
internal sealed class PoleHeightWrong : ICheck
{
    /// <summary>Taken for the pole height where none is recorded, metres (DEFAULT).</summary>
    private const double UsualPole = 2;

    private const double Coverage = 2;

    public string Name => "pole-height-wrong";

    public string Title => "Heights off by one step over a span of shots";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    public ImmutableArray<string> Explains => ["level-jump", "control-missed", "fall-wrong", "measured-twice", "off-design", "cover-too-small", "too-close", "reference-unclear", "pole-height-by-design"];

    public void Look(Site site, Findings found)
    {
        var steps = new LevelSteps(site);
        if (steps.All.Count == 0) return;
        var (shots, rows) = (site.Shots, new List<int>());
        var poles = shots.Raw.NumberColumns.GetValueOrDefault("pole");
        foreach (var span in new PoleSpans(site).Of(steps))
        {
            rows.Clear();
            for (var row = span.First; row <= span.Last; row++)
                if (shots.IsShot(row) && shots.Used[row] && shots.Session[row] == shots.Session[span.First] && !double.IsNaN(shots.Heights[row])) rows.Add(row);
            if (rows.Count < 2) continue; // one shot alone is a jump
            var pole = poles?[span.First] ?? double.NaN;
            found.Add(span.Proven ? Severity.Stop : Severity.Look, [.. rows], shots.At(rows[0]), shots.HeightOf(rows[0]),
                measured: Math.Abs(span.Off), allowed: Math.Max(LevelSteps.Least, LevelSteps.LeastSigmas * span.U),
                figures: [Math.Round(span.Off, 3), span.U, pole, span.Run, span.OtherRun, span.ByPole ? 1 : 0, span.Agreeing]);
        }
    }

    private static double Entered(Finding finding) => double.IsNaN(finding.Figure(2)) ? UsualPole : finding.Figure(2);

    public string Message(Finding finding)
    {
        var off = finding.Figure(0);
        var pole = double.IsNaN(finding.Figure(2)) ? $"pole not recorded, {CheckText.Metres(UsualPole)} taken" : $"pole entered {CheckText.Metres(finding.Figure(2))}";
        var (shots, step) = ($"Heights of {CheckText.Count(finding.Shots.Length, "shot")} ({finding.Shot(0)} to {finding.Shot(finding.Shots.Length - 1)})", $"{CheckText.Metres(finding.Measured)} ± {CheckText.Metres(Coverage * finding.Figure(1))}");
        var (least, fits) = ($"least step {CheckText.Metres(finding.Allowed)}", $"{pole}, {CheckText.Metres(Entered(finding) + off)} would fit");
        return finding.Severity == Severity.Stop
            ? $"{shots} are {step} too {(off > 0 ? "high" : "low")}, {least}: {fits}. {Evidence(finding)}"
            : $"{shots} step {(off > 0 ? "up" : "down")} by {step}, {least}: either they are too {(off > 0 ? "high" : "low")} ({fits}), or the thing lies so"
                + $"{(finding.Figure(5) > 0 ? " and the pole was changed to reach it" : "")}. {Evidence(finding)}";
    }

    private static string Evidence(Finding finding)
    {
        var runs = finding.Table.RunTable;
        var (into, outOf) = (runs[(int)finding.Figure(3)].Label, (int)finding.Figure(4));
        var text = outOf < 0 ? $"{into} steps there" : outOf == (int)finding.Figure(3) ? $"{into} steps there and back" : $"{into} steps there and {runs[outOf].Label} back";
        if (finding.Figure(5) > 0) text += ", the pole entered changes by as much";
        if (finding.Figure(6) > 0) text += $", confirmed by check shots or places shot again: {CheckText.Number(finding.Figure(6), "0")}";
        return finding.Severity == Severity.Stop ? text + "." : text + "; nothing else confirms it.";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? $"Correct the pole height from {CheckText.Metres(Entered(finding))} to {CheckText.Metres(Entered(finding) + finding.Figure(0))}, and prove it on control."
        : "Ask the crew for the pole height and prove it on control; if the thing lies so, leave it.";

    public Change? Correction(Finding finding) => new PoleHeightCorrected(finding.Keys(), Entered(finding), Math.Round(Entered(finding) + finding.Figure(0), 3));

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.None : Reshoot.Any;
}
