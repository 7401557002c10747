using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A point of known position.</summary>
/// <param name="Id">Its id, as a check shot names it.</param>
/// <param name="At">Metres, site grid.</param>
/// <param name="Height">Metres; null where unknown.</param>
/// <param name="UPlan">Metres, 1 sigma, radial; null where not stated.</param>
/// <param name="UHeight">Metres, 1 sigma; null where not stated.</param>
public sealed record ControlPoint(string Id, Point2 At, double? Height, double? UPlan, double? UHeight);
