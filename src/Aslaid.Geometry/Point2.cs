using System.Globalization;

namespace Aslaid.Geometry;

/// <summary>A place in plan, metres in the site grid. <c>default</c> is the grid's origin.</summary>
/// <param name="East">Metres, growing to grid east.</param>
/// <param name="North">Metres, growing to grid north.</param>
public readonly record struct Point2(double East, double North)
{
    /// <summary>The step that leads from <paramref name="from"/> to <paramref name="to"/>; exact for near places (Sterbenz).</summary>
    public static Step operator -(Point2 to, Point2 from) => new(to.East - from.East, to.North - from.North);

    /// <summary>The place one step away.</summary>
    public static Point2 operator +(Point2 from, Step step) => new(from.East + step.East, from.North + step.North);

    /// <summary>The step from <paramref name="other"/> to here.</summary>
    public Step Subtract(Point2 other) => this - other;

    /// <summary>The place <paramref name="step"/> away from here.</summary>
    public Point2 Add(Step step) => this + step;

    /// <summary>Metres in plan, never negative.</summary>
    public double DistanceTo(Point2 other) => (other - this).Size;

    /// <summary>East and north to the tenth of a millimetre, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"({East:0.0000}, {North:0.0000})");
}

/// <summary>A displacement in plan, metres. Products are taken of steps, never of places: the square of a northing of
/// 6 000 000 m is known to 0.004 m² only.</summary>
/// <param name="East">Metres to grid east.</param>
/// <param name="North">Metres to grid north.</param>
public readonly record struct Step(double East, double North)
{
    /// <summary>Metres, never negative.</summary>
    public double Size => Math.Sqrt(East * East + North * North);

    /// <summary>Square metres.</summary>
    public double SizeSquared => East * East + North * North;

    /// <summary>The same step turned a quarter to the left (anticlockwise seen from above).</summary>
    public Step Left => new(-North, East);

    /// <summary>Scalar product, square metres.</summary>
    public double Dot(Step other) => East * other.East + North * other.North;

    /// <summary>Twice the area between both steps, square metres; positive when <paramref name="other"/> points to the left of this.</summary>
    public double Cross(Step other) => East * other.North - North * other.East;

    /// <summary>Both steps in turn.</summary>
    public static Step operator +(Step a, Step b) => new(a.East + b.East, a.North + b.North);

    /// <summary>The first step less the second.</summary>
    public static Step operator -(Step a, Step b) => new(a.East - b.East, a.North - b.North);

    /// <summary>The step stretched; a negative factor turns it about.</summary>
    public static Step operator *(double factor, Step step) => new(factor * step.East, factor * step.North);

    /// <summary>Both steps in turn.</summary>
    public Step Add(Step other) => this + other;

    /// <summary>This step less <paramref name="other"/>.</summary>
    public Step Subtract(Step other) => this - other;

    /// <summary>This step stretched by <paramref name="factor"/>.</summary>
    public Step Multiply(double factor) => factor * this;

    /// <summary>East and north to the tenth of a millimetre, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"[{East:0.0000}, {North:0.0000}]");
}
