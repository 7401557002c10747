namespace Aslaid.Geometry;

/// <summary>
/// Places that nobody could stand on, computed from places that were measured. Plan on the grid, metres; heights by straight
/// differences. Each comes with its exact first derivatives, so that uncertainty can be carried through (JCGM 100:2008, 5.1).
/// </summary>
public static class Constructed
{
    /// <summary>Lines that meet at a smaller angle, radians, do not tell where (half a degree, where a centimetre across becomes more than a metre along).</summary>
    public const double LeastAngle = 0.0087;

    /// <summary>Straight above or below a place.</summary>
    /// <param name="up">Metres, below negative.</param>
    public static ConstructedPlace Tape(Place3 from, double up) => new(from.At, from.Height + up, [PlaceAnswer.Same], [new(default, 1)]);

    /// <summary>From a place by a bearing and a distance in plan, then up.</summary>
    /// <param name="bearing">Radians clockwise from grid north.</param>
    /// <param name="distance">Metres in plan.</param>
    /// <param name="up">Metres.</param>
    public static ConstructedPlace ByBearing(Place3 from, double bearing, double distance, double up)
    {
        var way = Bearing.FromRadians(bearing).Unit;
        return new(from.At + distance * way, from.Height + up, [PlaceAnswer.Same], [new(new(distance * way.North, -distance * way.East), 0), new(way, 0), new(default, 1)]);
    }

    /// <summary>From one place towards another: along, right and up from the first.</summary>
    public static bool TryOffset(Place3 from, Place3 towards, double along, double right, double up, out ConstructedPlace? place, out ConstructionFault fault)
    {
        (place, fault) = (null, ConstructionFault.OnePlace);
        var line = towards.At - from.At;
        var length = line.Size;
        if (length == 0) return false;
        var way = 1 / length * line;
        var rightwards = -1 * way.Left;
        // A move of the far place across the line, by 1/length a metre, turns the whole about the near one.
        var turned = 1 / length * (along * way.Left + right * way);
        PlaceAnswer far = new(way.Left.East * turned, way.Left.North * turned, 0, 0, 0);
        PlaceAnswer near = new(new Step(1, 0) - far.ByEast, new Step(0, 1) - far.ByNorth, 0, 0, 1);
        place = new(from.At + along * way + right * rightwards, from.Height + up, [near, far], [new(way, 0), new(rightwards, 0), new(default, 1)]);
        fault = ConstructionFault.None;
        return true;
    }

    /// <summary>At two distances in plan from two places, on one side of the line from the first to the second; at the mean of their heights.</summary>
    /// <param name="side">Right 1, left −1.</param>
    public static bool TryTwoDistances(Place3 first, Place3 second, double fromFirst, double fromSecond, int side, out ConstructedPlace? place, out ConstructionFault fault)
    {
        (place, fault) = (null, ConstructionFault.OnePlace);
        var line = second.At - first.At;
        var length = line.Size;
        if (length == 0) return false;
        fault = ConstructionFault.NoMeeting;
        if (!(fromFirst > 0 && fromSecond > 0)) return false;
        var along = (fromFirst - fromSecond) * (fromFirst + fromSecond) / (2 * length) + length / 2;
        var square = (fromFirst - along) * (fromFirst + along);
        if (!(square >= 0)) return false;
        var way = 1 / length * line;
        var at = first.At + (along * way - side * Math.Sqrt(square) * way.Left);
        Step u = 1 / fromFirst * (at - first.At), v = 1 / fromSecond * (at - second.At);
        fault = ConstructionFault.NearlyInLine;
        var det = u.Cross(v);
        if (Math.Abs(det) < LeastAngle) return false;
        // u·move = what the first distance grows by, v·move the second.
        Step byFirst = 1 / det * new Step(v.North, -v.East), bySecond = 1 / det * new Step(-u.North, u.East);
        place = new(at, (first.Height + second.Height) / 2,
            [new(u.East * byFirst, u.North * byFirst, 0, 0, 0.5), new(v.East * bySecond, v.North * bySecond, 0, 0, 0.5)], [new(byFirst, 0), new(bySecond, 0)]);
        fault = ConstructionFault.None;
        return true;
    }

    /// <summary>Where the line of two places meets that of two others in plan, both continued as needed; at the height of the first line there.</summary>
    public static bool TryLineWithLine(Place3 a, Place3 b, Place3 c, Place3 d, out ConstructedPlace? place, out ConstructionFault fault)
    {
        (place, fault) = (null, ConstructionFault.OnePlace);
        Step line = b.At - a.At, other = d.At - c.At;
        double length = line.Size, size = other.Size;
        if (length == 0 || size == 0) return false;
        Step way = 1 / length * line, cross = 1 / size * other;
        var sine = way.Cross(cross);
        fault = ConstructionFault.NearlyInLine;
        if (Math.Abs(sine) < LeastAngle) return false;
        var t = (c.At - a.At).Cross(cross) / sine / length;
        var s = (c.At - a.At).Cross(way) / sine / size;
        // The lines move square to themselves by n·δ; the meeting slides along the other one.
        Step byFirst = 1 / sine * cross, bySecond = -1 / sine * way;
        var slope = (b.Height - a.Height) / length;
        place = new(a.At + t * line, a.Height + t * length * slope,
        [
            Answer(1 - t, way, byFirst, 1 - t, own: true), Answer(t, way, byFirst, t, own: true), Answer(1 - s, cross, bySecond, 0, own: false), Answer(s, cross, bySecond, 0, own: false),
        ], []);
        fault = ConstructionFault.None;
        return true;

        PlaceAnswer Answer(double share, Step of, Step move, double height, bool own)
        {
            Step east = share * of.Left.East * move, north = share * of.Left.North * move;
            var rise = slope ?? 0;
            return new(east, north, rise * (way.Dot(east) - (own ? share * way.East : 0)), rise * (way.Dot(north) - (own ? share * way.North : 0)), height);
        }
    }
}
