namespace Aslaid.Record;

/// <summary>Nodes of which some connections are on record, and an end of a run there is none of them.</summary>
internal sealed class ConnectionMissing : ICheck
{
    public string Name => "connection-missing";

    public string Title => "Ends of runs that are no connection of their node";

    public string Unit => "1";

    public void Look(Site site, Findings found)
    {
        foreach (var node in site.Nodes.All)
        {
            if (node.Connections.IsEmpty) continue; // nobody keeps them there
            var missing = node.Ends.Where(end => !node.Connections.Any(connection => connection.What.Run == site.Runs[end.Run].Key && (connection.What.End ?? end.End) == end.End)).ToArray();
            if (missing.Length == 0) continue;
            found.Add(Severity.Look, [node.Row, .. missing.Select(end => end.Shot)], site.Shots.At(node.Row), site.Shots.HeightOf(node.Row), missing[0].Run,
                measured: missing.Length, word: string.Join(", ", missing.Select(end => site.Runs[end.Run].Label)), figures: [node.Connections.Length]);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.Shot(0)} has {CheckText.Count(finding.Figure(0), "connection")} on record; {finding.Word} {(finding.Measured > 1.5 ? "end there and are" : "ends there and is")} none of them.";

    public string Cure(Finding finding) => "Read its invert, size and direction in the node and set the connection, or say with which run the connection is meant.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
