namespace Aslaid.Geometry;

/// <summary>Angle functions whose plain form loses digits at small angles.</summary>
internal static class Angles
{
    /// <summary>θ − sin θ. Below 0.25 rad by its series, where the difference would lose up to all digits; relative error under 1e-14 throughout.</summary>
    internal static double LessItsSine(double angle)
    {
        if (Math.Abs(angle) >= 0.25) return angle - Math.Sin(angle);
        var s = angle * angle;
        return angle * s / 6 * (1 - s / 20 * (1 - s / 42 * (1 - s / 72 * (1 - s / 110 * (1 - s / 156)))));
    }
}
