using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>A pipe or duct that enters a node, as somebody read it there.</summary>
/// <param name="Entry">Journal position.</param>
public readonly record struct Connection(ConnectionSet What, int Entry);

/// <summary>An end of a run at a node.</summary>
/// <param name="Shot">Row of the end's shot.</param>
public readonly record struct NodeEnd(int Run, RunEnd End, int Shot);

/// <summary>A chamber, fitting or joint: its shot, what enters it, and which runs end there.</summary>
/// <param name="Row">Row of its shot.</param>
public sealed record Node(int Row, ImmutableArray<Connection> Connections, ImmutableArray<NodeEnd> Ends);

/// <summary>
/// The nodes: points of codes on which ends of runs may lie, and any shot to which somebody gave a connection. A run ends at a node
/// whose shot it uses, to which its end was tied, or within whose size its end lies.
/// </summary>
public sealed class NodeTable
{
    /// <summary>Half the size of a node whose code states none, metres (DEFAULT): half of a chamber of 1.2 m, common practice.</summary>
    internal const double UsualHalf = 0.6;

    private readonly SortedDictionary<int, Node> nodes = [];

    /// <summary>All nodes, by row.</summary>
    public IEnumerable<Node> All => nodes.Values;

    /// <summary>The node of a shot, or null.</summary>
    public Node? Find(int row) => nodes.GetValueOrDefault(row);

    /// <summary>Ends that somebody tied to a node.</summary>
    internal HashSet<(int Run, RunEnd End)> Tied { get; } = [];

    internal static NodeTable Of(Site site, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        var table = new NodeTable();
        var (connections, ends) = (new Dictionary<int, List<Connection>>(), new Dictionary<int, List<NodeEnd>>());
        var joined = new bool[site.Shots.Book.Entries.Length];
        foreach (var entry in site.Shots.Book.Entries)
            foreach (var code in entry.EndsOn)
                if (site.Shots.Book.Find(code) is >= 0 and var place && site.Shots.Book.Entries[place].Kind == CodeKind.Point) joined[place] = true;
        var rows = new HashSet<int>(site.Points.Where(row => site.Shots.PlaceColumn[row] >= 0 && joined[site.Shots.PlaceColumn[row]]).Select(site.Shots.Shot));
        var tied = new Dictionary<(int Run, RunEnd End), int>();
        foreach (var entry in inForce)
        {
            switch (entry.What)
            {
                case ConnectionSet set when Shot(set.Node, entry) is { } node:
                    if (set.Run is { } named && site.Runs.Find(named) is null) Say(entry, $"there is no run {named}");
                    rows.Add(node);
                    var list = connections.TryGetValue(node, out var known) ? known : connections[node] = [];
                    list.RemoveAll(other => other.What.Name == set.Name);
                    list.Add(new(set, entry.Position));
                    break;
                case NodeTied tie when Shot(tie.Node, entry) is { } node:
                    if (site.Runs.Find(tie.Run) is { } run) tied[(run.Number, tie.End)] = node;
                    else Say(entry, $"there is no run {tie.Run}");
                    rows.Add(node);
                    break;
            }
        }

        table.Tied.UnionWith(tied.Keys);
        if (rows.Count == 0) return table;
        var widest = rows.Max(row => site.Shots.Entry(row) is { } code ? (code.Width ?? code.OutsideDiameter) / 2 ?? UsualHalf : UsualHalf);
        var search = new PlaceGrid(site.Shots, [.. rows], Math.Max(4 * UsualHalf, 2 * widest));
        var near = new List<int>();
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.IsClosed || run.MemberCount == 0) continue;
            foreach (var end in (RunEnd[])[RunEnd.Start, RunEnd.End])
            {
                var shot = end == RunEnd.Start ? run.Members[0] : run.Members[^1];
                int? at = tied.TryGetValue((number, end), out var said) ? said : NodeAt(shot, run);
                if (at is not { } node) continue;
                if (!ends.TryGetValue(node, out var of)) ends[node] = of = [];
                of.Add(new(number, end, shot));
            }
        }

        foreach (var row in rows)
            table.nodes[row] = new(row, connections.TryGetValue(row, out var has) ? [.. has] : [], ends.TryGetValue(row, out var those) ? [.. those] : []);
        return table;

        int? NodeAt(int shot, Run run)
        {
            if (rows.Contains(shot)) return shot;
            if (run.Entry is not { } entry || entry.EndsOn.IsEmpty) return null;
            near.Clear();
            search.Near(site.Shots.At(shot), Math.Max(2 * UsualHalf, widest + (entry.TolerancePlan ?? 0)), near);
            int? best = null;
            var least = double.PositiveInfinity;
            foreach (var row in near)
            {
                if (site.Shots.Entry(row) is not { } code || !entry.EndsOn.Contains(code.Code)) continue;
                var distance = site.Shots.At(shot).DistanceTo(site.Shots.At(row));
                if (distance > ((code.Width ?? code.OutsideDiameter) / 2 + (entry.TolerancePlan ?? 0) ?? UsualHalf) || distance >= least) continue;
                (best, least) = (row, distance);
            }

            return best;
        }

        int? Shot(ShotKey key, JournalEntry entry)
        {
            var row = site.Shots.Raw.Find(key);
            if (row >= 0 && site.Shots.Used[site.Shots.Shot(site.Shots.Versions.Stand(row))]) return site.Shots.Shot(site.Shots.Versions.Stand(row));
            Say(entry, row < 0 ? $"there is no shot {key}" : $"shot {key} is set aside");
            return null;
        }

        void Say(JournalEntry entry, string what) => unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: {what}."));
    }
}
