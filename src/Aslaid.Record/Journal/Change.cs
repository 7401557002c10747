using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What a journal entry changes. Each kind has a stable name in <see cref="ChangeCodec"/>.</summary>
public abstract record Change;

/// <summary>The project was made.</summary>
/// <param name="Format">Version of the project format.</param>
/// <param name="Rules">Revision of the rules by which the record is derived.</param>
public sealed record ProjectMade(string Name, int Format, int Rules) : Change;

/// <summary>A file of shots was taken in.</summary>
/// <param name="FileSha256">Hash of the file's bytes.</param>
/// <param name="RowsSha256">Hash of the rows as taken, see <see cref="ShotHash"/>.</param>
public sealed record BatchTaken(
    int Batch, string FileName, string FileSha256, string RowsSha256, int Rows, string? Crew, DeclaredAccuracy Declared) : Change;

/// <summary>What kind of table was adopted.</summary>
public enum Adoptable : byte
{
    /// <summary>The code book.</summary>
    CodeBook,

    /// <summary>Control points.</summary>
    Control,

    /// <summary>Settings.</summary>
    Settings,

    /// <summary>The delivery table.</summary>
    Delivery,

    /// <summary>The section table.</summary>
    Sections,

    /// <summary>What words of designs stand for.</summary>
    DesignMap,

    /// <summary>How clear services must lie of each other.</summary>
    Separation,
}

/// <summary>A code book, control, settings or a delivery table hold from here on.</summary>
/// <param name="Sha256">Hash of the text's bytes as UTF-8.</param>
public sealed record Adopted(Adoptable Table, string FileName, string Sha256) : Change;

/// <summary>A design file holds from here on, instead of an earlier one of its name; what was built before was built to that.</summary>
/// <param name="Sha256">Hash of the file's bytes.</param>
/// <param name="Unit">Metres to a unit of its coordinates, where the file states none; else null.</param>
/// <param name="Surface">Which of its surfaces counts, or what its only one is called; null for all as they are called.</param>
/// <param name="SurfaceKind">What its surfaces are.</param>
/// <param name="SurfaceDate">Their date.</param>
/// <param name="SurfaceU">Standard uncertainty of their heights, metres; null where it is not stated.</param>
public sealed record DesignAdopted(string FileName, string Sha256, double? Unit, string? Surface, SurfaceKind SurfaceKind, DateOnly? SurfaceDate, double? SurfaceU) : Change;

/// <summary>A range of a line of the design is built: what of it is not measured is missing, not yet to come.</summary>
/// <param name="Line">Name of the line.</param>
/// <param name="From">Chainage along it, metres.</param>
/// <param name="To">Chainage along it, metres.</param>
public sealed record DesignBuilt(string Line, double From, double To) : Change;

/// <summary>The program's rules of this revision hold from here on.</summary>
public sealed record RulesAdopted(int Rules) : Change;

/// <summary>Shots get another code, and where given another run label (empty: none).</summary>
public sealed record Recoded(ImmutableArray<ShotKey> Shots, string Code, string? Run) : Change;

/// <summary>Shots are left out of everything derived; they stay on file.</summary>
public sealed record SetAside(ImmutableArray<ShotKey> Shots) : Change;

/// <summary>Shots set aside count again.</summary>
public sealed record Restored(ImmutableArray<ShotKey> Shots) : Change;

/// <summary>One word of a path: a shot, reached straight or lying on an arc.</summary>
public readonly record struct PathStep(ShotKey Shot, bool Through);

/// <summary>A run goes through just these shots.</summary>
/// <param name="Run">Key of the run.</param>
/// <param name="Code">Code, for a run that does not exist yet; else null.</param>
public sealed record PathSet(string Run, string? Code, ImmutableArray<PathStep> Steps) : Change;

/// <summary>An end of a run.</summary>
public enum RunEnd : byte
{
    /// <summary>Where it begins.</summary>
    Start,

    /// <summary>Where it ends.</summary>
    End,
}

/// <summary>An end of a run lies on another shot. Nothing is moved: the path goes to that shot.</summary>
/// <param name="Instead">The end shot of before is the same thing measured again and leaves the path; otherwise the path goes on from it.</param>
public sealed record EndTied(string Run, RunEnd End, ShotKey Onto, bool Instead) : Change;

/// <summary>The pole height was entered wrongly: heights change by entered minus true.</summary>
/// <param name="Entered">Metres.</param>
/// <param name="True">Metres.</param>
public sealed record PoleHeightCorrected(ImmutableArray<ShotKey> Shots, double Entered, double True) : Change;

/// <summary>An attribute of a run.</summary>
public sealed record AttributeSet(string Run, string Name, string Value) : Change;

/// <summary>A named person accepts a finding as it stands; it lapses when the evidence worsens.</summary>
/// <param name="Finding">Id of the finding.</param>
/// <param name="Check">Name of the check.</param>
/// <param name="Severity">How grave it was then.</param>
/// <param name="Measured">The evidence then; null where the check measures nothing.</param>
/// <param name="Allowed">The limit then.</param>
public sealed record FindingAccepted(string Finding, string Check, Severity Severity, double? Measured, double? Allowed) : Change;

/// <summary>A vertex as it was released: what must not move afterwards.</summary>
/// <param name="Chainage">Metres along the run.</param>
/// <param name="Height">Metres, null where missing.</param>
public readonly record struct ReleasedVertex(double Chainage, double East, double North, double? Height);

/// <summary>The position record of a length of a run is released. It is no permission to enter, backfill, load or energise.</summary>
/// <param name="From">Chainage, metres.</param>
/// <param name="To">Chainage, metres.</param>
/// <param name="InputsSha256">Hash of what the length rests on: shot keys, codes, legs, limits.</param>
/// <param name="Vertices">The values released.</param>
public sealed record LengthReleased(
    string Run, double From, double To, string InputsSha256, ImmutableArray<ReleasedVertex> Vertices) : Change;

/// <summary>A length of a run has been covered and can no longer be seen.</summary>
public sealed record LengthCovered(string Run, double From, double To) : Change;

/// <summary>A later export shows known shots with other values: the later rows stand in the place of the earlier, or the earlier are kept.</summary>
/// <param name="Shots">The later rows.</param>
/// <param name="Adopt">The later values hold from here on; else the earlier ones do.</param>
public sealed record ValuesDecided(ImmutableArray<ShotKey> Shots, bool Adopt) : Change;

/// <summary>Two runs are one thing: the shots of one belong to the other.</summary>
/// <param name="Run">Key of the run that ends to be one by itself.</param>
/// <param name="Into">Key of the run that it belongs to.</param>
public sealed record RunJoined(string Run, string Into) : Change;

/// <summary>What a label that comes again in a later batch means.</summary>
public enum LabelAgain : byte
{
    /// <summary>The run goes on.</summary>
    Continues,

    /// <summary>It was laid anew: the earlier run no longer stands.</summary>
    Supersedes,

    /// <summary>A stretch was measured anew: the later shots take its place.</summary>
    Replaces,

    /// <summary>It was measured again to check; the run stays as it is.</summary>
    Checks,
}

/// <summary>What the shots of a run that came in a later batch mean.</summary>
public sealed record LabelDecided(string Run, int Batch, LabelAgain As) : Change;

/// <summary>From a shot on, a run is another one; both share the shot, which is their fitting.</summary>
/// <param name="Label">Label of the part that begins at the shot.</param>
public sealed record RunSplit(string Run, ShotKey At, string Label) : Change;

/// <summary>A point computed from shots, since nobody could stand on it.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Code">Its code.</param>
/// <param name="Run">Label of the run whose next shot it is, or null for a point by itself; a path may name it as well.</param>
public sealed record PointConstructed(string Id, string Code, string? Run, Construction How) : Change;

/// <summary>A pipe or duct that enters a node. What is null is not known.</summary>
/// <param name="Node">The node's shot.</param>
/// <param name="Name">Name of the connection within the node.</param>
/// <param name="Invert">Height of its invert, metres.</param>
/// <param name="Size">Inside diameter, metres.</param>
/// <param name="Clock">Direction by the clock with 12 towards grid north, hours in [0, 12).</param>
/// <param name="Run">Key of the run that ends there.</param>
/// <param name="End">Which of its ends.</param>
public sealed record ConnectionSet(ShotKey Node, string Name, double? Invert, double? Size, double? Clock, string? Run, RunEnd? End) : Change;

/// <summary>An end of a run belongs to a node. Nothing is moved and the path stays.</summary>
public sealed record NodeTied(string Run, RunEnd End, ShotKey Node) : Change;

/// <summary>A closed run within an area is its hole, or is not.</summary>
public sealed record HoleDecided(string Run, string In, bool IsHole) : Change;

/// <summary>How two runs stand to each other.</summary>
public enum RunRelation : byte
{
    /// <summary>The one lies in the other, as a cable in a duct.</summary>
    In,

    /// <summary>Both belong to one bank and may touch.</summary>
    Bank,
}

/// <summary>Two runs lie one in the other, or in one bank.</summary>
public sealed record RelationSet(string Run, RunRelation Relation, string Of) : Change;

/// <summary>A person has a role from here on; an empty role takes all roles away.</summary>
public sealed record RoleGiven(string Person, string Role) : Change;

/// <summary>What was measured up to a journal position is claimed for a period.</summary>
/// <param name="Period">Name of the period.</param>
/// <param name="Upto">Journal position up to which the record is claimed.</param>
public sealed record ClaimMade(string Period, int Upto) : Change;

/// <summary>An earlier entry no longer holds. A withdrawal may itself be withdrawn.</summary>
public sealed record Withdrawn(int Position) : Change;
