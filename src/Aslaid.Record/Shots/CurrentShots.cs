using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// The shots as the journal now leaves them: the raw table, and beside it what entries changed. Rows are those of the raw
/// table; ask for position and accuracy by the row of a shot, not of a row that uses it again (<see cref="ShotTable.Origin"/>).
/// </summary>
public sealed class CurrentShots
{
    private readonly double[] heights;
    private readonly double[] sigmaPlan;
    private readonly double[] sigmaHeight;

    internal CurrentShots(
        ShotTable raw, CodeBook book, Words codes, int[] code, Words labels, int[] label, int[] place, bool[] used,
        double[] heights, double[] sigmaPlan, double[] sigmaHeight, int[] session, int sessionCount,
        Dictionary<int, List<int>> because)
    {
        (Raw, Book, Codes, Labels) = (raw, book, codes, labels);
        (CodeColumn, LabelColumn, PlaceColumn, UsedColumn) = (code, label, place, used);
        (this.heights, this.sigmaPlan, this.sigmaHeight) = (heights, sigmaPlan, sigmaHeight);
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

    private Dictionary<int, List<int>> Because { get; }

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

    /// <summary>Standard uncertainty per plan axis, metres (radial value divided by √2); NaN where neither stated nor declared.</summary>
    public ReadOnlySpan<double> SigmaPlan => sigmaPlan;

    /// <summary>Standard uncertainty of height, metres; NaN where neither stated nor declared.</summary>
    public ReadOnlySpan<double> SigmaHeight => sigmaHeight;

    /// <summary>Plan position, metres.</summary>
    public Point2 At(int row) => new(Raw.East[Raw.Origin(row)], Raw.North[Raw.Origin(row)]);

    /// <summary>Height now, metres; null where missing.</summary>
    public double? HeightOf(int row) => double.IsNaN(heights[row]) ? null : heights[row];

    /// <summary>Whether a row is a shot, and not a shot used again.</summary>
    public bool IsShot(int row) => Raw.Again[row] < 0;

    /// <summary>The entry of a row's code, or null for an unknown code.</summary>
    public CodeEntry? Entry(int row) => PlaceColumn[row] < 0 ? null : Book.Entries[PlaceColumn[row]];

    /// <summary>Code of a row now.</summary>
    public string CodeOf(int row) => Codes[CodeColumn[row]] ?? "";

    /// <summary>Whether the journal changed any row.</summary>
    public bool HasChanges => Because.Count > 0;

    /// <summary>Journal positions that changed a row, in order.</summary>
    public IReadOnlyList<int> BecauseOf(int row) => Because.TryGetValue(row, out var positions) ? positions : [];

    /// <summary>Whether a shot's accuracy was declared for its batch rather than stated by the file.</summary>
    public bool IsDeclared(int row) => double.IsNaN(Raw.UPlan[row]) && !double.IsNaN(sigmaPlan[row]);
}
