using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>What a finding does to the length that it concerns.</summary>
public enum Severity : byte
{
    /// <summary>Good to know.</summary>
    Note,

    /// <summary>A person should look; it holds nothing.</summary>
    Look,

    /// <summary>Keeps the hold closed until it is cured or accepted.</summary>
    Stop,
}

/// <summary>Whether only another visit can cure a finding.</summary>
public enum Reshoot : byte
{
    /// <summary>Cured at a desk.</summary>
    None,

    /// <summary>Shoot again while the trench is open.</summary>
    Open,

    /// <summary>Shoot again at any time.</summary>
    Any,

    /// <summary>It can no longer be shot.</summary>
    TooLate,
}

/// <summary>How a finding stands.</summary>
public enum FindingState : byte
{
    /// <summary>Nobody has dealt with it.</summary>
    Standing,

    /// <summary>A named person accepted it with a reason.</summary>
    Accepted,

    /// <summary>It was accepted, and its evidence has worsened since.</summary>
    Lapsed,
}

/// <summary>Something that a check says about shots, runs or ranges of chainage. A handle on a row of the finding table.</summary>
public readonly record struct Finding(FindingTable Table, int Number)
{
    /// <summary>The check that found it.</summary>
    public ICheck Check => Table.Checks[Table.CheckOf[Number]];

    /// <summary>Stop, look or note.</summary>
    public Severity Severity => Table.Severities[Number];

    /// <summary>Rows of the shots concerned, those that matter most first.</summary>
    public ReadOnlySpan<int> Shots => Table.ShotList.AsSpan(Table.FirstShot[Number], Table.FirstShot[Number + 1] - Table.FirstShot[Number]);

    /// <summary>Number of the run concerned, or −1.</summary>
    public int RunNumber => Table.Runs[Number];

    /// <summary>The run concerned, or null.</summary>
    public Run? Run => RunNumber < 0 ? null : Table.RunTable[RunNumber];

    /// <summary>Chainage along the run at which it begins, metres; null where it concerns no range.</summary>
    public double? From => Known(Table.Froms[Number]);

    /// <summary>Chainage along the run at which it ends, metres.</summary>
    public double? To => Known(Table.Tos[Number]);

    /// <summary>Where it is, metres.</summary>
    public Point2 At => new(Table.AtEast[Number], Table.AtNorth[Number]);

    /// <summary>Height there, metres; null where unknown.</summary>
    public double? AtHeight => Known(Table.AtHeight[Number]);

    /// <summary>What was measured, in the check's unit; null where nothing is.</summary>
    public double? Measured => Known(Table.Measured[Number]);

    /// <summary>The limit, in the check's unit; null where there is none.</summary>
    public double? Allowed => Known(Table.Allowed[Number]);

    /// <summary>Further figures, as the check orders them.</summary>
    public ReadOnlySpan<double> Figures => Table.FigureList.AsSpan(Table.FirstFigure[Number], Table.FirstFigure[Number + 1] - Table.FirstFigure[Number]);

    /// <summary>A word that the check needs for its message (a code, a label); null where none.</summary>
    public string? Word => Table.WordsOf[Number];

    /// <summary>Stable name, as <c>F-3K7Q2M</c>: the same as long as check, shots and run are the same.</summary>
    public string Id => Table.Ids[Number];

    /// <summary>Standing, accepted or lapsed.</summary>
    public FindingState State => Table.States[Number];

    /// <summary>Journal position of the acceptance, or 0.</summary>
    public int AcceptedAt => Table.AcceptedAt[Number];

    /// <summary>The finding that leads it: the mistake of which it is a consequence; null where it leads itself.</summary>
    public Finding? Under => Table.Under[Number] < 0 ? null : Table[Table.Under[Number]];

    /// <summary>Its consequences, as found by other checks.</summary>
    public IEnumerable<Finding> Folded => Table.FoldedOf(Number);

    /// <summary>Whether it keeps a hold closed: a stop that nobody accepted.</summary>
    public bool Holds => Severity == Severity.Stop && State != FindingState.Accepted;

    /// <summary>What it says, with its numbers.</summary>
    public string Message => Check.Message(this);

    /// <summary>What cures it.</summary>
    public string Cure => Check.Cure(this);

    /// <summary>A ready correction, or null.</summary>
    public Change? Correction => Check.Correction(this);

    /// <summary>Whether another visit must cure it: while open only what gets buried, that is, codes which need proof.</summary>
    public Reshoot Reshoot => Check.ReshootFor(this) is var reshoot && reshoot == Reshoot.Open && !Check.HoldsSession && Entry is { NeedsProof: false } ? Reshoot.Any : reshoot;

    private CodeEntry? Entry => Run is { } run ? run.Entry : Shots.Length > 0 ? Table.RunTable.Shots.Entry(Shots[0]) : null;

    /// <summary>Ids of the shots concerned.</summary>
    public ImmutableArray<string> ShotIds
    {
        get
        {
            var ids = ImmutableArray.CreateBuilder<string>(Shots.Length);
            foreach (var shot in Shots) ids.Add(Table.RunTable.Shots.Raw.Id(shot));
            return ids.MoveToImmutable();
        }
    }

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}
