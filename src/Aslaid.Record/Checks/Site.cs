using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>What a check sees: shots as they now stand, runs, control, settings, and searches that checks share.</summary>
public sealed class Site
{
    private readonly Lazy<BoxIndex> shotIndex;
    private readonly Lazy<int[]> shotRows;
    private readonly Lazy<BoxIndex> pieceIndex;
    private readonly Lazy<int[]> areaRuns;
    private readonly Lazy<BoxIndex> areaIndex;
    private readonly Lazy<Membership> membership;
    private readonly Lazy<SessionRuns> sessionRuns;
    private readonly Lazy<RunBreaks> runBreaks;
    private readonly Lazy<LateStretches> lateStretches;
    private readonly Lazy<BatchPlaces> batchPlaces;
    private readonly Lazy<CodeMembers> codeMembers;
    private readonly Lazy<ChordCurves> chordCurves;
    private readonly Lazy<SessionChecks> sessionChecks;
    private readonly Lazy<SessionSimilarities> similarities;

    internal Site(
        CurrentShots shots, RunTable runs, ImmutableArray<int> points, ImmutableArray<CheckShot> checkShots, ImmutableArray<JournalEntry> inForce, RecordInputs inputs)
    {
        (Shots, Runs, Points, CheckShots, Coverings) = (shots, runs, points, checkShots, Covering.Of(runs, inForce));
        Intakes = inForce.Where(entry => entry.What is BatchTaken).ToDictionary(entry => ((BatchTaken)entry.What).Batch, entry => entry.Position);
        Shaped = inForce.Select(entry => entry.What switch { LabelDecided said => (said.Run, said.Batch), PathSet set => (set.Run, 0), _ => default }).Where(said => said.Run is not null).ToHashSet();
        (Control, Settings, Delivery, Sections) = (inputs.Control, inputs.Settings, inputs.Delivery, inputs.Sections);
        Built = inForce.Select(entry => entry.What).OfType<DesignBuilt>().ToLookup(built => built.Line, StringComparer.Ordinal);
        shotRows = new(UsedShots);
        shotIndex = new(IndexShots);
        pieceIndex = new(IndexPieces);
        areaRuns = new(() => [.. Enumerable.Range(0, runs.Count).Where(run => runs[run] is { Area: not null, Entry.Kind: CodeKind.Area })]);
        areaIndex = new(() => BoxIndex.Of([.. areaRuns.Value.Select(run => runs[run].Box)]));
        membership = new(() => new(runs));
        sessionRuns = new(() => new(runs));
        runBreaks = new(() => RunBreaks.Of(this));
        lateStretches = new(() => new(this));
        batchPlaces = new(() => new(this));
        codeMembers = new(() => new(this));
        chordCurves = new(() => new(this));
        sessionChecks = new(() => new(this));
        similarities = new(() => new(this));
        (Design, Separation) = (DesignTable.Of(inputs), inputs.Separation);
        match = new(() => new(this, OneWorker.Instance));
        coverage = new(() => new(this));
        clearances = new(() => new(this));
        designCuts = new(() => new(this));
    }

    private Lazy<DesignMatch> match;
    private readonly Lazy<DesignCoverage> coverage;
    private readonly Lazy<Clearances> clearances;
    private readonly Lazy<DesignCuts> designCuts;

    /// <summary>The design in force.</summary>
    public DesignTable Design { get; }

    /// <summary>How clear services must lie of each other.</summary>
    public SeparationTable Separation { get; }

    /// <summary>Where runs and points lie on the design.</summary>
    public DesignMatch Match => match.Value;

    /// <summary>What of the design is measured.</summary>
    public DesignCoverage Coverage => coverage.Value;

    internal DesignCuts DesignCuts => designCuts.Value;

    /// <summary>Clear distances between services.</summary>
    public Clearances Clearances => clearances.Value;

    /// <summary>Ranges of lines of the design that somebody said are built, by the line's name.</summary>
    internal ILookup<string, DesignBuilt> Built { get; }

    /// <summary>Matches with all hands.</summary>
    internal void MatchDesign(IWorkers workers)
    {
        var made = new DesignMatch(this, workers);
        match = new(made);
    }

    /// <summary>Shots as they now stand.</summary>
    public CurrentShots Shots { get; }

    /// <summary>Runs.</summary>
    public RunTable Runs { get; }

    /// <summary>What was measured as a run and no longer counts.</summary>
    public required FormerRuns Former { get; init; }

    /// <summary>Chambers, fittings and joints with what enters them.</summary>
    public NodeTable Nodes { get; internal set; } = new();

    /// <summary>Holes of areas.</summary>
    public HoleTable Holes { get; internal set; } = new();

    /// <summary>Runs that lie in others, and banks.</summary>
    public RelationTable Relations { get; internal set; } = new();

    /// <summary>Numbers of the closed runs of area codes.</summary>
    internal int[] AreaRuns => areaRuns.Value;

    /// <summary>Searches among <see cref="AreaRuns"/> by their boxes.</summary>
    internal BoxIndex AreaIndex => areaIndex.Value;

    /// <summary>Rows of shots that are points by themselves, control left out.</summary>
    public ImmutableArray<int> Points { get; }

    /// <summary>Known points.</summary>
    public ImmutableArray<ControlPoint> Control { get; }

    /// <summary>Shots on known points, in row order.</summary>
    public ImmutableArray<CheckShot> CheckShots { get; }

    /// <summary>Lengths that somebody said are covered, by run and then by the time when it was told.</summary>
    public ImmutableArray<Covering> Coverings { get; }

    /// <summary>What the client asks of attributes.</summary>
    public DeliveryTable Delivery { get; }

    /// <summary>Parts that lie beside what is shot.</summary>
    public SectionTable Sections { get; }

    /// <summary>Settings in force.</summary>
    public Settings Settings { get; }

    /// <summary>Rows of all shots that count, in order: the numbering of <see cref="ShotIndex"/>.</summary>
    public ReadOnlySpan<int> ShotRows => shotRows.Value;

    /// <summary>Searches among <see cref="ShotRows"/> by plan position.</summary>
    public BoxIndex ShotIndex => shotIndex.Value;

    /// <summary>Searches among all pieces of all runs by their boxes; numbers are those of <see cref="Piece.Number"/>.</summary>
    public BoxIndex PieceIndex => pieceIndex.Value;

    internal Membership Membership => membership.Value;

    internal SessionRuns SessionRuns => sessionRuns.Value;

    internal RunBreaks RunBreaks => runBreaks.Value;

    internal LateStretches LateStretches => lateStretches.Value;

    /// <summary>Journal position at which a batch was taken in, by its number.</summary>
    internal IReadOnlyDictionary<int, int> Intakes { get; }

    /// <summary>Runs and batches about which somebody decided what the label means there; batch 0 where somebody set the whole path.</summary>
    internal IReadOnlySet<(string Run, int Batch)> Shaped { get; }

    internal BatchPlaces BatchPlaces => batchPlaces.Value;

    internal CodeMembers CodeMembers => codeMembers.Value;

    internal ChordCurves ChordCurves => chordCurves.Value;

    internal SessionChecks SessionChecks => sessionChecks.Value;

    internal SessionSimilarities Similarities => similarities.Value;

    /// <summary>Makes what most checks ask for before they all wait for it.</summary>
    internal void Prepare(IWorkers workers) => workers.Do(2, part =>
    {
        if (part == 0) _ = (shotIndex.Value, batchPlaces.Value, sessionChecks.Value);
        else _ = (membership.Value, pieceIndex.Value, runBreaks.Value, lateStretches.Value, chordCurves.Value);
    });

    /// <summary>The piece of a number.</summary>
    public Piece PieceAt(int number)
    {
        var firsts = Runs.FirstPieces.AsSpan(0, Runs.Count + 1);
        var at = firsts.BinarySearch(number);
        if (at < 0) at = ~at - 1;
        while (at + 1 < Runs.Count && firsts[at + 1] <= number) at++; // runs without pieces share a start
        return new(Runs[at], number);
    }

    private int[] UsedShots()
    {
        var rows = new List<int>(Shots.Count);
        for (var row = 0; row < Shots.Count; row++)
            if (Shots.IsShot(row) && Shots.Used[row]) rows.Add(row);
        return [.. rows];
    }

    private BoxIndex IndexShots()
    {
        var rows = shotRows.Value;
        var boxes = new Box2[rows.Length];
        for (var i = 0; i < rows.Length; i++) boxes[i] = Box2.Of(Shots.At(rows[i]), Shots.At(rows[i]));
        return BoxIndex.Of(boxes);
    }

    private BoxIndex IndexPieces()
    {
        var boxes = new Box2[Runs.PieceCount];
        for (var run = 0; run < Runs.Count; run++)
        {
            for (var piece = 0; piece < Runs[run].PieceCount; piece++)
            {
                var p = Runs[run].Piece(piece);
                boxes[p.Number] = p.Kind == PieceKind.Arc ? p.Arc.Box : p.Straight.Box;
            }
        }

        return BoxIndex.Of(boxes);
    }
}
