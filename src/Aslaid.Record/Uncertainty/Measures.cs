using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// Measures with their exact gradients by shot. Lengths in metres, angles in radians; null where an input is missing or the measure
/// has no derivative. Shots are rows of <see cref="CurrentShots"/>; a row that uses a shot again stands for that shot. A value is
/// that of the record, its gradient that of the formula that made it: pieces, their order and the shots of a triangle stay as they are.
/// </summary>
public static partial class Measures
{
    /// <summary>Height of <paramref name="to"/> above <paramref name="from"/>; null where either has none.</summary>
    public static ShotMeasure? HeightDifference(CurrentShots shots, int from, int to)
    {
        (from, to) = (shots.Shot(from), shots.Shot(to));
        if (shots.HeightOf(from) is not { } low || shots.HeightOf(to) is not { } high) return null;
        var sum = new GradientSum();
        sum.AddHeight(to, 1);
        sum.AddHeight(from, -1);
        return sum.Of(high - low);
    }

    /// <summary>Distance of two shots in plan, on the grid; null in one place, where every move lengthens it.</summary>
    public static ShotMeasure? PlanDistance(CurrentShots shots, int from, int to)
    {
        (from, to) = (shots.Shot(from), shots.Shot(to));
        var step = shots.At(to) - shots.At(from);
        var distance = step.Size;
        if (distance == 0) return null;
        var sum = new GradientSum();
        AddStep(sum, from, to, 1 / distance * step);
        return sum.Of(distance);
    }

    /// <summary>Distance of two shots on the slope; null where a height is missing, or in one place.</summary>
    public static ShotMeasure? SlopeDistance(CurrentShots shots, int from, int to)
    {
        (from, to) = (shots.Shot(from), shots.Shot(to));
        if (shots.HeightOf(from) is not { } low || shots.HeightOf(to) is not { } high) return null;
        var step = shots.At(to) - shots.At(from);
        var distance = Math.Sqrt(step.SizeSquared + (high - low) * (high - low));
        if (distance == 0) return null;
        var sum = new GradientSum();
        AddStep(sum, from, to, 1 / distance * step);
        sum.AddHeight(to, (high - low) / distance);
        sum.AddHeight(from, (low - high) / distance);
        return sum.Of(distance);
    }

    /// <summary>Height of a surface above a place in plan, from one to three of its shots.</summary>
    /// <remarks>
    /// One: its height. Two: even between them at the foot of the place, beyond an end that end's. Three: the plane through them.
    /// Null where a height is missing, where two lie in one place or three in line, and where the place lies outside the three.
    /// </remarks>
    public static ShotMeasure? SurfaceHeight(CurrentShots shots, ReadOnlySpan<int> surface, Point2 at)
    {
        var sum = new GradientSum();
        return AddSurface(sum, shots, surface, at, out _) is { } height ? sum.Of(height) : null;
    }

    private static void AddStep(GradientSum into, int from, int to, Step by)
    {
        into.Add(to, by);
        into.Add(from, -1 * by);
    }

    /// <summary>Adds the surface's height; <paramref name="slope"/> is its answer to a move of the place.</summary>
    private static double? AddSurface(GradientSum into, CurrentShots shots, ReadOnlySpan<int> surface, Point2 at, out Step slope)
    {
        ArgumentOutOfRangeException.ThrowIfZero(surface.Length);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(surface.Length, 3);
        slope = default;
        Span<int> rows = stackalloc int[surface.Length];
        Span<double> shares = stackalloc double[surface.Length];
        for (var i = 0; i < rows.Length; i++)
        {
            rows[i] = shots.Shot(surface[i]);
            if (double.IsNaN(shots.Heights[rows[i]])) return null;
        }

        if (!Shares(shots, rows, at, shares, out slope)) return null;
        var first = shots.Heights[rows[0]];
        var height = first;
        for (var i = 0; i < rows.Length; i++)
        {
            height += shares[i] * (shots.Heights[rows[i]] - first);
            into.AddHeight(rows[i], shares[i]);
            if (rows.Length == 3) into.Add(rows[i], -shares[i] * slope); // the plane stays where it is when its shots slide along it
        }

        if (rows.Length == 2 && shares[1] is > 0 and < 1) AddPairMoves(into, shots, rows, at, shares[1]);
        return height;
    }

    /// <summary>What each shot of a surface has of its height at a place, and how that height answers to a move of the place.</summary>
    private static bool Shares(CurrentShots shots, ReadOnlySpan<int> rows, Point2 at, Span<double> shares, out Step slope)
    {
        slope = default;
        shares[0] = 1;
        if (rows.Length == 1) return true;
        var p = at - shots.At(rows[0]);
        var b = shots.At(rows[1]) - shots.At(rows[0]);
        var rise = shots.Heights[rows[1]] - shots.Heights[rows[0]];
        if (rows.Length == 2)
        {
            if (b.SizeSquared == 0) return false;
            var share = p.Dot(b) / b.SizeSquared;
            if (share is > 0 and < 1) slope = rise / b.SizeSquared * b;
            shares[1] = Math.Clamp(share, 0, 1);
            shares[0] = 1 - shares[1];
            return true;
        }

        var c = shots.At(rows[2]) - shots.At(rows[0]);
        var twice = b.Cross(c);
        if (Math.Abs(twice) <= InLine * Math.Max(b.SizeSquared, c.SizeSquared)) return false;
        shares[1] = p.Cross(c) / twice;
        shares[2] = b.Cross(p) / twice;
        shares[0] = 1 - shares[1] - shares[2];
        if (shares[0] < -InLine || shares[1] < -InLine || shares[2] < -InLine) return false;
        slope = 1 / twice * (rise * (-1 * c.Left) + (shots.Heights[rows[2]] - shots.Heights[rows[0]]) * b.Left);
        return true;
    }

    private const double InLine = 1e-9; // share of a triangle's own size

    /// <summary>The share x/L of a foot between two shots A and B, y to the left: L·d(x/L) = û·(dP − dA) + (y/L) n·(dB − dA) − (x/L) û·(dB − dA).</summary>
    private static void AddPairMoves(GradientSum into, CurrentShots shots, ReadOnlySpan<int> rows, Point2 at, double share)
    {
        var whole = shots.At(rows[1]) - shots.At(rows[0]);
        var ahead = 1 / whole.Size * whole;
        var left = (at - shots.At(rows[0])).Dot(ahead.Left);
        var slope = (shots.Heights[rows[1]] - shots.Heights[rows[0]]) / whole.Size;
        into.Add(rows[0], -slope * ahead);
        AddStep(into, rows[0], rows[1], slope * (left / whole.Size * ahead.Left - share * ahead));
    }
}
