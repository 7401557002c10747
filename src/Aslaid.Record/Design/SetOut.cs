using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A place to set out.</summary>
/// <param name="Id">Number for the instrument.</param>
/// <param name="At">Plan, metres.</param>
/// <param name="Height">Height of the design at that chainage, metres; null where it has none.</param>
/// <param name="Chainage">Metres along the line.</param>
/// <param name="Station">As the design counts.</param>
/// <param name="What">start, end, tangent point, bend, grade change, interval or asked.</param>
public sealed record SetOutPoint(string Id, Point2 At, double? Height, double Chainage, double Station, string What);

/// <summary>Places along a line of the design: at an interval, at every tangent point, bend and change of grade, and where asked.</summary>
public static class SetOut
{
    /// <summary>At most so many places: a smaller interval is a slip.</summary>
    public const int Most = 100_000;

    private const double Same = 0.001; // m
    private const double Tangent = 1e-4; // radians: what turns by less is tangent

    /// <param name="interval">Metres between stations, counted from station 0; null for none.</param>
    /// <param name="stations">Stations asked for.</param>
    /// <param name="offset">Metres square off the line, right positive.</param>
    public static ImmutableArray<SetOutPoint> Of(DesignedLine line, double? interval, IEnumerable<double> stations, double offset)
    {
        var (path, at, taken) = (line.Path, new SortedDictionary<double, string>(), new SortedSet<double>());
        Add(0, "start");
        Add(line.Length, "end");
        foreach (var joint in Joints(line.Line)) Add(joint, IsBend(path, joint) ? "bend" : "tangent point");
        if (line.Line.Profile is { } profile)
            foreach (var chainage in profile.Stations())
                if (chainage > 0 && chainage < line.Length) Add(chainage, "grade change");
        foreach (var station in stations)
            foreach (var chainage in line.Line.Stationing.ChainagesOf(station, line.Length)) Add(chainage, "asked");
        if (interval is { } every)
        {
            if (!(line.Length / every <= Most)) throw new ArgumentOutOfRangeException(nameof(interval), interval, "So small an interval in metres makes more places than anybody sets out.");
            var first = line.StationAt(0);
            for (var station = Math.Ceiling(first / every) * every; station <= first + 2 * line.Length; station += every)
                foreach (var chainage in line.Line.Stationing.ChainagesOf(station, line.Length)) Add(chainage, "interval");
        }

        var points = ImmutableArray.CreateBuilder<SetOutPoint>(at.Count);
        foreach (var (chainage, what) in at)
            points.Add(new(string.Create(CultureInfo.InvariantCulture, $"S{points.Count + 1}"), path.PointAt(chainage) + -offset * path.BearingAt(chainage).Unit.Left, line.HeightAt(chainage)?.Height, chainage, line.StationAt(chainage), what));
        return points.ToImmutable();

        void Add(double chainage, string what)
        {
            var near = taken.GetViewBetween(chainage - Same, chainage + Same);
            if (near.Count > 0 || !taken.Add(chainage)) return;
            at.Add(chainage, what);
        }
    }

    /// <summary>Chainages at which one element of the design ends and the next begins.</summary>
    private static IEnumerable<double> Joints(DesignLine line) =>
        line.Joints.IsDefaultOrEmpty ? Enumerable.Range(1, line.Path.Pieces.Length - 1).Where(piece => IsJoint(line.Path, piece)).Select(line.Path.StartOf) : line.Joints;

    /// <summary>Straights that go on straight are one element.</summary>
    private static bool IsJoint(Path path, int piece) =>
        path.Pieces[piece].Kind == PieceKind.Arc || path.Pieces[piece - 1].Kind == PieceKind.Arc || IsBend(path, path.StartOf(piece));

    private static bool IsBend(Path path, double chainage) => Math.Abs(path.BearingAt(Math.Max(0, chainage - 1e-6)).To(path.BearingAt(chainage))) > Tangent;
}
