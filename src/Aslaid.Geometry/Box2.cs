using System.Globalization;

namespace Aslaid.Geometry;

/// <summary>A rectangle along the grid, metres, its edges part of it. <c>default</c> is the origin alone; <see cref="Empty"/> holds nothing.</summary>
/// <param name="MinEast">Metres.</param>
/// <param name="MinNorth">Metres.</param>
/// <param name="MaxEast">Metres; below <paramref name="MinEast"/> only in an empty box.</param>
/// <param name="MaxNorth">Metres.</param>
public readonly record struct Box2(double MinEast, double MinNorth, double MaxEast, double MaxNorth)
{
    /// <summary>Holds nothing, meets nothing, and is the neutral element of <see cref="Union(Box2)"/>.</summary>
    public static Box2 Empty { get; } = new(double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);

    /// <summary>True where no place is inside.</summary>
    public bool IsEmpty => !(MinEast <= MaxEast && MinNorth <= MaxNorth);

    /// <summary>The smallest box with both corners.</summary>
    public static Box2 Of(Point2 a, Point2 b) =>
        new(Math.Min(a.East, b.East), Math.Min(a.North, b.North), Math.Max(a.East, b.East), Math.Max(a.North, b.North));

    /// <summary>The smallest box with all places; empty for none.</summary>
    public static Box2 Of(ReadOnlySpan<Point2> places)
    {
        var box = Empty;
        foreach (var p in places) box = box.Union(p);
        return box;
    }

    /// <summary>The smallest box over both.</summary>
    public Box2 Union(Box2 other) => new(Math.Min(MinEast, other.MinEast), Math.Min(MinNorth, other.MinNorth),
        Math.Max(MaxEast, other.MaxEast), Math.Max(MaxNorth, other.MaxNorth));

    /// <summary>The smallest box over this and a place.</summary>
    public Box2 Union(Point2 place) => Union(new Box2(place.East, place.North, place.East, place.North));

    /// <summary>Larger by <paramref name="metres"/> on every side; an empty box stays empty.</summary>
    public Box2 Grow(double metres) => IsEmpty ? this : new(MinEast - metres, MinNorth - metres, MaxEast + metres, MaxNorth + metres);

    /// <summary>True where the boxes share at least a point.</summary>
    public bool Intersects(Box2 other) =>
        MinEast <= other.MaxEast && other.MinEast <= MaxEast && MinNorth <= other.MaxNorth && other.MinNorth <= MaxNorth;

    /// <summary>True where the place is inside or on the edge.</summary>
    public bool Contains(Point2 p) => MinEast <= p.East && p.East <= MaxEast && MinNorth <= p.North && p.North <= MaxNorth;

    /// <summary>Metres from the place to the nearest point of the box, 0 inside; infinite from an empty box.</summary>
    public double DistanceTo(Point2 p) => Math.Sqrt(SquaredDistanceTo(p));

    internal double SquaredDistanceTo(Point2 p)
    {
        var east = Math.Max(0, Math.Max(MinEast - p.East, p.East - MaxEast));
        var north = Math.Max(0, Math.Max(MinNorth - p.North, p.North - MaxNorth));
        return east * east + north * north;
    }

    internal double SquaredDistanceTo(Box2 b)
    {
        var east = Math.Max(0, Math.Max(MinEast - b.MaxEast, b.MinEast - MaxEast));
        var north = Math.Max(0, Math.Max(MinNorth - b.MaxNorth, b.MinNorth - MaxNorth));
        return east * east + north * north;
    }

    /// <summary>Both corners, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"({MinEast:0.0000}, {MinNorth:0.0000}) to ({MaxEast:0.0000}, {MaxNorth:0.0000})");
}
