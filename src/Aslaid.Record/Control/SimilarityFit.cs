using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// Plan similarity by weighted least squares: east = a·e − b·n + E₀, north = b·e + a·n + N₀ from places (e, n) to values. Of whole
/// coordinates a = scale·cos and b = scale·sin of the turn, left positive; of misfits on known places a is the scale less 1 and b
/// the turn, radians. EPSG 9621 turns the source axes instead: its sine has the other sign.
/// </summary>
internal sealed class SimilarityFit
{
    private readonly Point2 from;
    private readonly Step to;
    private readonly double weights;
    private readonly double spread;

    private SimilarityFit(Point2 from, Step to, double weights, double spread, double a, double b)
    {
        (this.from, this.to, this.weights, this.spread) = (from, to, weights, spread);
        (A, B) = (a, b);
    }

    /// <summary>Scale along the axes, less nothing: see the class.</summary>
    public double A { get; }

    /// <summary>Turn, left positive.</summary>
    public double B { get; }

    /// <summary>The weighted middle of the places.</summary>
    public Point2 Middle => from;

    /// <summary>Standard uncertainty of <see cref="A"/> and of <see cref="B"/>, where weights are one over the variance per axis.</summary>
    public double U => 1 / Math.Sqrt(spread);

    /// <summary>Standard uncertainty of the value at the grid's origin, per axis, likewise.</summary>
    public double UOrigin => Math.Sqrt(1 / weights + (from - default(Point2)).SizeSquared / spread);

    /// <summary>Weighted sum of the squares of the residuals, which follows χ² with <see cref="Freedom"/>.</summary>
    public double Squares { get; private set; }

    /// <summary>Twice the places less four.</summary>
    public int Freedom { get; private set; }

    /// <summary>What the fit gives at a place.</summary>
    public Step At(Point2 place)
    {
        var arm = place - from;
        return to + new Step(A * arm.East - B * arm.North, B * arm.East + A * arm.North);
    }

    /// <summary>The fit, or null where fewer than two places lie apart.</summary>
    /// <param name="places">Metres.</param>
    /// <param name="values">Metres, east and north: coordinates or misfits.</param>
    /// <param name="weights">One over the variance per axis.</param>
    public static SimilarityFit? Of(ReadOnlySpan<Point2> places, ReadOnlySpan<Step> values, ReadOnlySpan<double> weights)
    {
        if (places.Length < 2) return null;
        var (sum, middle, mean) = (0.0, default(Step), default(Step));
        for (var i = 0; i < places.Length; i++)
            (sum, middle, mean) = (sum + weights[i], middle + weights[i] * (places[i] - places[0]), mean + weights[i] * (values[i] - values[0]));
        var (from, to) = (places[0] + (1 / sum) * middle, values[0] + (1 / sum) * mean);
        var (along, across, spread) = (0.0, 0.0, 0.0);
        for (var i = 0; i < places.Length; i++)
        {
            var (arm, value) = (places[i] - from, values[i] - to);
            (along, across, spread) = (along + weights[i] * arm.Dot(value), across + weights[i] * arm.Cross(value), spread + weights[i] * arm.SizeSquared);
        }

        if (!(spread > 0)) return null;
        var fit = new SimilarityFit(from, to, sum, spread, along / spread, across / spread) { Freedom = 2 * places.Length - 4 };
        for (var i = 0; i < places.Length; i++) fit.Squares += weights[i] * (values[i] - fit.At(places[i])).SizeSquared;
        return fit;
    }
}
