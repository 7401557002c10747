namespace Aslaid.Exchange;

/// <summary>
/// How coordinates of a block, or of an entity that lies in a plane of its own, become those of the drawing: turned, stretched and
/// mirrored in plan, heights apart. In units of the drawing.
/// </summary>
/// <remarks>A place is first taken from the block's base, so that turning loses nothing to the size of coordinates on a grid.</remarks>
internal readonly record struct DxfTransform
{
    private const double Even = 1e-9; // share by which scales may differ and still keep a circle

    /// <summary>Changes nothing.</summary>
    public static DxfTransform Identity { get; } = new() { EastByX = 1, NorthByY = 1, HeightByZ = 1 };

    /// <summary>The plane of extrusion 0, 0, −1, by the arbitrary axis rule: x and z are counted the other way.</summary>
    public static DxfTransform Below { get; } = new() { EastByX = -1, NorthByY = 1, HeightByZ = -1 };

    private double EastByX { get; init; }

    private double EastByY { get; init; }

    private double NorthByX { get; init; }

    private double NorthByY { get; init; }

    private double HeightByZ { get; init; }

    /// <summary>The place that comes to lie at <see cref="Origin"/>.</summary>
    public DxfPlace Base { get; private init; }

    public DxfPlace Origin { get; private init; }

    private double Area => EastByX * NorthByY - EastByY * NorthByX;

    /// <summary>Whether left becomes right.</summary>
    public bool Mirrors => Area < 0;

    /// <summary>By what lengths grow in plan; null where that depends on the way, and no circle stays one.</summary>
    public double? Scale
    {
        get
        {
            double byX = EastByX * EastByX + NorthByX * NorthByX, byY = EastByY * EastByY + NorthByY * NorthByY;
            var askew = EastByX * EastByY + NorthByX * NorthByY;
            return Math.Abs(byX - byY) <= Even * (byX + byY) && Math.Abs(askew) <= Even * (byX + byY) ? Math.Sqrt(Math.Abs(Area)) : null;
        }
    }

    /// <summary>As a block is inserted.</summary>
    /// <param name="degrees">Turned to the left.</param>
    public static DxfTransform Inserted(in DxfPlace basePlace, in DxfPlace origin, in DxfPlace scale, double degrees)
    {
        var (sin, cos) = SinCos(degrees);
        return new()
        {
            EastByX = cos * scale.X, EastByY = -sin * scale.Y, NorthByX = sin * scale.X, NorthByY = cos * scale.Y, HeightByZ = scale.Z,
            Base = basePlace, Origin = origin,
        };
    }

    /// <summary>First the inner, then this.</summary>
    public DxfTransform Over(in DxfTransform inner) => new()
    {
        EastByX = EastByX * inner.EastByX + EastByY * inner.NorthByX,
        EastByY = EastByX * inner.EastByY + EastByY * inner.NorthByY,
        NorthByX = NorthByX * inner.EastByX + NorthByY * inner.NorthByX,
        NorthByY = NorthByX * inner.EastByY + NorthByY * inner.NorthByY,
        HeightByZ = HeightByZ * inner.HeightByZ,
        Base = inner.Base,
        Origin = Of(inner.Origin),
    };

    public DxfPlace Of(in DxfPlace place)
    {
        var step = Way(place.X - Base.X, place.Y - Base.Y);
        return new(Origin.X + step.X, Origin.Y + step.Y, Origin.Z + HeightByZ * (place.Z - Base.Z));
    }

    /// <summary>A step in plan.</summary>
    public DxfPlace Way(double x, double y) => new(EastByX * x + EastByY * y, NorthByX * x + NorthByY * y, 0);

    /// <summary>Sine and cosine, exact at quarter turns.</summary>
    public static (double Sin, double Cos) SinCos(double degrees) => Math.IEEERemainder(degrees, 360) switch
    {
        0 => (0, 1),
        90 => (1, 0),
        180 or -180 => (0, -1),
        -90 => (-1, 0),
        var rest => Math.SinCos(double.DegreesToRadians(rest)),
    };
}

/// <summary>Three numbers of a drawing, in its units.</summary>
internal readonly record struct DxfPlace(double X, double Y, double Z);
