using System.Collections.Immutable;

namespace Aslaid.Geometry;

/// <summary>A place a path goes by.</summary>
/// <param name="At">Plan, metres.</param>
/// <param name="Height">Metres; null where none was measured.</param>
/// <param name="Through">True where the place lies on an arc and is not its end.</param>
public readonly record struct PathVertex(Point2 At, double? Height, bool Through)
{
    /// <summary>Place, height and mark, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{(Through ? "through " : "")}{At} {Height:0.0000}");
}

/// <summary>What a piece of a path is.</summary>
public enum PieceKind : byte
{
    /// <summary>A straight between two vertices.</summary>
    Straight,

    /// <summary>A circular arc.</summary>
    Arc,
}

/// <summary>A stretch of a path with one shape.</summary>
/// <param name="Kind">Straight or arc.</param>
/// <param name="First">The vertex it starts at.</param>
/// <param name="Last">The vertex it ends at, after <paramref name="First"/>; those between are through-places of the arc.</param>
/// <param name="Arc">The arc; <c>default</c> for a straight.</param>
public readonly record struct PathPiece(PieceKind Kind, int First, int Last, Arc Arc)
{
    /// <summary>Kind and vertices, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Kind} {First} to {Last}");
}

/// <summary>A place of a path.</summary>
/// <param name="At">Plan, metres.</param>
/// <param name="Chainage">Metres from the path's start.</param>
/// <param name="Height">Metres; null where the path has none there.</param>
public readonly record struct PathPoint(Point2 At, double Chainage, double? Height)
{
    /// <summary>Chainage, place and height, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Chainage:0.0000} m: {At} {Height:0.0000}");
}

/// <summary>Where two paths meet.</summary>
/// <param name="At">Plan, metres.</param>
/// <param name="Here">Chainage on the path asked, metres.</param>
/// <param name="There">Chainage on the other, metres.</param>
public readonly record struct PathMeeting(Point2 At, double Here, double There)
{
    /// <summary>Place and both chainages, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{At} at {Here:0.0000} m and {There:0.0000} m");
}

/// <summary>Where two paths come nearest.</summary>
/// <param name="Distance">Metres in plan; 0 where they meet.</param>
/// <param name="AtHere">The place on the path asked.</param>
/// <param name="AtThere">The place on the other.</param>
/// <param name="Here">Chainage on the path asked, metres.</param>
/// <param name="There">Chainage on the other, metres.</param>
public readonly record struct PathNearness(double Distance, Point2 AtHere, Point2 AtThere, double Here, double There)
{
    /// <summary>Distance and both places, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Distance:0.0000} m from {AtHere} at {Here:0.0000} m to {AtThere} at {There:0.0000} m");
}

/// <summary>What was amiss with vertices a path was built from.</summary>
public enum PathFault : byte
{
    /// <summary>The through-places do not leave the straight by more than the flatness: no proof of an arc, straights instead.</summary>
    Straight,

    /// <summary>Neighbouring places are the same.</summary>
    Coincident,

    /// <summary>No best-fit arc was found: straights instead.</summary>
    NotConverged,

    /// <summary>The path starts or ends with a through-place, which counts as an ordinary one.</summary>
    ThroughAtEnd,
}

/// <summary>A fault met while building, and the vertices concerned.</summary>
/// <param name="Fault">What was amiss.</param>
/// <param name="First">First vertex concerned.</param>
/// <param name="Last">Last vertex concerned.</param>
public readonly record struct PathNote(PathFault Fault, int First, int Last)
{
    /// <summary>Fault and vertices, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Fault}, vertices {First} to {Last}");
}
