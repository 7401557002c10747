using System.Globalization;

namespace Aslaid.Record;

/// <summary>Why a release no longer stands.</summary>
public static class LapseReason
{
    /// <summary>In words, with the largest move in metres; null where the release stands.</summary>
    public static string? Of(Site site, Run run, LengthReleased release)
    {
        var now = Release.Vertices(run, release.From, release.To);
        var same = Release.InputsHash(site, run, release.From, release.To) == release.InputsSha256;
        if (now.Length != release.Vertices.Length)
            return string.Create(CultureInfo.InvariantCulture, $"{release.Vertices.Length} shots carried the length, now {now.Length} do");
        var (most, height, along) = (0.0, 0.0, 0.0);
        for (var i = 0; i < now.Length; i++)
        {
            var (was, stands) = (release.Vertices[i], now[i]);
            most = Math.Max(most, double.Hypot(was.East - stands.East, was.North - stands.North));
            along = Math.Max(along, Math.Abs(was.Chainage - stands.Chainage));
            if (was.Height.HasValue != stands.Height.HasValue) return "a height was added or taken away";
            height = Math.Max(height, Math.Abs((was.Height ?? 0) - (stands.Height ?? 0)));
        }

        if (most > HoldPoints.ReleasedMove) return string.Create(CultureInfo.InvariantCulture, $"a shot moved by {most:0.000} m in plan");
        if (height > HoldPoints.ReleasedMove) return string.Create(CultureInfo.InvariantCulture, $"a height changed by {height:0.000} m");
        if (along > HoldPoints.ReleasedMove) return string.Create(CultureInfo.InvariantCulture, $"chainages moved by {along:0.000} m: the run changed before this length");
        return same ? null : "its code, the limits of its code, the design that it is built to, or which shots lie on arcs changed";
    }

    /// <summary>The same for a release by its journal position.</summary>
    public static string? Of(AsBuiltRecord record, Run run, int position) =>
        record.Inputs.Journal[position - 1].What is LengthReleased release ? Of(record.Site, run, release) : null;
}
