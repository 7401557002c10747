using System.Collections.Immutable;
using System.Text;

namespace Aslaid.Workbench;

/// <summary>A control point on the drawing.</summary>
internal sealed record Mark(string Id, Spot At, double Height);

/// <summary>Lays the drawing on the grid: turned about its middle, then set down; knows the ground and the control.</summary>
internal sealed class SiteFrame
{
    private const double MiddleEast = 512_200;
    private const double MiddleNorth = 6_243_200;
    private static readonly Spot Middle = new(115, 30);
    private readonly double _sin;
    private readonly double _cos;

    /// <param name="turn">Radians clockwise.</param>
    public SiteFrame(double turn)
    {
        (_sin, _cos) = Math.SinCos(turn);
        Spot[] at = [new(-12, -30), new(-8, 45), new(120, 58), new(238, 52), new(232, -28)];
        Marks = [.. at.Select((spot, i) => new Mark($"M{i + 1}", spot, Ground(spot)))];
    }

    public ImmutableArray<Mark> Marks { get; }

    /// <summary>Grid metres.</summary>
    public (double East, double North) Place(Spot at)
    {
        var (e, n) = (at.East - Middle.East, at.North - Middle.North);
        return (MiddleEast + (e * _cos) + (n * _sin), MiddleNorth + (n * _cos) - (e * _sin));
    }

    /// <summary>Height of the finished ground, metres: a street that falls to the harbour, with a little life in it.</summary>
    public static double Ground(Spot at) =>
        7.5 - (0.006 * at.East) + (0.003 * at.North) + (0.03 * Math.Sin(at.East / 17) * Math.Cos(at.North / 23));

    /// <summary>A level held at a depth under the ground, metres.</summary>
    public static Func<Spot, double, double> Under(double depth) => (at, _) => Ground(at) - depth;

    public string ControlCsv()
    {
        var text = new StringBuilder("id,east,north,height,u_plan,u_height\n");
        foreach (var mark in Marks)
        {
            var (east, north) = Place(mark.At);
            text.Append(FormattableString.Invariant($"{mark.Id},{east:F4},{north:F4},{mark.Height:F4},0.005,0.002\n"));
        }
        return text.ToString();
    }
}
