namespace Aslaid.Exchange;

/// <summary>One vertex of a curve as it is written to well-known binary.</summary>
/// <param name="East">Metres in the grid of the geometry.</param>
/// <param name="North">Metres in the grid of the geometry.</param>
/// <param name="Height">Metres; not looked at (and NaN allowed) when the geometry is written without heights.</param>
/// <param name="Measure">In the unit the caller gives it, as a rule chainage in metres; not looked at when the geometry is
/// written without measures.</param>
/// <param name="OnArc">True for the middle control point of an arc: the vertices before and after it are the arc's ends.
/// An arc whose ends coincide is a full circle, and its middle point lies opposite.</param>
public readonly record struct CurveVertex(double East, double North, double Height, double Measure, bool OnArc);

/// <summary>What a geometry carries besides east and north. ISO 13249-3 adds 1000 for Z and 2000 for M to the kind.</summary>
[Flags]
public enum CurveDimensions
{
    /// <summary>East and north only.</summary>
    Plane = 0,

    /// <summary>Z: a height at every vertex.</summary>
    Height = 1,

    /// <summary>M: a measure at every vertex.</summary>
    Measure = 2,

    /// <summary>ZM: both.</summary>
    HeightAndMeasure = Height | Measure,
}

/// <summary>The kinds of geometry written and read here; the values are the ISO 13249-3 codes of the plane form.</summary>
public enum CurveKind
{
    /// <summary>No geometry.</summary>
    None = 0,

    /// <summary>One vertex.</summary>
    Point = 1,

    /// <summary>Straight pieces only.</summary>
    LineString = 2,

    /// <summary>Rings of straight pieces only.</summary>
    Polygon = 3,

    /// <summary>Arcs only, each sharing its end with the next.</summary>
    CircularString = 8,

    /// <summary>Straight pieces and arcs in any order, each starting where the one before ends.</summary>
    CompoundCurve = 9,

    /// <summary>Rings of straight pieces and arcs; the first is the outer one.</summary>
    CurvePolygon = 10,
}
