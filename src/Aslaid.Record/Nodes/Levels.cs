using System.Globalization;

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
/// </summary>
public sealed class LevelsOfRuns
{
    private readonly CurrentShots shots;
    private readonly AttributeValues measuredAt;
    private readonly AttributeValues diameter;
    private readonly AttributeValues wall;
    private readonly AttributeValues depth;
    private readonly AttributeValues encasement;

    /// <summary>For the runs of a site.</summary>
    public LevelsOfRuns(Site site)
    {
        shots = site.Shots;
        (measuredAt, diameter, wall) = (new(shots, "measured_at"), new(shots, "od_m"), new(shots, "wall_m"));
        (depth, encasement) = (new(shots, "depth_m"), new(shots, "encasement_m"));
    }

    /// <summary>At a member of a run; all null where the shot has no height or nothing says where it was taken.</summary>
    public Levels Of(Run run, int member)
    {
        var row = run.Members[member];
        if (shots.HeightOf(row) is not { } height || shots.CodeColumn[row] != run.Table.CodeWords[run.Number] && !shots.Raw.IsConstructed(row)) return default;
        var sigma = shots.LevelSigma(row);
        return Of(Said(measuredAt, run, row) ?? run.Entry?.MeasuredAt, height, Size(diameter, run, row) ?? run.Entry?.OutsideDiameter ?? Size(depth, run, row) ?? run.Entry?.Depth,
            Size(wall, run, row) ?? run.Entry?.Wall, Size(encasement, run, row), double.IsNaN(sigma) ? null : sigma);
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
