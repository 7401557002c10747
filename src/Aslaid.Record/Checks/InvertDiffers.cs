namespace Aslaid.Record;

/// <summary>Connections whose invert is not that of the run which ends there.</summary>
internal sealed class InvertDiffers : ICheck
{
    /// <summary>Both may differ by the reading, metres (DEFAULT), or by three standard uncertainties of the shot's level.</summary>
    private const double Read = 0.02;

    /// <summary>An end shot farther from its node says nothing of the invert there, metres (DEFAULT): a pipe falls on the way.</summary>
    private const double Near = 1;

    public string Name => "invert-differs";

    public string Title => "Inverts of node and run differ";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        if (!site.Nodes.All.Any(node => !node.Connections.IsEmpty)) return;
        var levels = new LevelsOfRuns(site);
        foreach (var node in site.Nodes.All)
        {
            foreach (var (what, _) in node.Connections)
            {
                if (what is not { Invert: { } invert, Run: { } key, End: { } end } || site.Runs.Find(key) is not { } run) continue;
                var member = end == RunEnd.Start ? 0 : run.MemberCount - 1;
                var shot = run.Members[member];
                if (levels.Of(run, member) is not { Invert: { } measured } at || site.Shots.At(shot).DistanceTo(site.Shots.At(node.Row)) > Near) continue;
                var limit = Math.Max(Read, 3 * (at.U ?? 0));
                if (Math.Abs(invert - measured) <= limit) continue;
                found.Add(Severity.Look, [node.Row, shot], site.Shots.At(node.Row), invert, run.Number, measured: Math.Abs(invert - measured), allowed: limit, word: what.Name, figures: [invert, measured]);
            }
        }
    }

    public string Message(Finding finding) =>
        $"Connection {finding.Word} of {finding.Shot(0)} has its invert at {CheckText.Metres(finding.Figure(0))}, {finding.RunLabel()} ends there at {finding.Shot(1)} with {CheckText.Metres(finding.Figure(1))}: {CheckText.Metres(finding.Measured)} apart, limit {CheckText.Metres(finding.Allowed)}.";

    public string Cure(Finding finding) => "Read the invert again; look where on the pipe its end was shot (measured_at) and at its sizes; at a drop name the connection without the run's end.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
