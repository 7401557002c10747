namespace Aslaid.Record;

/// <summary>Runs and points by the place of their code in the code book.</summary>
internal sealed class CodeMembers
{
    private readonly List<int>?[] runs;
    private readonly List<int>?[] points;

    public CodeMembers(Site site)
    {
        runs = new List<int>?[site.Shots.Book.Entries.Length];
        points = new List<int>?[runs.Length];
        for (var run = 0; run < site.Runs.Count; run++)
            if (site.Runs.CodePlaces[run] is >= 0 and var place) (runs[place] ??= []).Add(run);
        foreach (var row in site.Points)
            if (site.Shots.IsShot(row) && site.Shots.PlaceColumn[row] is >= 0 and var place) (points[place] ??= []).Add(row);
    }

    /// <summary>Numbers of the runs of a code, rising.</summary>
    public IReadOnlyList<int> RunsOf(int place) => runs[place] ?? [];

    /// <summary>Rows of the points of a code, rising.</summary>
    public IReadOnlyList<int> PointsOf(int place) => points[place] ?? [];
}
