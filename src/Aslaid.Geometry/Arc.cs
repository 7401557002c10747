using System.Globalization;

namespace Aslaid.Geometry;

/// <summary>The way a line bends, seen from above.</summary>
public enum Turn : byte
{
    /// <summary>Anticlockwise.</summary>
    Left,

    /// <summary>Clockwise.</summary>
    Right,
}

/// <summary>Why places carry no arc.</summary>
public enum ArcFault : byte
{
    /// <summary>They carry one.</summary>
    None,

    /// <summary>Two of the places are the same, or there are too few.</summary>
    Coincident,

    /// <summary>They do not depart from a straight by more than the flatness.</summary>
    Straight,

    /// <summary>The fit did not settle within its cap of steps.</summary>
    NotConverged,
}

/// <summary>A circular arc in plan, metres, of any sweep up to a full turn. <c>default</c> is a dot of radius 0 at the origin.</summary>
/// <remarks>The ends are kept bit for bit, so that pieces join exactly. Everything is reckoned from the start or the centre,
/// never from the grid's origin: at 6 000 000 m places are good to some nanometres, angles to that over the radius.</remarks>
public readonly partial record struct Arc
{
    private Arc(Point2 from, Point2 to, Point2 centre, double radius, double sweep, Turn turn)
    {
        From = from;
        To = to;
        Centre = centre;
        Radius = radius;
        Sweep = sweep;
        Turn = turn;
    }

    /// <summary>Its start.</summary>
    public Point2 From { get; }

    /// <summary>Its end; the start of a full circle.</summary>
    public Point2 To { get; }

    /// <summary>The centre of its circle.</summary>
    public Point2 Centre { get; }

    /// <summary>Metres, never negative.</summary>
    public double Radius { get; }

    /// <summary>Radians turned from start to end, in (0, 2π]; never signed: the way is <see cref="Turn"/>. 0 in <c>default</c>.</summary>
    public double Sweep { get; }

    /// <summary>The way it bends.</summary>
    public Turn Turn { get; }

    /// <summary>Metres in plan, grid.</summary>
    public double PlanLength => Radius * Sweep;

    /// <summary>Metres from start to end across; 0 for a full circle.</summary>
    public double Chord => From.DistanceTo(To);

    /// <summary>Metres from the middle of the chord to the middle of the arc (the mid-ordinate): R(1 − cos(sweep/2)), above R past half a turn.</summary>
    public double Sagitta => 2 * Radius * Square(Math.Sin(Sweep / 4));

    /// <summary>Metres from an end to the meeting of the end tangents; null from half a turn on, where they do not meet ahead.</summary>
    public double? TangentLength => Sweep < Math.PI ? Radius * Math.Tan(Sweep / 2) : null;

    /// <summary>Metres from the meeting of the end tangents to the middle of the arc; null from half a turn on.</summary>
    public double? External => Sweep < Math.PI ? Sagitta / Math.Cos(Sweep / 2) : null;

    /// <summary>True for one whole turn.</summary>
    public bool IsFullCircle => Sweep == double.Tau;

    /// <summary>The place halfway along.</summary>
    public Point2 MidPoint => AtAngle(Sweep / 2);

    /// <summary>Square metres between arc and chord, positive for a left turn: what the arc adds to a ring measured along its chords, anticlockwise positive.</summary>
    public double SegmentArea => Sense * Radius * Radius / 2 * Angles.LessItsSine(Sweep);

    internal double Sense => Turn == Turn.Left ? 1 : -1;

    /// <summary>The place at a chainage.</summary>
    /// <param name="along">Metres from the start; beyond either end the circle is followed on. The ends come back bit for bit.</param>
    public Point2 PointAt(double along)
    {
        if (along == 0 || Radius == 0) return From;
        var angle = along / Radius;
        return along == PlanLength ? To : AtAngle(angle);
    }

    /// <summary>The way the line heads at a chainage, metres from the start.</summary>
    public Bearing BearingAt(double along)
    {
        if (Radius == 0) return default;
        var (sin, cos) = Math.SinCos(along / Radius);
        var outward = From - Centre;
        var ahead = Sense * outward.Left;
        return Bearing.Of(cos * ahead - sin * outward);
    }

    /// <summary>The smallest box over the arc, bulge and all.</summary>
    public Box2 Box
    {
        get
        {
            var box = Box2.Of(From, To);
            if (Radius == 0) return box;
            var start = From - Centre;
            for (var quarter = 0; quarter < 4; quarter++)
            {
                Step outward = quarter switch { 0 => new(Radius, 0), 1 => new(0, Radius), 2 => new(-Radius, 0), _ => new(0, -Radius) };
                if (AngleTo(start, outward) < Sweep) box = box.Union(Centre + outward);
            }
            return box;
        }
    }

    /// <summary>The nearest point of the arc, its chainage, and the offset.</summary>
    /// <remarks>The centre is as near to every point; its foot is the start.</remarks>
    public Locus Locate(Point2 place)
    {
        var outward = place - Centre;
        var reach = outward.Size;
        if (reach == 0 || Radius == 0) return AtEnd(place, atStart: true);
        var angle = AngleTo(From - Centre, outward);
        if (angle > Sweep) return AtEnd(place, atStart: place.DistanceTo(From) <= place.DistanceTo(To));
        if (angle == 0) return new(0, Sense * (reach - Radius), Math.Abs(reach - Radius), From);
        var foot = angle == Sweep ? To : Centre + Radius / reach * outward;
        return new(Radius * angle, Sense * (reach - Radius), Math.Abs(reach - Radius), foot);
    }

    /// <summary>How far along the foot of a place lies: 0 at the start, 1 at the end, the nearer end for places beyond the ends.</summary>
    public double Fraction(Point2 place) => Sweep == 0 ? 0 : FootAngle(place) / Sweep;

    /// <summary>The same arc, followed from its end to its start.</summary>
    public Arc Reverse() => new(To, From, Centre, Radius, Sweep, Turn == Turn.Left ? Turn.Right : Turn.Left);

    /// <summary>Radius, sweep and turn, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{From} to {To}, {(Turn == Turn.Left ? "left" : "right")}, radius {Radius:0.0000} m, sweep {double.RadiansToDegrees(Sweep):0.000000}°");

    /// <summary>Radians from the start to the foot of a place, in [0, sweep].</summary>
    internal double FootAngle(Point2 place)
    {
        var angle = AngleTo(From - Centre, place - Centre);
        return angle <= Sweep ? angle : place.DistanceTo(From) <= place.DistanceTo(To) ? 0 : Sweep;
    }

    /// <summary>Radians from one outward step to another, followed the way the arc turns, in [0, 2π).</summary>
    internal double AngleTo(Step from, Step to)
    {
        var angle = Math.Atan2(Sense * from.Cross(to), from.Dot(to));
        return angle < 0 ? angle + double.Tau : angle;
    }

    /// <summary>The place at an angle from the start: start + 2R sin(θ/2)·(ahead cos(θ/2) − outward sin(θ/2)); no error at the start, none from the grid.</summary>
    internal Point2 AtAngle(double angle)
    {
        if (Radius == 0) return From;
        var (sin, cos) = Math.SinCos(angle / 2);
        var outward = From - Centre;
        return From + 2 * sin * (cos * Sense * outward.Left - sin * outward);
    }

    private Locus AtEnd(Point2 place, bool atStart)
    {
        var end = atStart ? From : To;
        var step = place - end;
        var distance = step.Size;
        if (Radius == 0) return new(0, distance, distance, end);
        var outward = end - Centre;
        return new(atStart ? 0 : PlanLength, Sense * step.Dot(outward) / outward.Size, distance, end);
    }

    private static double Square(double x) => x * x;
}
