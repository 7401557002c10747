using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>
/// One thing that can be wrong with a record. A check is one file, one line in <see cref="CheckCatalogue"/> and one page in
/// <c>docs/checks</c>. It keeps no state: the same site gives the same findings.
/// </summary>
public interface ICheck
{
    /// <summary>Stable name in kebab-case.</summary>
    string Name { get; }

    /// <summary>What it looks for, in a few words.</summary>
    string Title { get; }

    /// <summary>Unit of measured and allowed: <c>m</c>, <c>deg</c>, <c>1</c> …; empty where nothing is measured.</summary>
    string Unit { get; }

    /// <summary>Looks at the site and writes what it finds.</summary>
    void Look(Site site, Findings found);

    /// <summary>What a finding says: thing, number, limit. Invariant culture.</summary>
    string Message(Finding finding);

    /// <summary>What cures it.</summary>
    string Cure(Finding finding);

    /// <summary>A ready correction, or null.</summary>
    Change? Correction(Finding finding) => null;

    /// <summary>Whether a stop of this check doubts the shots it names: then it holds every run that goes through them.</summary>
    bool DoubtsItsShots => false;

    /// <summary>Whether nobody may accept its findings about shots that he took in himself: cover, fall and separation.</summary>
    bool NeedsAnother => false;

    /// <summary>Whether a stop of this check speaks of whole sessions: then it holds every run with a shot of a session of the shots it names.</summary>
    bool HoldsSession => false;

    /// <summary>
    /// Names of checks whose findings may be consequences of what this one finds. Such a finding folds under this check's where both
    /// share a shot, lengths of one run that overlap, or, where this check speaks of a session, the session; see <see cref="Folding"/>.
    /// </summary>
    ImmutableArray<string> Explains => [];

    /// <summary>Whether one of its findings may be a consequence of another, which <see cref="Explains"/> this check and meets the finding.</summary>
    bool MayFoldUnder(Finding finding, Finding leader) => true;

    /// <summary>Whether another visit must cure it.</summary>
    Reshoot ReshootFor(Finding finding);
}
