using System.Globalization;

namespace Aslaid.Geometry;

/// <summary>A direction, clockwise from grid north. <c>default</c> is north.</summary>
public readonly record struct Bearing
{
    private Bearing(double radians) => Radians = radians;

    /// <summary>Radians, always in [0, 2π).</summary>
    public double Radians { get; }

    /// <summary>Degrees, always in [0, 360).</summary>
    public double Degrees => Math.Min(double.RadiansToDegrees(Radians), 359.99999999999994);

    /// <summary>The step of one metre that way.</summary>
    public Step Unit => new(Math.Sin(Radians), Math.Cos(Radians));

    /// <summary>From any finite number of degrees; 370 and -350 are both 10.</summary>
    public static Bearing FromDegrees(double degrees)
    {
        if (!double.IsFinite(degrees))
            throw new ArgumentOutOfRangeException(nameof(degrees), degrees, "A bearing needs a finite number of degrees.");
        var turn = degrees % 360; // exact: reduce before π enters
        var radians = double.DegreesToRadians(turn < 0 ? turn + 360 : turn);
        return new(radians < double.Tau ? radians : 0); // -1e-20 + 360 rounds to a full turn
    }

    /// <summary>From any finite number of radians; exact within one turn either way.</summary>
    public static Bearing FromRadians(double radians)
    {
        if (!double.IsFinite(radians))
            throw new ArgumentOutOfRangeException(nameof(radians), radians, "A bearing needs a finite number of radians.");
        var turn = radians % double.Tau;
        if (turn < 0) turn += double.Tau;
        return new(turn < double.Tau ? turn : 0);
    }

    /// <summary>The way from one place to another; north where they are the same.</summary>
    public static Bearing Of(Point2 from, Point2 to) => Of(to - from);

    /// <summary>The way a step leads; north for no step.</summary>
    public static Bearing Of(Step step) => FromRadians(Math.Atan2(step.East, step.North));

    /// <summary>The angle from this to <paramref name="other"/>, radians in (-π, π], clockwise positive.</summary>
    public double To(Bearing other)
    {
        var turn = other.Radians - Radians;
        return turn > Math.PI ? turn - double.Tau : turn <= -Math.PI ? turn + double.Tau : turn;
    }

    /// <summary>The bearing back.</summary>
    public Bearing Reverse => FromRadians(Radians + Math.PI);

    /// <summary>Degrees to six decimals, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Degrees:0.000000}°");
}
