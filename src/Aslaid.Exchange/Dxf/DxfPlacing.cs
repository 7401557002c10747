using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>How a block lies in the drawing: a turn, stretch and shift in plan, a stretch and shift in height.</summary>
internal readonly record struct DxfPlacing(double Xx, double Xy, double Yx, double Yy, double X, double Y, double Zz, double Z)
{
    /// <summary>As it is.</summary>
    public static DxfPlacing None { get; } = new(1, 0, 0, 1, 0, 0, 1, 0);

    /// <summary>The object coordinates of an extrusion straight down (the arbitrary axis algorithm): east and up turn about.</summary>
    public static DxfPlacing Below { get; } = new(-1, 0, 0, 1, 0, 0, -1, 0);

    /// <summary>Whether it turns left into right.</summary>
    public bool Mirrors => Xx * Yy - Xy * Yx < 0;

    /// <summary>Whether circles stay circles.</summary>
    public bool KeepsCircles
    {
        get
        {
            double a = Xx * Xx + Yx * Yx, b = Xy * Xy + Yy * Yy;
            return a > 0 && Math.Abs(a - b) <= 1e-9 * Math.Max(a, b) && Math.Abs(Xx * Xy + Yx * Yy) <= 1e-9 * Math.Max(a, b);
        }
    }

    /// <summary>By how much circles grow, where they stay circles.</summary>
    public double Stretch => Math.Sqrt(Xx * Xx + Yx * Yx);

    public (double X, double Y, double Z) Of(double x, double y, double z) => (Xx * x + Xy * y + X, Yx * x + Yy * y + Y, Zz * z + Z);

    /// <summary>First <paramref name="inner"/>, then this.</summary>
    public DxfPlacing After(DxfPlacing inner)
    {
        var (x, y, z) = Of(inner.X, inner.Y, inner.Z);
        return new(
            Xx * inner.Xx + Xy * inner.Yx, Xx * inner.Xy + Xy * inner.Yy, Yx * inner.Xx + Yy * inner.Yx, Yx * inner.Xy + Yy * inner.Yy, x, y, Zz * inner.Zz, z);
    }

    /// <summary>A block with its base point, stretched, turned (degrees, anticlockwise) and shifted.</summary>
    public static DxfPlacing Insert(double x, double y, double z, double scaleX, double scaleY, double scaleZ, double degrees, (double X, double Y, double Z) origin)
    {
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(degrees));
        var turned = new DxfPlacing(cos * scaleX, -sin * scaleY, sin * scaleX, cos * scaleY, 0, 0, scaleZ, 0);
        var (ox, oy, oz) = turned.Of(origin.X, origin.Y, origin.Z);
        return turned with { X = x - ox, Y = y - oy, Z = z - oz };
    }
}
