using System.Globalization;

namespace Aslaid.Record;

/// <summary>Runs of a code that closes, which do not end on their own first shot.</summary>
internal sealed class RunNotClosed : ICheck
{
    /// <summary>A gap up to this many spacings may be a straight home (DEFAULT).</summary>
    private const double HomeSpacings = 2;

    private const double Open = 0;
    private const double Remeasured = 1;
    private const double Home = 2;
    private const double ThereAndBack = 3;

    public string Name => "run-not-closed";

    public string Title => "Runs that should close and do not";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.MemberCount < 2 || run.IsClosed || run.Entry is not { Closes: true } entry) continue;
            var (start, end) = (run.Members[0], run.Members[^1]);
            if (!run.Members.ContainsAnyExcept(start)) continue; // a run of one shot leads
            var gap = RunEnds.Gap(run);
            var how = start == end ? ThereAndBack : Open;
            if (how == ThereAndBack) gap = run.PlanLength / 2;
            else if (run.MemberCount > 3 && gap <= RunEnds.OnePlace(site.Shots, site.Settings, start, end)) how = Remeasured;
            else if (run.MemberCount > 2 && gap <= HomeSpacings * (entry.SpacingMax ?? RunBreaks.UsualSpacing)) how = Home;
            found.Add(Severity.Stop, [start, end], site.Shots.At(end), site.Shots.HeightOf(end), number, measured: gap, allowed: 0, figures: [how]);
        }
    }

    public string Message(Finding finding) => finding.Figure(0) == ThereAndBack
        ? $"{finding.RunLabel()} goes there and back over {CheckText.Metres(finding.Measured)} and encloses nothing."
        : string.Create(CultureInfo.InvariantCulture,
        $"{finding.RunLabel()} does not close: {CheckText.Metres(finding.Measured)} from its last shot {finding.Shot(1)} to its first {finding.Shot(0)}.");

    public string Cure(Finding finding) => finding.Figure(0) switch
    {
        Remeasured => $"End it on {finding.Shot(0)} instead of {finding.Shot(1)}; the gap stays on record as its misclosure.",
        Home => $"Shoot what is missing, or let it go straight home to {finding.Shot(0)} if that is how it was built.",
        _ => "Shoot what is missing and end on the first shot.",
    };

    public Change? Correction(Finding finding) => finding.Figure(0) switch
    {
        Open or ThereAndBack => null,
        var how => new EndTied(finding.Run!.Value.Key, RunEnd.End, finding.Key(0), Instead: how == Remeasured),
    };

    public Reshoot ReshootFor(Finding finding) => finding.Figure(0) == Remeasured ? Reshoot.None : Reshoot.Any;
}
