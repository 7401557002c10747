using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>All that a record is derived from. Nothing else is read.</summary>
/// <param name="Journal">Entries up to the position asked for; the shots are those of the batches taken by then.</param>
public sealed record RecordInputs(
    ShotTable Shots, ImmutableArray<JournalEntry> Journal, CodeBook Codes, ImmutableArray<ControlPoint> Control, Settings Settings)
{
    /// <summary>What the client asks of attributes; empty where nothing is adopted.</summary>
    public DeliveryTable Delivery { get; init; } = DeliveryTable.Empty;

    /// <summary>Parts that lie beside what is shot; empty where nothing is adopted.</summary>
    public SectionTable Sections { get; init; } = SectionTable.Empty;

    /// <summary>Design files adopted, in the journal's order.</summary>
    public ImmutableArray<AdoptedDesign> Designs { get; init; } = [];

    /// <summary>What words of designs stand for.</summary>
    public DesignMap DesignMap { get; init; } = DesignMap.Empty;

    /// <summary>How clear services must lie of each other; the default where nothing is adopted.</summary>
    public SeparationTable Separation { get; init; } = SeparationTable.Default;
}
