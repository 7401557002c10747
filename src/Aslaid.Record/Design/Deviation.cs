using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How far one shot lies from the design. Departure from the design, never accuracy of the data.</summary>
/// <param name="Run">Its run; null for a point.</param>
/// <param name="Member">Its place in the run; −1 for a point.</param>
/// <param name="Row">Its row.</param>
/// <param name="Design">Name of the line or point.</param>
/// <param name="Chainage">Station along the line, metres; null for a point.</param>
/// <param name="Offset">Metres: square off the line, right positive; of a point the distance in plan.</param>
/// <param name="Height">Metres built above the design; null where either has no height.</param>
/// <param name="Plan">The offset against the code's tolerance in plan; null where it has none.</param>
/// <param name="Level">The height against its tolerance; null where it has none or there is no height.</param>
public readonly record struct Deviation(
    Run? Run, int Member, int Row, string Code, string Design, double? Chainage, double Offset, double? UOffset, double? Height, double? UHeight, Judgement? Plan, Judgement? Level);

/// <summary>Deviations along one axis of one run or code.</summary>
/// <param name="Count">How many shots.</param>
/// <param name="Mean">Metres.</param>
/// <param name="Rms">Metres, about 0.</param>
/// <param name="Within95">Metres: 95 % of the shots are off by no more.</param>
/// <param name="Least">Smallest value, metres, and its shot's row.</param>
/// <param name="Most">Largest value, metres, and its shot's row.</param>
public readonly record struct DeviationSpread(int Count, double Mean, double Rms, double Within95, (double Value, int Row) Least, (double Value, int Row) Most)
{
    /// <summary>Of values by row, at least one.</summary>
    public static DeviationSpread Of(IReadOnlyList<(double Value, int Row)> values)
    {
        var sizes = values.Select(value => Math.Abs(value.Value)).ToArray();
        return new(values.Count, values.Average(value => value.Value), Math.Sqrt(values.Average(value => value.Value * value.Value)), Misfits.Percentile(sizes, 0.95), values.MinBy(value => value.Value), values.MaxBy(value => value.Value));
    }
}

/// <summary>Deviations of a run or of a code: in plan and in height.</summary>
/// <param name="Run">The run; null for all of a code.</param>
public sealed record DeviationSummary(Run? Run, string Code, DeviationSpread? Plan, DeviationSpread? Height);

/// <summary>All deviations of a record: made when somebody asks.</summary>
public static class Deviations
{
    /// <summary>Along the runs, in their order, then of points.</summary>
    public static IEnumerable<Deviation> Of(AsBuiltRecord record) => Of(record.Site);

    internal static IEnumerable<Deviation> Of(Site site)
    {
        for (var number = 0; number < site.Runs.Count; number++)
            for (var member = 0; member < site.Runs[number].MemberCount; member++)
                if (Of(site, site.Runs[number], member) is { } deviation) yield return deviation;
        foreach (var row in site.Points)
            if (OfPoint(site, row) is { } deviation) yield return deviation;
    }

    /// <summary>Of one member of a run; null where it lies on no line. A ring's last member, its first again, is left out.</summary>
    internal static Deviation? Of(Site site, Run run, int member)
    {
        if (run.IsClosed && member == run.MemberCount - 1 && member > 0 || site.Match.Of(run, member) is not { } place) return null;
        var (row, entry) = (run.Members[member], run.Entry!);
        var (plan, level) = (Known(site.Shots.PlaceSigma(row)), Known(site.Shots.LevelSigma(row)));
        double? uHeight = level is { } z && plan is { } p ? Math.Sqrt(z * z + place.Grade * place.Grade * p * p) : null;
        return new(run, member, row, run.Code, place.Line.Name, place.Line.StationAt(place.Chainage), place.Offset, plan, place.Height, place.Height is null ? null : uHeight,
            entry.TolerancePlan is { } most ? Judgement.OfTolerance(place.Offset, plan, new(-most, most), site.Settings.GuardBand) : null,
            place.Height is { } height && Limits.OfHeight(entry) is { IsNone: false } limits ? Judgement.OfTolerance(height, uHeight, limits, site.Settings.GuardBand) : null);
    }

    /// <summary>Of one point; null where no design point of its code is within reach.</summary>
    internal static Deviation? OfPoint(Site site, int row)
    {
        if (site.Match.PointOf(row) is not { } found || site.Shots.Entry(row) is not { } entry) return null;
        var (plan, level) = (Known(site.Shots.PlaceSigma(row)), Known(site.Shots.LevelSigma(row)));
        var height = site.Shots.HeightOf(row) - found.Point.Point.Height;
        return new(null, -1, row, entry.Code, found.Point.Point.Name, null, found.Distance, plan, height, height is null ? null : level,
            entry.TolerancePlan is { } most ? Judgement.OfPlace(found.Distance, plan, most, site.Settings.GuardBand) : null,
            height is { } off && Limits.OfHeight(entry) is { IsNone: false } limits ? Judgement.OfTolerance(off, level, limits, site.Settings.GuardBand) : null);
    }

    /// <summary>By run, then by code: mean, root mean square, 95 %, extremes.</summary>
    public static ImmutableArray<DeviationSummary> Summaries(IReadOnlyList<Deviation> deviations)
    {
        var made = ImmutableArray.CreateBuilder<DeviationSummary>();
        foreach (var of in deviations.Where(one => one.Run is not null).GroupBy(one => one.Run!.Value.Number)) made.Add(Of(of.First().Run, of.First().Code, [.. of]));
        foreach (var of in deviations.GroupBy(one => one.Code)) made.Add(Of(null, of.Key, [.. of]));
        return made.ToImmutable();
    }

    private static DeviationSummary Of(Run? run, string code, List<Deviation> of)
    {
        var heights = of.Where(one => one.Height is not null).Select(one => (one.Height!.Value, one.Row)).ToList();
        return new(run, code, DeviationSpread.Of(of.ConvertAll(one => (one.Offset, one.Row))), heights.Count == 0 ? null : DeviationSpread.Of(heights));
    }

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}
