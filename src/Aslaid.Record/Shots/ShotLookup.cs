using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>
/// Finds shots by what people call them: <c>101</c> (an id), <c>101@North</c> (an id of a crew) or <c>2:14</c> (batch and line).
/// </summary>
public sealed class ShotLookup
{
    private readonly ShotTable shots;
    private readonly Dictionary<string, List<int>> byId = new(StringComparer.Ordinal);

    /// <summary>A lookup over the shots of a table; rows that use a shot again are not counted twice.</summary>
    /// <param name="versions">Of a shot with two versions the one that does not count is not found by its id, only by batch and line.</param>
    public ShotLookup(ShotTable shots, ShotVersions? versions = null)
    {
        this.shots = shots;
        for (var row = 0; row < shots.Count; row++)
        {
            if (shots.Again[row] >= 0 || versions?.IsOut(row) == true) continue;
            var id = shots.Id(row);
            if (!byId.TryGetValue(id, out var rows)) byId[id] = rows = [];
            rows.Add(row);
        }
    }

    /// <summary>The one shot of a name; null and a plain sentence where there is none or more than one.</summary>
    /// <param name="name">As a person writes it.</param>
    /// <param name="crew">Whose ids are meant when the name says nothing; null for anybody's.</param>
    public ShotKey? Find(string name, string? crew, out string? problem)
    {
        problem = null;
        if (ShotKey.TryParse(name, out var key))
        {
            if (byId.TryGetValue(name, out var called))
            {
                problem = $"{name} is the id of {string.Join(", ", called.Take(6).Select(row => Named(shots.Key(row))))} and may also mean batch:line; write the id with its crew, as {name}@crew";
                return null;
            }

            if (shots.Find(key) >= 0) return key;
            problem = $"there is no shot {key} (batch:line)";
            return null;
        }

        var at = name.LastIndexOf('@');
        if (at > 0 && !byId.ContainsKey(name)) (name, crew) = (name[..at], name[(at + 1)..]);
        var rows = byId.GetValueOrDefault(name) ?? [];
        var found = rows.Where(row => crew is null || shots.Crew(row) == crew).Select(shots.Key).ToImmutableArray();
        switch (found.Length)
        {
            case 1:
                return found[0];
            case 0:
                problem = crew is null ? $"there is no shot {name}" : $"crew {crew} has no shot {name}";
                return null;
            default:
                problem = $"{found.Length} shots are called {name}: write one of {string.Join(", ", found.Take(6).Select(k => Named(k)))}";
                return null;
        }
    }

    private string Named(ShotKey key) => shots.Crew(shots.Find(key)) is { } crew ? $"{key} (crew {crew})" : key.ToString();
}
