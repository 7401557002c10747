using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Cover at one place of a run.</summary>
/// <param name="Chainage">Metres along the run.</param>
/// <param name="Top">Height of the top of the thing there, metres; null where nothing tells it.</param>
/// <param name="Surface">The surface that reaches there, null for none.</param>
/// <param name="SurfaceHeight">Metres.</param>
public readonly record struct CoverPoint(double Chainage, double? Top, DesignedSurface? Surface, double? SurfaceHeight)
{
    /// <summary>Surface above top, metres; null where either is not known.</summary>
    public double? Cover => SurfaceHeight - Top;
}

/// <summary>Cover along buried runs, to the surface that reaches each place; wherever it may be least: shots, edges of triangles, along arcs.</summary>
public sealed class CoverAlong(Site site)
{
    private readonly LevelsOfRuns levels = new(site);

    /// <summary>Along a run; empty for one without pieces.</summary>
    public ImmutableArray<CoverPoint> Of(Run run)
    {
        if (run.PieceCount == 0) return [];
        var path = run.Path;
        var chainages = new SortedSet<double>();
        foreach (var chainage in path.Chainages) chainages.Add(chainage);
        foreach (var surface in site.Design.Surfaces)
            if (surface.Tin.Box.Intersects(path.Box))
                foreach (var point in surface.Tin.Section(path)) chainages.Add(point.Chainage);
        var tops = Tops(run);
        var points = ImmutableArray.CreateBuilder<CoverPoint>(chainages.Count);
        foreach (var chainage in chainages) points.Add(At(path, tops, chainage));

        return points.MoveToImmutable();
    }

    /// <summary>At a chainage of a run.</summary>
    internal CoverPoint At(Run run, Path path, double chainage) => At(path, Tops(run), chainage);

    private CoverPoint At(Path path, List<(double Chainage, double Top)> tops, double chainage)
    {
        var (at, surface, height) = (path.PointAt(chainage), (DesignedSurface?)null, (double?)null);
        foreach (var one in site.Design.Surfaces)
        {
            if ((height = one.Tin.HeightAt(at)) is null) continue;
            surface = one;
            break;
        }

        return new(chainage, TopAt(tops, chainage), surface, height);
    }

    /// <summary>Cover at a chainage as a measure by shots, its surface exact; null where it is not known.</summary>
    internal static ShotMeasure? Measure(Run run, CoverPoint point)
    {
        if (point.Cover is not { } cover || point.Surface is not { } surface) return null;
        var place = RunPlace.AtChainage(run, point.Chainage);
        var sum = new GradientSum();
        if (place.HasHeight) place.AddHeight(sum, -1);
        else sum.AddHeight(run.Members[run.MemberAt(point.Chainage)], -1);
        if (surface.Tin.SlopeAt(place.At) is { } slope) place.Add(sum, slope);
        return sum.Of(cover);
    }

    /// <summary>Standard uncertainty of a cover, metres: of the run, with that of the surface; null where either is not stated.</summary>
    public double? U(Run run, CoverPoint point)
    {
        if (Measure(run, point)?.U(site.Shots) is not { } own || point.Surface!.U is not { } surface) return null;
        return Math.Sqrt(own * own + surface * surface);
    }

    /// <summary>From a member's height to the top and to the underside of the thing, metres, up positive; null where no size tells.</summary>
    internal (double? Top, double? Under) Sizes(Run run, int member)
    {
        var height = site.Shots.HeightOf(run.Members[member]);
        var of = levels.Of(run, member);
        if (of.Top is null && of.Underside is null && site.Shots.CodeColumn[run.Members[member]] != run.Table.CodeWords[run.Number])
        {
            // A node lent from another code is measured at the run: the run's own shots tell the sizes.
            for (var other = 0; other < run.MemberCount; other++)
            {
                var near = levels.Of(run, other);
                if (near.Top is null && near.Underside is null) continue;
                return (near.Top - site.Shots.HeightOf(run.Members[other]), near.Underside - site.Shots.HeightOf(run.Members[other]));
            }
        }

        return (of.Top - height, of.Underside - height);
    }

    private List<(double Chainage, double Top)> Tops(Run run)
    {
        var tops = new List<(double, double)>();
        for (var member = 0; member < run.MemberCount; member++)
            if (site.Shots.HeightOf(run.Members[member]) is { } height && Sizes(run, member).Top is { } up) tops.Add((run.Chainages[member], height + up));
        return tops;
    }

    private static double? TopAt(List<(double Chainage, double Top)> tops, double chainage)
    {
        var (low, high) = (0, tops.Count); // the first not before
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (tops[middle].Chainage < chainage) low = middle + 1;
            else high = middle;
        }

        if (low < tops.Count && tops[low].Chainage == chainage) return tops[low].Top;
        if (low == 0 || low == tops.Count) return null;
        var (before, after) = (tops[low - 1], tops[low]);
        return before.Top + (after.Top - before.Top) * (chainage - before.Chainage) / (after.Chainage - before.Chainage);
    }
}
