namespace Aslaid.Geometry;

/// <summary>Chords for arcs, in formats that know none.</summary>
public static class Chords
{
    /// <summary>The longest chord, metres, whose arc leaves it by no more than the sagitta: c = 2√(2Rs − s²).</summary>
    /// <param name="radius">Metres.</param>
    /// <param name="sagitta">Metres, above 0; from the radius up, the diameter is the answer.</param>
    /// <remarks>Pythagoras on half the chord: (c/2)² + (R − s)² = R².</remarks>
    public static double Limit(double radius, double sagitta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sagitta);
        return sagitta >= radius ? 2 * radius : 2 * Math.Sqrt(sagitta * (2 * radius - sagitta));
    }

    /// <summary>The fewest equal chords that leave an arc by no more than the sagitta; at least one.</summary>
    /// <param name="radius">Metres.</param>
    /// <param name="sweep">Radians, 0 or more.</param>
    /// <param name="sagitta">Metres, above 0.</param>
    /// <remarks>No chord spans over half a turn. sagitta = 2R sin²(α/4) for a chord spanning α.</remarks>
    public static int Count(double radius, double sweep, double sagitta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sagitta);
        if (!(radius > 0)) return 1;
        var span = 4 * Math.Asin(Math.Sqrt(Math.Min(sagitta / (2 * radius), 0.5))); // radians
        var count = Math.Ceiling(sweep / Math.Min(span, Math.PI));
        if (!(count <= int.MaxValue))
            throw new ArgumentOutOfRangeException(nameof(sagitta), sagitta, "So small a sagitta in metres needs more chords than can be counted.");
        return Math.Max(1, (int)count);
    }
}
