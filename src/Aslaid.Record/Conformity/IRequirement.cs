namespace Aslaid.Record;

/// <summary>
/// One thing that a code asks of what was built or of its record. A requirement is one file in <c>Conformity/Requirements</c> and
/// one line in <see cref="RequirementCatalogue"/>. It keeps no state.
/// </summary>
public interface IRequirement
{
    /// <summary>Stable name in kebab-case.</summary>
    string Name { get; }

    /// <summary>What it asks, in a few words.</summary>
    string Title { get; }

    /// <summary>Unit of value, uncertainty and limits: <c>m</c>, <c>deg</c>, <c>1</c> …</summary>
    string Unit { get; }

    /// <summary>Judges all of the site to which it applies, in order of runs, then of points.</summary>
    void Judge(Site site, ICollection<Judged> into);
}
