using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Nodes: one row for each connection on record and for each end of a run of which none is.</summary>
internal static class NodesTable
{
    public static void Write(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "node", "key", "code", "east_m", "north_m", "height_m", "connection", "invert_m", "size_m", "clock_h", "run", "end", "journal");
        foreach (var node in record.Site.Nodes.All)
        {
            foreach (var (what, entry) in node.Connections)
            {
                Node(table, record, node).Text(what.Name).Number(what.Invert, Fixed.Coordinate).Number(what.Size, Fixed.Coordinate).Number(what.Clock, 1)
                    .Text(what.Run).Text(what.End is { } end ? EnumWords.Of(end) : null).Whole(entry).End();
            }

            foreach (var end in node.Ends)
            {
                var key = record.Runs[end.Run].Key;
                if (node.Connections.Any(connection => connection.What.Run == key && (connection.What.End ?? end.End) == end.End)) continue;
                Node(table, record, node).Text(null).Number(null).Number(null).Number(null).Text(key).Text(EnumWords.Of(end.End)).Text(null).End();
            }
        }
    }

    private static Table Node(Table table, AsBuiltRecord record, Node node)
    {
        var at = record.Shots.At(node.Row);
        return table.Text(record.Shots.Raw.Id(node.Row)).Text(record.Shots.Raw.Key(node.Row).ToString()).Text(record.Shots.CodeOf(node.Row))
            .Number(at.East, Fixed.Coordinate).Number(at.North, Fixed.Coordinate).Number(record.Shots.HeightOf(node.Row), Fixed.Coordinate);
    }
}
