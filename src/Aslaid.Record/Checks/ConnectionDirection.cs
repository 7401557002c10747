namespace Aslaid.Record;

/// <summary>Connections whose direction by the clock is not that in which their run leaves the node.</summary>
internal sealed class ConnectionDirection : ICheck
{
    /// <summary>A clock is read by eye, hours (DEFAULT).</summary>
    private const double Read = 1;

    public string Name => "connection-direction";

    public string Title => "Directions of node and run differ";

    public string Unit => "h";

    public void Look(Site site, Findings found)
    {
        foreach (var node in site.Nodes.All)
        {
            foreach (var (what, _) in node.Connections)
            {
                if (what is not { Clock: { } clock, Run: { } key, End: { } end } || site.Runs.Find(key) is not { } run || NodeFacts.Clock(run, end) is not { } way) continue;
                var off = Math.Abs(Math.IEEERemainder(clock - way, 12));
                if (off <= Read) continue;
                found.Add(Severity.Look, [node.Row], site.Shots.At(node.Row), site.Shots.HeightOf(node.Row), run.Number, measured: off, allowed: Read, word: what.Name, figures: [clock, way]);
            }
        }
    }

    public string Message(Finding finding) =>
        $"Connection {finding.Word} of {finding.Shot(0)} points to {CheckText.Number(finding.Figure(0), "0.0")} o'clock, {finding.RunLabel()} leaves to {CheckText.Number(finding.Figure(1), "0.0")} o'clock (12 is grid north): {CheckText.Number(finding.Measured, "0.0")} hours apart, limit {CheckText.Number(finding.Allowed, "0.0")}.";

    public string Cure(Finding finding) => "Read the direction again with 12 towards grid north, or name the right run.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
