using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Levels of a thing at one shot, metres. What no size or shot tells is null.</summary>
/// <param name="Top">Top of its outside.</param>
/// <param name="Centre">Halfway between top and underside.</param>
/// <param name="Invert">Lowest point of its inside.</param>
/// <param name="Soffit">Highest point of its inside.</param>
/// <param name="Underside">Underside of its outside.</param>
/// <param name="EncasedTop">Top of what it is encased in; null where nothing is said of an encasement.</param>
/// <param name="EncasedUnderside">Underside of what it is encased in.</param>
/// <param name="U">Standard uncertainty of each: that of the shot's level, sizes taken as they are stated; null where the shot states none.</param>
public readonly record struct Levels(
    double? Top, double? Centre, double? Invert, double? Soffit, double? Underside, double? EncasedTop, double? EncasedUnderside, double? U);

/// <summary>
/// Levels from where the shot was taken on the thing (<c>measured_at</c>) and its sizes. What attributes of a run or its shots say
/// prevails over the code book: <c>measured_at</c>, <c>od_m</c>, <c>wall_m</c>, <c>depth_m</c> (of a thing that is not round), <c>encasement_m</c>.
/// Runs of one bank are encased together.
/// </summary>
public sealed class LevelsOfRuns
{
    private readonly Site site;
    private readonly Dictionary<int, Path> paths = [];
    private readonly CurrentShots shots;
    private readonly AttributeValues measuredAt;
    private readonly AttributeValues diameter;
    private readonly AttributeValues wall;
    private readonly AttributeValues depth;
    private readonly AttributeValues encasement;

    /// <summary>For the runs of a site.</summary>
    public LevelsOfRuns(Site site)
    {
        (this.site, shots) = (site, site.Shots);
        (measuredAt, diameter, wall) = (new(shots, "measured_at"), new(shots, "od_m"), new(shots, "wall_m"));
        (depth, encasement) = (new(shots, "depth_m"), new(shots, "encasement_m"));
    }

    /// <summary>At a member of a run; all null where the shot has no height or nothing says where it was taken.</summary>
    public Levels Of(Run run, int member)
    {
        var row = run.Members[member];
        if (shots.HeightOf(row) is not { } height || shots.CodeColumn[row] != run.Table.CodeWords[run.Number] && !shots.Raw.IsConstructed(row)) return default;
        var sigma = shots.LevelSigma(row);
        var own = Of(run, row, height, Size(encasement, run, row), double.IsNaN(sigma) ? null : sigma);
        return Size(encasement, run, row) is { } around && site.Relations.Bank(run.Number).Any() ? Banked(run, row, own, around) : own;
    }

    private Levels Of(Run run, int row, double height, double? around, double? u) => Of(
        Said(measuredAt, run, row) ?? run.Entry?.MeasuredAt, height, Size(diameter, run, row) ?? run.Entry?.OutsideDiameter ?? Size(depth, run, row) ?? run.Entry?.Depth,
        Size(wall, run, row) ?? run.Entry?.Wall, around, u);

    /// <summary>A bank is encased as a whole: from above its highest duct to below its lowest, beside the shot.</summary>
    private Levels Banked(Run run, int row, Levels own, double around)
    {
        var (top, under) = (own.Top, own.Underside);
        foreach (var other in site.Relations.Bank(run.Number))
        {
            if (!paths.TryGetValue(other, out var path)) paths[other] = path = site.Runs[other].Path;
            var height = site.Runs[other].PieceCount == 0 ? null : path.HeightAt(path.Locate(shots.At(row)).Along);
            var levels = height is { } known ? Of(site.Runs[other], site.Runs[other].Members[0], known, null, null) : default;
            (top, under) = (top is null || levels.Top is null ? null : Math.Max(top.Value, levels.Top.Value), under is null || levels.Underside is null ? null : Math.Min(under.Value, levels.Underside.Value));
        }

        return own with { EncasedTop = top + around, EncasedUnderside = under - around };
    }

    /// <summary>The levels that a height gives.</summary>
    /// <param name="at">Where the shot was taken: top, centre, invert, soffit or underside; of any other word nothing follows.</param>
    /// <param name="size">Outside diameter, or depth of a thing that is not round, metres.</param>
    /// <param name="wall">Metres.</param>
    /// <param name="encasement">Metres on each side.</param>
    public static Levels Of(string? at, double height, double? size, double? wall, double? encasement, double? u)
    {
        double? top = at switch
        {
            "top" => height, "soffit" => height + wall, "centre" => height + size / 2, "underside" => height + size, "invert" => height - wall + size, _ => null,
        };
        double? under = at switch { "underside" => height, "invert" => height - wall, _ => null };
        top ??= under + size;
        under ??= top - size;
        var invert = at == "invert" ? height : under + wall;
        var soffit = at == "soffit" ? height : top - wall;
        var centre = at == "centre" ? height : top - size / 2;
        if (top is null && under is null && centre is null && invert is null && soffit is null) return default;
        return new(top, centre, invert, soffit, under, top + encasement, under - encasement, u);
    }

    private static string? Said(in AttributeValues values, Run run, int row) => values.Set(run) ?? values.Of(row);

    private static double? Size(in AttributeValues values, Run run, int row) =>
        double.TryParse(Said(values, run, row), NumberStyles.Float, CultureInfo.InvariantCulture, out var size) && size >= 0 && double.IsFinite(size) ? size : null;
}
