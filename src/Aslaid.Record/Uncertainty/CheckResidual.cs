namespace Aslaid.Record;

/// <summary>One coordinate of a check shot on control.</summary>
/// <param name="Misfit">Metres, shot minus known.</param>
/// <param name="Stated">Variance as the instrument states it, m².</param>
/// <param name="Tip">Variance of the pole's tip, m².</param>
/// <param name="Known">Variance of the control point; NaN where it is not stated.</param>
/// <param name="IsGross">Whether it is off by a blunder, which says nothing of the instrument.</param>
internal readonly record struct CheckResidual(
    int Session, int Receiver, int Row, int Point, double Misfit, double Stated, double Tip, double Known, bool IsGross = false)
{
    /// <summary>Variance of the misfit, what the session has in common left out, m².</summary>
    public double Variance(double factor) => factor * factor * Stated + Tip + (double.IsNaN(Known) ? 0 : Known);
}
