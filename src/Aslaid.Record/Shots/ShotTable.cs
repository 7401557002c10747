using System.Collections.Immutable;
using System.Text;

namespace Aslaid.Record;

/// <summary>
/// The raw shots, as columns: what was measured, never changed. A row is a shot, or uses an earlier shot again
/// (<see cref="Again"/>); batches follow one another in order of intake, rows in file order.
/// </summary>
/// <remarks>A missing number is NaN inside a column; the handle <see cref="Shot"/> gives null.</remarks>
public sealed class ShotTable
{
    /// <summary>A table without shots.</summary>
    public static ShotTable Empty { get; } = new ShotTableBuilder().Build();

    internal ShotTable(ShotTableBuilder from)
    {
        Count = from.Count;
        Batches = [.. from.Batches];
        FirstConstructed = from.FirstConstructed ?? from.Count;
        (Codes, Labels, Texts) = (from.Codes, from.Labels, from.Texts);
        (IdText, IdStarts) = (from.IdText, from.IdStarts);
        (EastColumn, NorthColumn, HeightColumn) = (from.East, from.North, from.Height);
        (CodeColumn, LabelColumn, LegColumn) = (from.Code, from.Label, from.Leg);
        (LineColumn, AgainColumn, TimeColumn, ZoneColumn) = (from.Line, from.Again, from.Time, from.Zone);
        (UPlanColumn, UHeightColumn) = (from.UPlan, from.UHeight);
        NumberColumns = from.Numbers.ToImmutableSortedDictionary(StringComparer.Ordinal);
        TextColumns = from.TextColumns.ToImmutableSortedDictionary(StringComparer.Ordinal);
    }

    /// <summary>Rows, those that use a shot again included.</summary>
    public int Count { get; }

    /// <summary>The intakes, in order; number <c>n</c> is at <c>n - 1</c>.</summary>
    public ImmutableArray<Batch> Batches { get; }

    /// <summary>Codes as measured.</summary>
    public Words Codes { get; }

    /// <summary>Labels that crews gave to runs.</summary>
    public Words Labels { get; }

    /// <summary>Words of all text columns.</summary>
    public Words Texts { get; }

    /// <summary>Numeric columns that a file may lack, by name (<c>pole</c>, <c>pdop</c>, …), in their own units; NaN where missing.</summary>
    public ImmutableSortedDictionary<string, double[]> NumberColumns { get; }

    /// <summary>Text columns that a file may lack, by name (<c>fix</c>, <c>note</c>, attributes …), as numbers of <see cref="Texts"/>.</summary>
    public ImmutableSortedDictionary<string, int[]> TextColumns { get; }

    private byte[] IdText { get; }

    private int[] IdStarts { get; }

    internal double[] EastColumn { get; }

    internal double[] NorthColumn { get; }

    private double[] HeightColumn { get; }

    private int[] CodeColumn { get; }

    private int[] LabelColumn { get; }

    private Leg[] LegColumn { get; }

    private int[] LineColumn { get; }

    internal int[] AgainColumn { get; }

    private long[] TimeColumn { get; }

    private short[] ZoneColumn { get; }

    private double[] UPlanColumn { get; }

    private double[] UHeightColumn { get; }

    /// <summary>Grid east, metres; NaN on rows that use a shot again.</summary>
    public ReadOnlySpan<double> East => EastColumn.AsSpan(0, Count);

    /// <summary>Grid north, metres; NaN on rows that use a shot again.</summary>
    public ReadOnlySpan<double> North => NorthColumn.AsSpan(0, Count);

    /// <summary>Height, metres; NaN where missing.</summary>
    public ReadOnlySpan<double> Height => HeightColumn.AsSpan(0, Count);

    /// <summary>Code of each row, as a number of <see cref="Codes"/>; <see cref="Words.None"/> only on rows that use a shot again under its own code.</summary>
    public ReadOnlySpan<int> Code => CodeColumn.AsSpan(0, Count);

    /// <summary>Run label of each row, as a number of <see cref="Labels"/>.</summary>
    public ReadOnlySpan<int> Label => LabelColumn.AsSpan(0, Count);

    /// <summary>How the run reaches each row.</summary>
    public ReadOnlySpan<Leg> Leg => LegColumn.AsSpan(0, Count);

    /// <summary>Line of the file on which each row begins; the header is line 1.</summary>
    public ReadOnlySpan<int> Line => LineColumn.AsSpan(0, Count);

    /// <summary>The row of the shot that this row uses again; −1 on a shot.</summary>
    public ReadOnlySpan<int> Again => AgainColumn.AsSpan(0, Count);

    /// <summary>Time as ticks (UTC where the zone is known, else as written); <see cref="long.MinValue"/> where missing.</summary>
    public ReadOnlySpan<long> Time => TimeColumn.AsSpan(0, Count);

    /// <summary>Minutes that the written time is ahead of UTC; <see cref="short.MinValue"/> where no zone was written.</summary>
    public ReadOnlySpan<short> Zone => ZoneColumn.AsSpan(0, Count);

    /// <summary>Standard uncertainty in plan as the file states it, metres, 1 sigma, radial; NaN where missing.</summary>
    public ReadOnlySpan<double> UPlan => UPlanColumn.AsSpan(0, Count);

    /// <summary>Standard uncertainty of height as the file states it, metres, 1 sigma; NaN where missing.</summary>
    public ReadOnlySpan<double> UHeight => UHeightColumn.AsSpan(0, Count);

    /// <summary>The handle of a row.</summary>
    public Shot this[int row] => new(this, row);

    /// <summary>Id as its UTF-8 bytes.</summary>
    public ReadOnlySpan<byte> IdBytes(int row) => IdText.AsSpan(IdStarts[row]..IdStarts[row + 1]);

    /// <summary>Id as text.</summary>
    public string Id(int row) => Encoding.UTF8.GetString(IdBytes(row));

    /// <summary>The shot that a row stands for: itself, or the one that it uses again.</summary>
    public int Origin(int row) => AgainColumn[row] < 0 ? row : AgainColumn[row];

    /// <summary>The batch of a row.</summary>
    public Batch BatchOf(int row)
    {
        if (row >= FirstConstructed) return Batch.Constructed;
        var (low, high) = (0, Batches.Length - 1);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (Batches[middle].FirstRow <= row) low = middle;
            else high = middle - 1;
        }

        return Batches[low];
    }

    /// <summary>Row of the first constructed point; they come after all shots, and in no batch.</summary>
    internal int FirstConstructed { get; }

    /// <summary>Whether a row is a point computed from shots.</summary>
    public bool IsConstructed(int row) => row >= FirstConstructed;

    /// <summary>What names the row for good.</summary>
    public ShotKey Key(int row) => new(BatchOf(row).Number, LineColumn[row]);

    /// <summary>The row of a key, or −1.</summary>
    public int Find(ShotKey key)
    {
        if (key.Batch == 0)
        {
            var place = LineColumn.AsSpan(FirstConstructed, Count - FirstConstructed).BinarySearch(key.Line);
            return place < 0 ? -1 : FirstConstructed + place;
        }

        if (key.Batch < 1 || key.Batch > Batches.Length) return -1;
        var batch = Batches[key.Batch - 1];
        var at = LineColumn.AsSpan(batch.FirstRow, batch.Count).BinarySearch(key.Line);
        return at < 0 ? -1 : batch.FirstRow + at;
    }

    /// <summary>A number of an optional column; null where the file had none.</summary>
    public double? Number(string column, int row) =>
        NumberColumns.TryGetValue(column, out var numbers) && !double.IsNaN(numbers[row]) ? numbers[row] : null;

    /// <summary>A text of an optional column; null where the file had none.</summary>
    public string? Text(string column, int row) =>
        TextColumns.TryGetValue(column, out var texts) ? Texts[texts[row]] : null;

    /// <summary>The crew of a row: its own, else its batch's.</summary>
    public string? Crew(int row) => Text("crew", row) ?? BatchOf(row).Crew;
}
