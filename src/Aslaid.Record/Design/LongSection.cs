using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>One place of a long section. What is not known is null.</summary>
/// <param name="Chainage">Metres along the run.</param>
/// <param name="Shot">Row of the shot there; null between shots.</param>
/// <param name="Built">Height as measured, metres.</param>
/// <param name="Top">Height of the top of the thing.</param>
/// <param name="Surface">Height of the surface by which cover is judged.</param>
/// <param name="SurfaceName">Its name.</param>
/// <param name="Cover">Surface above top, metres.</param>
/// <param name="Design">The line of the design that the run follows there.</param>
/// <param name="Station">Station along it, metres.</param>
/// <param name="Designed">Its height, metres.</param>
/// <param name="Offset">Metres off it, right positive.</param>
/// <param name="Fall">Fall from the last shot with a height to this one, metres per metre, downward in the run's order positive; only at shots.</param>
/// <param name="UFall">Its standard uncertainty.</param>
public sealed record SectionRow(
    double Chainage, Point2 At, int? Shot, double? Built, double? Top, double? Surface, string? SurfaceName, double? Cover, string? Design, double? Station, double? Designed, double? Offset, double? Fall, double? UFall);

/// <summary>The long section of a run: at its shots, wherever the surface breaks, at even steps where wanted.</summary>
public static class LongSection
{
    /// <param name="step">Metres between further places; null for none.</param>
    public static ImmutableArray<SectionRow> Of(AsBuiltRecord record, Run run, double? step = null)
    {
        if (run.PieceCount == 0) return [];
        var (site, path, covers) = (record.Site, run.Path, new CoverAlong(record.Site));
        var points = covers.Of(run).ToDictionary(point => point.Chainage);
        var chainages = new SortedSet<double>(points.Keys);
        if (step is { } every and > 0)
            for (var i = 1; i * every < path.PlanLength; i++) chainages.Add(i * every);
        var rows = ImmutableArray.CreateBuilder<SectionRow>(chainages.Count);
        var (member, last) = (0, -1);
        foreach (var chainage in chainages)
        {
            var shots = new List<int>();
            while (member < run.MemberCount && run.Chainages[member] <= chainage) shots.Add(member++);
            if (shots.Count == 0) shots.Add(-1);
            foreach (var of in shots)
            {
                var point = points.TryGetValue(chainage, out var known) ? known : covers.At(run, path, chainage);
                var (fall, built) = ((ShotMeasure?)null, of >= 0 ? record.Shots.HeightOf(run.Members[of]) : path.HeightAt(chainage));
                if (of >= 0 && built is not null)
                {
                    if (last >= 0) fall = Measures.Fall(run, last, of);
                    last = of;
                }

                var near = site.Match.LineOf(run, of >= 0 ? of : Math.Max(0, member - 1));
                var line = near < 0 ? null : site.Design.Lines[near];
                var beside = line?.Path.Locate(path.PointAt(chainage));
                rows.Add(new(chainage, path.PointAt(chainage), of >= 0 ? run.Members[of] : null, built, point.Top, point.SurfaceHeight, point.Surface?.Name, point.Cover,
                    line?.Name, beside is { } foot ? line!.StationAt(foot.Along) : null, beside is { } place ? line!.HeightAt(place.Along)?.Height : null, beside?.Offset, fall?.Value, fall?.U(record.Shots)));
            }
        }

        return rows.ToImmutable();
    }
}
