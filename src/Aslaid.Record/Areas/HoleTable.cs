using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Closed runs that lie within an area, as people said that they are its holes or are not.</summary>
public sealed class HoleTable
{
    private readonly Dictionary<int, List<int>> holes = [];
    private readonly Dictionary<int, int> outers = [];
    private readonly HashSet<(int Hole, int Of)> decided = [];

    /// <summary>Numbers of the runs that are holes of an area, rising.</summary>
    public IReadOnlyList<int> Of(int area) => holes.TryGetValue(area, out var of) ? of : [];

    /// <summary>The area of which a run is a hole, or null.</summary>
    public int? AreaOf(int hole) => outers.TryGetValue(hole, out var area) ? area : null;

    /// <summary>Area less its holes, square metres; null where the run has no area.</summary>
    public double? Net(Run run) => run.Area is { } gross ? gross - Of(run.Number).Sum(hole => run.Table[hole].Area ?? 0) : null;

    /// <summary>Whether somebody said of both whether the one is a hole of the other.</summary>
    internal bool IsDecided(int hole, int area) => decided.Contains((hole, area)) || outers.ContainsKey(hole);

    /// <summary>The smallest closed area about a closed run; −1 for none.</summary>
    internal static int Around(Site site, Run run, List<int> near)
    {
        near.Clear();
        site.AreaIndex.Query(Box2.Of(site.Shots.At(run.Members[0]), site.Shots.At(run.Members[0])), near);
        var (best, least) = (-1, double.PositiveInfinity);
        foreach (var place in near)
        {
            var outer = site.Runs[site.AreaRuns[place]];
            if (outer.Number == run.Number || outer.Area is not { } area || area >= least || !(area > run.Area) || !RingPlaces.IsInside(outer, run)) continue;
            (best, least) = (outer.Number, area);
        }

        return best;
    }

    internal static HoleTable Of(Site site, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        var table = new HoleTable();
        foreach (var entry in inForce)
        {
            if (entry.What is not HoleDecided said) continue;
            if (Closed(said.Run, entry) is not { } hole || Closed(said.In, entry) is not { } area) continue;
            if (!RingPlaces.IsInside(area, hole))
            {
                Say(entry, $"{said.Run} does not lie within {said.In}");
                continue;
            }

            table.decided.Add((hole.Number, area.Number));
            if (table.outers.Remove(hole.Number, out var before)) table.holes[before].Remove(hole.Number);
            if (!said.IsHole) continue;
            table.outers[hole.Number] = area.Number;
            if (!table.holes.TryGetValue(area.Number, out var of)) table.holes[area.Number] = of = [];
            of.Add(hole.Number);
            of.Sort();
        }

        return table;

        Run? Closed(string key, JournalEntry entry)
        {
            if (site.Runs.Find(key) is not { } run) Say(entry, $"there is no run {key}");
            else if (run.Area is null) Say(entry, $"{key} is not closed");
            else return run;
            return null;
        }

        void Say(JournalEntry entry, string what) => unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: {what}."));
    }
}
