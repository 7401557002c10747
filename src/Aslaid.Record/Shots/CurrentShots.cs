using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// The shots as the journal now leaves them: the raw table, and beside it what entries changed. Rows are those of the raw
/// table; ask for position and accuracy by the row of a shot, not of a row that uses it again (<see cref="ShotTable.Origin"/>).
/// </summary>
public sealed class CurrentShots
{
    private readonly double[] heights;

    internal double[] HeightColumn => heights;

    internal CurrentShots(
        ShotTable raw, CodeBook book, Words codes, int[] code, Words labels, int[] label, int[] place, bool[] used,
        double[] heights, int[] session, int sessionCount,
        Dictionary<int, List<int>> because)
    {
        (Raw, Book, Codes, Labels) = (raw, book, codes, labels);
        (CodeColumn, LabelColumn, PlaceColumn, UsedColumn) = (code, label, place, used);
        (this.heights, SigmaPlanColumn, SigmaHeightColumn) = (heights, new double[raw.Count], new double[raw.Count]);
        (SessionColumn, SessionCount, Because) = (session, sessionCount, because);
    }

    /// <summary>As measured.</summary>
    public ShotTable Raw { get; }

    /// <summary>The code book in force.</summary>
    public CodeBook Book { get; }

    /// <summary>Codes as measured and as recoded.</summary>
    public Words Codes { get; }

    /// <summary>Labels as measured and as recoded.</summary>
    public Words Labels { get; }

    internal int[] CodeColumn { get; }

    internal int[] LabelColumn { get; }

    internal int[] PlaceColumn { get; }

    internal bool[] UsedColumn { get; }

    internal int[] SessionColumn { get; }

    internal double[] SigmaPlanColumn { get; }

    internal double[] SigmaHeightColumn { get; }

    internal int[] ReceiverColumn { get; set; } = [];

    /// <summary>How check shots scatter in plan, by instrument and axis.</summary>
    internal CheckScatter[][] PlanScatter { get; set; } = [];

    /// <summary>The same in height.</summary>
    internal CheckScatter[][] HeightScatter { get; set; } = [];

    private Dictionary<int, List<int>> Because { get; }

    /// <summary>Shots that a later batch brought again with other values.</summary>
    public ShotVersions Versions { get; internal init; } = ShotVersions.None;

    /// <summary>Rows.</summary>
    public int Count => Raw.Count;

    /// <summary>How many sessions.</summary>
    public int SessionCount { get; }

    /// <summary>Code of each row now, as a number of <see cref="Codes"/>.</summary>
    public ReadOnlySpan<int> Code => CodeColumn;

    /// <summary>Run label of each row now, as a number of <see cref="Labels"/>.</summary>
    public ReadOnlySpan<int> Label => LabelColumn;

    /// <summary>Place of each row's code in the code book, or −1.</summary>
    public ReadOnlySpan<int> Place => PlaceColumn;

    /// <summary>Which rows count: not set aside.</summary>
    public ReadOnlySpan<bool> Used => UsedColumn;

    /// <summary>Session of each row, from 0 in order of appearance.</summary>
    public ReadOnlySpan<int> Session => SessionColumn;

    /// <summary>Height of each shot now, metres; NaN where missing.</summary>
    public ReadOnlySpan<double> Heights => heights;

    /// <summary>
    /// Standard uncertainty per plan axis of what is a shot's own (stated accuracy with its factor, and the pole's tip), metres; a
    /// radial value divided by √2. NaN where neither stated nor declared.
    /// </summary>
    public ReadOnlySpan<double> SigmaPlan => SigmaPlanColumn;

    /// <summary>The same of height, metres; NaN where neither stated nor declared.</summary>
    public ReadOnlySpan<double> SigmaHeight => SigmaHeightColumn;

    /// <summary>What the shots of each session have in common, by session.</summary>
    public ImmutableArray<SessionAccuracy> Sessions { get; internal set; } = [];

    /// <summary>The instruments, and what check shots say of the accuracy that they state.</summary>
    public ImmutableArray<ReceiverAccuracy> Receivers { get; internal set; } = [];

    /// <summary>Number of the instrument of each row.</summary>
    public ReadOnlySpan<int> Receiver => ReceiverColumn;

    /// <summary>How well a shot's place is known on the grid: standard uncertainty per plan axis with what its session has in common, metres; NaN where not known.</summary>
    public double PlaceSigma(int row) => Both(SigmaPlanColumn[row], Sessions[SessionColumn[row]].UPlan);

    /// <summary>How well a shot's level is known: standard uncertainty of height with what its session has in common, metres; NaN where not known.</summary>
    public double LevelSigma(int row) => Both(SigmaHeightColumn[row], Sessions[SessionColumn[row]].UHeight);

    /// <summary>
    /// <see cref="PlaceSigma"/> as far as only the shot can be blamed: without the factor on an instrument that no check shot has
    /// proven yet, and without the common part of a session that has no check shots, unless that is <paramref name="assumed"/>.
    /// </summary>
    public double OwnPlaceSigma(int row, bool assumed = false)
    {
        ref readonly var session = ref Sessions.ItemRef(SessionColumn[row]);
        return OwnSigma(SigmaPlanColumn[row], Raw.UPlan[row] / Math.Sqrt(2), Receivers[ReceiverColumn[row]].Plan, assumed || session.CheckShots > 0 ? session.UPlan : 0);
    }

    /// <summary><see cref="LevelSigma"/> as far as only the shot can be blamed.</summary>
    public double OwnLevelSigma(int row, bool assumed = false)
    {
        ref readonly var session = ref Sessions.ItemRef(SessionColumn[row]);
        return OwnSigma(SigmaHeightColumn[row], Raw.UHeight[row], Receivers[ReceiverColumn[row]].Height, assumed || session.CheckShots > 0 ? session.UHeight : 0);
    }

    /// <summary>Per plan axis, the shot's own part alone, without the factor on an instrument that no check shot has proven yet.</summary>
    public double ShotPlaceSigma(int row) => OwnSigma(SigmaPlanColumn[row], Raw.UPlan[row] / Math.Sqrt(2), Receivers[ReceiverColumn[row]].Plan, 0);

    /// <summary>The same of height.</summary>
    public double ShotLevelSigma(int row) => OwnSigma(SigmaHeightColumn[row], Raw.UHeight[row], Receivers[ReceiverColumn[row]].Height, 0);

    private static double OwnSigma(double sigma, double stated, in LearntFactor factor, double common)
    {
        var square = factor.State == StatedAccuracy.Unproven ? WithoutFactor(sigma, stated, factor) : sigma * sigma;
        return Math.Sqrt(square + common * common);
    }

    /// <summary>Variance per plan axis of a shot's own part as the instrument states it, whatever check shots say, m².</summary>
    internal double StatedPlanVariance(int row) => WithoutFactor(SigmaPlanColumn[row], Raw.UPlan[row] / Math.Sqrt(2), Receivers[ReceiverColumn[row]].Plan);

    /// <summary>The same in height.</summary>
    internal double StatedHeightVariance(int row) => WithoutFactor(SigmaHeightColumn[row], Raw.UHeight[row], Receivers[ReceiverColumn[row]].Height);

    private static double WithoutFactor(double sigma, double stated, in LearntFactor factor) =>
        double.IsNaN(stated) ? sigma * sigma : Math.Max(0, sigma * sigma - (factor.Factor * factor.Factor - 1) * stated * stated);

    private static double Both(double own, double common) => Math.Sqrt(own * own + common * common);

    /// <summary>Plan position, metres.</summary>
    public Point2 At(int row)
    {
        var shot = Shot(row);
        return new(Raw.East[shot], Raw.North[shot]);
    }

    /// <summary>The row whose values count for a row: that of the shot that it uses again, or of its adopted later version.</summary>
    public int Shot(int row) => Raw.AgainColumn[row] < 0 ? row : Versions.Stand(Versions.Root(Raw.AgainColumn[row]));

    /// <summary>Number of the batch that brought a shot first, whichever values stand; 0 for a constructed point.</summary>
    internal int BatchOf(int row) => Raw.BatchOf(Versions.Root(row)).Number;

    /// <summary>Height now, metres; null where missing.</summary>
    public double? HeightOf(int row) => double.IsNaN(heights[row]) ? null : heights[row];

    /// <summary>Whether a row is a shot: measured, and not a shot used again.</summary>
    public bool IsShot(int row) => Raw.Again[row] < 0 && !Raw.IsConstructed(row);

    /// <summary>Whether a row is a place: a shot, or a point constructed from shots.</summary>
    public bool IsPlace(int row) => Raw.Again[row] < 0;

    /// <summary>The constructed points; null where there are none.</summary>
    public ConstructedPoints? Constructed { get; internal set; }

    /// <summary>The entry of a row's code, or null for an unknown code.</summary>
    public CodeEntry? Entry(int row) => PlaceColumn[row] < 0 ? null : Book.Entries[PlaceColumn[row]];

    /// <summary>Code of a row now.</summary>
    public string CodeOf(int row) => Codes[CodeColumn[row]] ?? "";

    /// <summary>Lets a shot count no more, because of a journal entry.</summary>
    internal void SetAside(int row, int position)
    {
        UsedColumn[row] = false;
        if (!Because.TryGetValue(row, out var positions)) Because[row] = positions = [];
        positions.Add(position);
    }

    /// <summary>Whether the journal changed any row.</summary>
    public bool HasChanges => Because.Count > 0;

    /// <summary>Journal positions that changed a row, in order.</summary>
    public IReadOnlyList<int> BecauseOf(int row) => Because.TryGetValue(row, out var positions) ? positions : [];

    /// <summary>Whether a shot's accuracy was declared for its batch rather than stated by the file.</summary>
    public bool IsDeclared(int row) => double.IsNaN(Raw.UPlan[row]) && !double.IsNaN(SigmaPlan[row]);
}
