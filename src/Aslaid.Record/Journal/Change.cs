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
}

/// <summary>A code book, control, settings or a delivery table hold from here on.</summary>
/// <param name="Sha256">Hash of the text's bytes as UTF-8.</param>
public sealed record Adopted(Adoptable Table, string FileName, string Sha256) : Change;

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

/// <summary>An earlier entry no longer holds. A withdrawal may itself be withdrawn.</summary>
public sealed record Withdrawn(int Position) : Change;
