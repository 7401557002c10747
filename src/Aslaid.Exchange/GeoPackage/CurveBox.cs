namespace Aslaid.Exchange;

/// <summary>The least box, along the grid's axes, around a geometry: its arcs included, not only their control points.</summary>
/// <param name="MinEast">Metres.</param>
/// <param name="MaxEast">Metres.</param>
/// <param name="MinNorth">Metres.</param>
/// <param name="MaxNorth">Metres.</param>
/// <param name="MinHeight">Metres; NaN where no vertex has a height.</param>
/// <param name="MaxHeight">Metres; NaN where no vertex has a height.</param>
public readonly record struct CurveBox(double MinEast, double MaxEast, double MinNorth, double MaxNorth, double MinHeight, double MaxHeight)
{
    /// <summary>A box around nothing: any box joined to it stays as it is.</summary>
    public static CurveBox Empty { get; } = new(double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NaN, double.NaN);

    /// <summary>True for a box around nothing.</summary>
    public bool IsEmpty => !(MinEast <= MaxEast && MinNorth <= MaxNorth);

    /// <summary>True when both heights are known.</summary>
    public bool HasHeight => MinHeight <= MaxHeight;

    /// <summary>The box around all vertices and the bulge of every arc; rings may follow one another.</summary>
    /// <remarks>An arc reaches beyond its control points only at the outermost points of its circle that it passes. Heights run linearly
    /// between control points and never reach beyond. Accurate to about 2e-9 m, the step of a
    /// double at 6 000 000 m and twice that, against the circle through the points as stored, for radii to 10 km. Three points on a line have no bulge.</remarks>
    public static CurveBox Of(ReadOnlySpan<CurveVertex> vertices)
    {
        double minEast = double.PositiveInfinity, maxEast = double.NegativeInfinity;
        double minNorth = double.PositiveInfinity, maxNorth = double.NegativeInfinity;
        double minHeight = double.NaN, maxHeight = double.NaN;
        for (var i = 0; i < vertices.Length; i++)
        {
            ref readonly var vertex = ref vertices[i];
            minEast = Math.Min(minEast, vertex.East);
            maxEast = Math.Max(maxEast, vertex.East);
            minNorth = Math.Min(minNorth, vertex.North);
            maxNorth = Math.Max(maxNorth, vertex.North);
            if (!(vertex.Height >= minHeight)) minHeight = double.IsNaN(vertex.Height) ? minHeight : vertex.Height;
            if (!(vertex.Height <= maxHeight)) maxHeight = double.IsNaN(vertex.Height) ? maxHeight : vertex.Height;
            if (vertex.OnArc && i > 0 && i + 1 < vertices.Length)
                Bulge(vertices[i - 1], vertex, vertices[i + 1], ref minEast, ref maxEast, ref minNorth, ref maxNorth);
        }
        return new(minEast, maxEast, minNorth, maxNorth, minHeight, maxHeight);
    }

    /// <summary>The box around both.</summary>
    public CurveBox Join(in CurveBox other) => new(
        Math.Min(MinEast, other.MinEast), Math.Max(MaxEast, other.MaxEast),
        Math.Min(MinNorth, other.MinNorth), Math.Max(MaxNorth, other.MaxNorth),
        double.MinNumber(MinHeight, other.MinHeight), double.MaxNumber(MaxHeight, other.MaxHeight));

    private static void Bulge(in CurveVertex a, in CurveVertex b, in CurveVertex c, ref double minEast, ref double maxEast, ref double minNorth, ref double maxNorth)
    {
        // About the middle point, so that no product meets a coordinate of millions of metres.
        double ae = a.East - b.East, an = a.North - b.North, ce = c.East - b.East, cn = c.North - b.North;
        var isCircle = ae == ce && an == cn;
        double east, north; // of the centre
        if (isCircle)
        {
            (east, north) = (ae / 2, an / 2);
        }
        else
        {
            var twice = 2 * (ae * cn - an * ce);
            double aa = ae * ae + an * an, cc = ce * ce + cn * cn;
            (east, north) = ((aa * cn - cc * an) / twice, (cc * ae - aa * ce) / twice);
        }
        var radius = Math.Sqrt(east * east + north * north);
        if (!double.IsFinite(radius)) return; // on one line

        // The chord parts the circle; the arc is the side on which the middle point, here the origin, lies.
        double chordEast = ce - ae, chordNorth = cn - an;
        var middleSide = chordEast * -an - chordNorth * -ae;
        if (OnArc(radius, 0)) maxEast = Math.Max(maxEast, b.East + (east + radius));
        if (OnArc(-radius, 0)) minEast = Math.Min(minEast, b.East + (east - radius));
        if (OnArc(0, radius)) maxNorth = Math.Max(maxNorth, b.North + (north + radius));
        if (OnArc(0, -radius)) minNorth = Math.Min(minNorth, b.North + (north - radius));

        bool OnArc(double toEast, double toNorth) =>
            isCircle || (chordEast * (north + toNorth - an) - chordNorth * (east + toEast - ae)) * middleSide > 0;
    }
}
