using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>What may put positions right.</summary>
internal readonly record struct BatchCorrection(double Factor, bool Swaps)
{
    public static BatchCorrection None { get; } = new(1, false);

    /// <summary>The likeliest first.</summary>
    public static BatchCorrection[] All { get; } =
        [new(1, true), new(BatchPlaces.Foot, false), new(BatchPlaces.SurveyFoot, false), new(1 / BatchPlaces.Foot, false), new(1 / BatchPlaces.SurveyFoot, false), new(BatchPlaces.Foot, true), new(1 / BatchPlaces.Foot, true)];

    public Point2 Of(Point2 at) => Swaps ? new(Factor * at.North, Factor * at.East) : new(Factor * at.East, Factor * at.North);

    public BatchPlace Place(double off, double residual, int checks) =>
        new(Factor == 1 ? BatchFault.AxesSwapped : BatchFault.Unit, Factor, Swaps, false, off, residual, checks);
}
