using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>How a length of a run stands.</summary>
public enum HoldState : byte
{
    /// <summary>Measured; nothing holds it, nobody released it.</summary>
    Open,

    /// <summary>At least one finding keeps it closed.</summary>
    Held,

    /// <summary>Its position record was released, and still stands as released.</summary>
    Complete,

    /// <summary>It has been covered; where findings hold it still, it was covered unproven.</summary>
    Covered,
}

/// <summary>A length of a run in one state.</summary>
/// <param name="Run">Number of the run.</param>
/// <param name="From">Chainage, metres.</param>
/// <param name="To">Chainage, metres.</param>
/// <param name="By">Numbers of the findings that hold it.</param>
/// <param name="Lapsed">Positions of releases that no longer stand.</param>
/// <param name="Entry">Journal position of the release or of the covering; 0 for none.</param>
public sealed record Hold(
    int Run, double From, double To, HoldState State, ImmutableArray<int> By, ImmutableArray<int> Lapsed, int Entry);
