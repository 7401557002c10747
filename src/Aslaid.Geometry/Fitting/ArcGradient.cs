namespace Aslaid.Geometry;

/// <summary>How the measures of an arc answer to a move of one control place: the derivative by its east (…E) and north (…N).</summary>
/// <param name="CentreEastE">Centre's east by east, m/m.</param>
/// <param name="CentreEastN">Centre's east by north, m/m.</param>
/// <param name="CentreNorthE">Centre's north by east, m/m.</param>
/// <param name="CentreNorthN">Centre's north by north, m/m.</param>
/// <param name="RadiusE">Radius by east, m/m.</param>
/// <param name="RadiusN">Radius by north, m/m.</param>
/// <param name="SweepE">Sweep by east, rad/m.</param>
/// <param name="SweepN">Sweep by north, rad/m.</param>
/// <param name="LengthE">Length in plan by east, m/m.</param>
/// <param name="LengthN">Length in plan by north, m/m.</param>
/// <param name="SegmentE">Segment area (left positive) by east, m²/m.</param>
/// <param name="SegmentN">Segment area by north, m²/m.</param>
public readonly record struct ArcGradient(
    double CentreEastE, double CentreEastN, double CentreNorthE, double CentreNorthN,
    double RadiusE, double RadiusN, double SweepE, double SweepN,
    double LengthE, double LengthN, double SegmentE, double SegmentN)
{
    /// <summary>Radius, sweep, length and segment, each by east and north, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"radius [{RadiusE:G6} {RadiusN:G6}], sweep [{SweepE:G6} {SweepN:G6}], length [{LengthE:G6} {LengthN:G6}], segment [{SegmentE:G6} {SegmentN:G6}]");
}
