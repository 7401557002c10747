using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>What the check shots of one session on one control point say together: they share that point's error and are averaged.</summary>
/// <param name="Point">Place of the point in the control list.</param>
/// <param name="At">Where it is known to be, metres.</param>
/// <param name="Plan">Mean misfit, metres, shot minus known.</param>
/// <param name="PlanVariance">Per axis, m², the point's own with it; NaN where accuracy is not known.</param>
/// <param name="Height">Mean misfit in height, metres; NaN where none is known.</param>
/// <param name="HeightVariance">m².</param>
internal readonly record struct PointMisfit(int Point, Point2 At, Step Plan, double PlanVariance, double Height, double HeightVariance);
