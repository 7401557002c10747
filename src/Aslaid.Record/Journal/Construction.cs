using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>How a point is computed from shots.</summary>
public enum ConstructionKind : byte
{
    /// <summary>Straight above or below one shot: reading 0 is metres up, below negative.</summary>
    Tape,

    /// <summary>From the first of two shots towards the second: readings are metres along, right and up.</summary>
    Offset,

    /// <summary>At two distances in plan, metres, from two shots, on the side that <see cref="Construction.Side"/> says, at the mean of their heights.</summary>
    TwoDistances,

    /// <summary>Where the line of the first two shots meets that of the last two, at the height of the first line.</summary>
    LineWithLine,

    /// <summary>From one shot by a grid bearing, radians, and a distance in plan, metres, then metres up.</summary>
    BearingAndDistance,

    /// <summary>First tangent point of straight, arc and straight fitted tangentially; <see cref="Construction.Parts"/> says which shots are which.</summary>
    TangentStart,

    /// <summary>The middle of that arc.</summary>
    TangentMiddle,

    /// <summary>Its second tangent point.</summary>
    TangentEnd,
}

/// <summary>A reading of tape, bearing or level, in metres or radians.</summary>
/// <param name="U">Its standard uncertainty, same unit.</param>
public readonly record struct Reading(double Value, double U);

/// <summary>A computation of a point from shots.</summary>
/// <param name="Parents">The shots, in the order that the kind asks for; constructed points among them are named 0:position.</param>
/// <param name="Readings">The readings, as the kind asks for.</param>
/// <param name="Side">Right is +1, left −1, seen from the first parent to the second; 0 where there is no choice.</param>
/// <param name="Parts">For a tangential fit, how many parents lie on the first straight, the arc and the second straight; else empty.</param>
public sealed record Construction(
    ConstructionKind Kind, ImmutableArray<ShotKey> Parents, ImmutableArray<Reading> Readings, int Side, ImmutableArray<int> Parts);
