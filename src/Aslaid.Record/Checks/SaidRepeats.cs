using System.Text;

namespace Aslaid.Record;

/// <summary>Shots whose note says that they repeat another: <c>again 101</c>, <c>check 101</c>, <c>repeat 101</c> or just <c>101</c>.</summary>
internal static class SaidRepeats
{
    private static readonly string[] Verbs = ["again", "check", "repeat"];

    /// <summary>A note that is nothing but an id may mean anything: it counts for a shot of the code this near, metres (DEFAULT).</summary>
    private const double Beside = 1;

    /// <summary>Pairs of the shot repeated and the repeat: one code, one crew; the shot of that id before it, else after it.</summary>
    public static List<(int First, int Again)> Of(Site site)
    {
        var pairs = new List<(int, int)>();
        if (!site.Shots.Raw.TextColumns.TryGetValue("note", out var notes)) return pairs;
        var (shots, texts) = (site.Shots, site.Shots.Raw.Texts);
        var wanted = new (string Id, bool Said)?[texts.Count];
        var known = new bool[texts.Count];
        var rows = new List<int>();
        foreach (var row in site.ShotRows)
        {
            if (notes[row] is not (>= 0 and var note) || shots.PlaceColumn[row] < 0 || shots.Book.Entries[shots.PlaceColumn[row]].Kind == CodeKind.Control) continue;
            if (!known[note]) (known[note], wanted[note]) = (true, Parsed(texts[note]!));
            if (wanted[note] is not null) rows.Add(row);
        }

        if (rows.Count == 0) return pairs;
        var ids = rows.Select(row => wanted[notes[row]]!.Value.Id).ToHashSet(StringComparer.Ordinal);
        var byId = Rows(site, ids);
        foreach (var row in rows)
        {
            var (id, said) = wanted[notes[row]]!.Value;
            if (!byId.TryGetValue(id, out var named)) continue;
            var crew = shots.Raw.Crew(row);
            var meant = named.Where(other => other != row && shots.CodeColumn[other] == shots.CodeColumn[row] && shots.Raw.Crew(other) == crew).ToList();
            if (meant.Count == 0) continue;
            var first = meant[0] < row ? meant.FindLast(other => other < row) : meant[0];
            if (said || shots.At(first).DistanceTo(shots.At(row)) <= Beside) pairs.Add((first, row));
        }

        return pairs;
    }

    private static (string Id, bool Said)? Parsed(string note)
    {
        var words = note.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return words.Length switch
        {
            1 => (words[0], false),
            2 when Array.Exists(Verbs, verb => verb.Equals(words[0], StringComparison.OrdinalIgnoreCase)) => (words[1], true),
            _ => null,
        };
    }

    /// <summary>Rows of the shots with one of these ids, without a text made of each id.</summary>
    private static Dictionary<string, List<int>> Rows(Site site, HashSet<string> ids)
    {
        var rows = new Dictionary<string, List<int>>(StringComparer.Ordinal);
        var lookup = ids.GetAlternateLookup<ReadOnlySpan<char>>();
        Span<char> text = stackalloc char[64];
        foreach (var row in site.ShotRows)
        {
            var bytes = site.Shots.Raw.IdBytes(row);
            if (bytes.Length > text.Length) continue;
            if (!lookup.TryGetValue(text[..Encoding.UTF8.GetChars(bytes, text)], out var id)) continue;
            if (!rows.TryGetValue(id, out var list)) rows[id] = list = [];
            list.Add(row);
        }

        return rows;
    }
}
