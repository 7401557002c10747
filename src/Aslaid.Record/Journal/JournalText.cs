using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Journal entries as a person reads them.</summary>
public static class JournalText
{
    /// <summary>What an entry did, in a few words.</summary>
    public static string Of(JournalEntry entry) => FormattableString.Invariant(entry.What switch
    {
        ProjectMade c => (FormattableString)$"made the project {c.Name} (format {c.Format}, rules {c.Rules})",
        BatchTaken c => $"took in {c.FileName} as batch {c.Batch}, {c.Rows} rows{(c.Crew is null ? "" : $" of crew {c.Crew}")}",
        Adopted c => $"adopted {c.Table switch { Adoptable.CodeBook => "the code book", Adoptable.Control => "control", Adoptable.Delivery => "the delivery table", Adoptable.Sections => "the section table", Adoptable.DesignMap => "the design map", Adoptable.Separation => "the separation table", _ => "settings" }} {c.FileName}",
        DesignAdopted c => $"adopted the design {c.FileName}{(c.Surface is null ? "" : $", surface {c.Surface}")}{(c.SurfaceKind == SurfaceKind.Designed ? "" : $", {EnumWords.Of(c.SurfaceKind)}")}",
        DesignBuilt c => $"said that {c.Line} of the design is built from {c.From:0.00} to {c.To:0.00} m",
        RulesAdopted c => $"adopted rules {c.Rules}",
        Recoded c => $"recoded {Shots(c.Shots)} to {c.Code}{(c.Run is null ? "" : $", run {c.Run}")}",
        SetAside c => $"set aside {Shots(c.Shots)}",
        Restored c => $"restored {Shots(c.Shots)}",
        PathSet c => $"set the path of {c.Run}: {string.Join(' ', c.Steps.Select(step => (step.Through ? "~" : "") + step.Shot))}",
        EndTied c => $"tied the {(c.End == RunEnd.Start ? "start" : "end")} of {c.Run} onto {c.Onto}{(c.Instead ? " instead of its own shot" : "")}",
        PoleHeightCorrected c => $"corrected the pole height of {Shots(c.Shots)} from {c.Entered:0.000} to {c.True:0.000} m",
        AttributeSet c => $"set {c.Name} of {c.Run} to {c.Value}",
        FindingAccepted c => $"accepted finding {c.Finding} ({c.Check})",
        LengthReleased c => $"released the position record of {c.Run} from {c.From:0.00} to {c.To:0.00} m",
        LengthCovered c => $"said that {c.Run} is covered from {c.From:0.00} to {c.To:0.00} m",
        ValuesDecided c => $"{(c.Adopt ? "adopted the later values of" : "kept the earlier values instead of")} {Shots(c.Shots)}",
        RunJoined c => $"joined {c.Run} into {c.Into}",
        LabelDecided c => $"said that what batch {c.Batch} brings of {c.Run} {EnumWords.Of(c.As)}{(c.As == LabelAgain.Continues ? "" : " it")}",
        RunSplit c => $"split {c.Run} at shot {c.At}: from there on it is {c.Label}",
        PointConstructed c => $"constructed {c.Id} as {c.Code}{(string.IsNullOrEmpty(c.Run) ? "" : $", run {c.Run}")}, by {EnumWords.Of(c.How.Kind)} from {Shots(c.How.Parents)}",
        ConnectionSet c => $"said that connection {c.Name} enters the node at shot {c.Node}",
        NodeTied c => $"tied the {EnumWords.Of(c.End)} of {c.Run} to the node at shot {c.Node}",
        HoleDecided c => $"said that {c.Run} is {(c.IsHole ? "a hole" : "no hole")} in {c.In}",
        RelationSet c => $"said that {c.Run} lies {(c.Relation == RunRelation.In ? "in" : "in one bank with")} {c.Of}",
        RoleGiven c => c.Role.Length == 0 ? $"took all roles from {c.Person}" : (FormattableString)$"gave {c.Person} the role {c.Role}",
        ClaimMade c => $"claimed period {c.Period} up to entry {c.Upto}",
        Withdrawn c => $"withdrew entry {c.Position}",
        _ => $"{entry.What.GetType().Name}",
    });

    private static string Shots(ImmutableArray<ShotKey> shots) => shots.Length switch
    {
        1 => $"shot {shots[0]}",
        <= 4 => "shots " + string.Join(", ", shots),
        _ => string.Create(CultureInfo.InvariantCulture, $"{shots.Length} shots from {shots[0]} to {shots[^1]}"),
    };
}
