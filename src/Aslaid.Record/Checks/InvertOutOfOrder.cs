namespace Aslaid.Record;

/// <summary>Nodes whose outlet lies above an inlet: what flows in stays in.</summary>
internal sealed class InvertOutOfOrder : ICheck
{
    /// <summary>Inverts are read to the centimetre, metres (DEFAULT).</summary>
    private const double Read = 0.01;

    public string Name => "invert-out-of-order";

    public string Title => "Outlets above an inlet";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        foreach (var node in site.Nodes.All)
        {
            Connection? lowest = null, outlet = null;
            foreach (var connection in node.Connections)
            {
                if (connection.What is not { Invert: { } invert, Run: { } key, End: { } end } || site.Runs.Find(key) is not { } run || NodeFacts.FlowsOut(site.Shots, run, end) is not { } flowsOut) continue;
                if (flowsOut && (outlet is null || invert > outlet.Value.What.Invert)) outlet = connection;
                if (!flowsOut && (lowest is null || invert < lowest.Value.What.Invert)) lowest = connection;
            }

            if (outlet is not { } high || lowest is not { } low || !(high.What.Invert - low.What.Invert > Read)) continue;
            var of = site.Runs.Find(high.What.Run!)!.Value;
            found.Add(of.Entry is { NeedsProof: true } ? Severity.Stop : Severity.Look, [node.Row], site.Shots.At(node.Row), site.Shots.HeightOf(node.Row), of.Number,
                measured: high.What.Invert - low.What.Invert, allowed: Read, word: $"{high.What.Name}\n{low.What.Name}", figures: [high.What.Invert!.Value, low.What.Invert!.Value]);
        }
    }

    public string Message(Finding finding) =>
        $"At {finding.Shot(0)} the outlet {NameOf(finding, 0)} at {CheckText.Metres(finding.Figure(0))} lies {CheckText.Metres(finding.Measured)} above the inlet {NameOf(finding, 1)} at {CheckText.Metres(finding.Figure(1))}; {CheckText.Metres(finding.Allowed)} may be the reading.";

    private static string NameOf(Finding finding, int which) => finding.Word!.Split('\n')[which];

    public string Cure(Finding finding) => "Read both inverts again; if they are so, the flow is the other way or the outlet was laid too high.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
