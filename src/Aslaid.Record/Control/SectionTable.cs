using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A part of a thing that lies at a fixed place beside its shots: the back of a kerb from its face, a duct of a bank.</summary>
/// <param name="Code">The code that is shot.</param>
/// <param name="Part">What the part is called.</param>
/// <param name="Right">Metres to the right of the run, left negative.</param>
/// <param name="Up">Metres up, below negative.</param>
/// <param name="PartCode">Code of the part.</param>
public sealed record SectionPart(string Code, string Part, double Right, double Up, string PartCode);

/// <summary>Parts of things by their sections.</summary>
/// <param name="Parts">In the table's order; banks written as rows and columns are one part a duct, strips one for each edge.</param>
public sealed record SectionTable(ImmutableArray<SectionPart> Parts)
{
    /// <summary>No sections.</summary>
    public static SectionTable Empty { get; } = new([]);
}
