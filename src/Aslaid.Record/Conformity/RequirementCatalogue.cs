using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>All requirements, in the order in which they are shown.</summary>
public static class RequirementCatalogue
{
    /// <summary>One line a requirement.</summary>
    public static ImmutableArray<IRequirement> All { get; } =
    [
        new PlanAccuracy(),
        new HeightAccuracy(),
        new RadiusInRange(),
        new BreakOfTangents(),
        new FallOfLeg(),
        new OffsetFromDesign(),
        new DepartureFromDesign(),
        new HeightFromDesign(),
        new CoverOfRun(),
        new ClearOfOthers(),
    ];
}
