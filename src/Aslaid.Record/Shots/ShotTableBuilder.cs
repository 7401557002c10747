using System.Text;

namespace Aslaid.Record;

/// <summary>Fills a <see cref="ShotTable"/> row by row. A row is begun by <see cref="Add"/>; the optional columns follow.</summary>
public sealed class ShotTableBuilder
{
    internal int[] IdStarts = new int[17];
    internal byte[] IdText = new byte[256];
    internal double[] East = new double[16];
    internal double[] North = new double[16];
    internal double[] Height = new double[16];
    internal int[] Code = new int[16];
    internal int[] Label = new int[16];
    internal Leg[] Leg = new Leg[16];
    internal int[] Line = new int[16];
    internal int[] Again = new int[16];
    internal long[] Time = new long[16];
    internal short[] Zone = new short[16];
    internal double[] UPlan = new double[16];
    internal double[] UHeight = new double[16];
    internal readonly Dictionary<string, double[]> Numbers = new(StringComparer.Ordinal);
    internal readonly Dictionary<string, int[]> TextColumns = new(StringComparer.Ordinal);
    internal readonly List<Batch> Batches = [];

    /// <summary>An empty table to fill.</summary>
    public ShotTableBuilder()
    {
    }

    /// <summary>A table that goes on from another: its rows first, then those added here.</summary>
    public ShotTableBuilder(ShotTable before)
    {
        Reserve(before.Count);
        Batches.AddRange(before.Batches);
        (Codes, Labels, Texts) = (before.Codes.Copy(), before.Labels.Copy(), before.Texts.Copy());
        for (var row = 0; row < before.Count; row++)
        {
            Add(before.IdBytes(row), before.East[row], before.North[row], before.Height[row], before.Code[row], before.Label[row],
                before.Leg[row], before.Line[row], before.Again[row], before.Time[row], before.Zone[row], before.UPlan[row], before.UHeight[row]);
        }

        foreach (var (name, column) in before.NumberColumns) column.AsSpan(0, before.Count).CopyTo(NumberColumn(name));
        foreach (var (name, column) in before.TextColumns) column.AsSpan(0, before.Count).CopyTo(TextColumn(name));
    }

    /// <summary>Row from which on points are constructed; null for none.</summary>
    internal int? FirstConstructed { get; set; }

    /// <summary>Rows so far.</summary>
    public int Count { get; private set; }

    /// <summary>Codes as measured.</summary>
    public Words Codes { get; } = new();

    /// <summary>Labels that crews gave to runs.</summary>
    public Words Labels { get; } = new();

    /// <summary>Words of all text columns.</summary>
    public Words Texts { get; } = new();

    /// <summary>Makes room for more rows, so that filling does not grow step by step.</summary>
    public void Reserve(int rows)
    {
        if (rows <= East.Length) return;
        Array.Resize(ref IdStarts, rows + 1);
        Array.Resize(ref East, rows);
        Array.Resize(ref North, rows);
        Array.Resize(ref Height, rows);
        Array.Resize(ref Code, rows);
        Array.Resize(ref Label, rows);
        Array.Resize(ref Leg, rows);
        Array.Resize(ref Line, rows);
        Array.Resize(ref Again, rows);
        Array.Resize(ref Time, rows);
        Array.Resize(ref Zone, rows);
        Array.Resize(ref UPlan, rows);
        Array.Resize(ref UHeight, rows);
        foreach (var name in Numbers.Keys.ToArray()) Numbers[name] = Grown(Numbers[name], rows, double.NaN);
        foreach (var name in TextColumns.Keys.ToArray()) TextColumns[name] = Grown(TextColumns[name], rows, Words.None);
    }

    /// <summary>Adds a row; returns its number.</summary>
    /// <param name="id">Id as UTF-8.</param>
    /// <param name="east">Metres; NaN on a row that uses a shot again.</param>
    /// <param name="north">Metres; NaN on a row that uses a shot again.</param>
    /// <param name="height">Metres; NaN where missing.</param>
    /// <param name="code">Number of <see cref="Codes"/>.</param>
    /// <param name="label">Number of <see cref="Labels"/>.</param>
    /// <param name="line">Line of the file, the header being 1.</param>
    /// <param name="again">Row of the shot used again, else −1.</param>
    /// <param name="time">Ticks; <see cref="long.MinValue"/> where missing.</param>
    /// <param name="zone">Minutes ahead of UTC; <see cref="short.MinValue"/> where not written.</param>
    /// <param name="uPlan">Metres, 1 sigma, radial; NaN where missing.</param>
    /// <param name="uHeight">Metres, 1 sigma; NaN where missing.</param>
    public int Add(
        ReadOnlySpan<byte> id, double east, double north, double height, int code, int label, Leg leg, int line, int again,
        long time, short zone, double uPlan, double uHeight)
    {
        if (Count == East.Length) Reserve(2 * Count);
        var row = Count++;
        var start = IdStarts[row];
        if (start + id.Length > IdText.Length) Array.Resize(ref IdText, Math.Max(2 * IdText.Length, start + id.Length));
        id.CopyTo(IdText.AsSpan(start));
        IdStarts[row + 1] = start + id.Length;
        (East[row], North[row], Height[row]) = (east, north, height);
        (Code[row], Label[row], Leg[row], Line[row], Again[row]) = (code, label, leg, line, again);
        (Time[row], Zone[row], UPlan[row], UHeight[row]) = (time, zone, uPlan, uHeight);
        return row;
    }

    /// <summary>The id of a row as UTF-8.</summary>
    public ReadOnlySpan<byte> IdBytes(int row) => IdText.AsSpan(IdStarts[row]..IdStarts[row + 1]);

    /// <summary>A numeric column, made if it is new. Valid until the next row is added.</summary>
    public double[] NumberColumn(string name)
    {
        if (!Numbers.TryGetValue(name, out var column)) Numbers[name] = column = Grown(Array.Empty<double>(), East.Length, double.NaN);
        return column;
    }

    /// <summary>A text column, made if it is new. Valid until the next row is added.</summary>
    public int[] TextColumn(string name)
    {
        if (!TextColumns.TryGetValue(name, out var column)) TextColumns[name] = column = Grown(Array.Empty<int>(), East.Length, Words.None);
        return column;
    }

    /// <summary>Closes a batch over the rows from <paramref name="firstRow"/> to the last one added.</summary>
    public void EndBatch(string fileName, string fileSha256, int firstRow, string? crew, DeclaredAccuracy declared) =>
        Batches.Add(new(Batches.Count + 1, fileName, fileSha256, firstRow, Count - firstRow, crew, declared));

    /// <summary>The table. The builder is not used afterwards.</summary>
    public ShotTable Build() => new(this);

    private static T[] Grown<T>(T[] column, int rows, T missing)
    {
        var grown = new T[rows];
        column.CopyTo(grown, 0);
        grown.AsSpan(column.Length).Fill(missing);
        return grown;
    }
}
