using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Finds shots by crew and id, the most recent first, earlier batches behind the rows of this one.</summary>
internal sealed class ShotIds
{
    private readonly ShotTableBuilder shots;
    private readonly int[] heads; // the newest row of a hash
    private readonly int[] older; // the row before it with the same hash
    private readonly int[] crews;

    /// <param name="rows">Most rows that will be entered.</param>
    public ShotIds(ShotTableBuilder shots, int rows)
    {
        this.shots = shots;
        heads = new int[System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(16, rows + (rows / 2)))];
        Array.Fill(heads, -1);
        (older, crews) = (new int[rows], new int[rows]);
    }

    /// <summary>Enters a row that is a shot.</summary>
    public void Enter(int row, int crew)
    {
        ref var head = ref heads[Bucket(shots.IdBytes(row), crew)];
        (older[row], crews[row]) = (head, crew);
        head = row;
    }

    /// <summary>The most recent shot of this id and crew, or −1.</summary>
    public int Find(ReadOnlySpan<byte> id, int crew) => Same(heads[Bucket(id, crew)], id, crew);

    /// <summary>The one before it, or −1.</summary>
    public int Before(int row) => Same(older[row], shots.IdBytes(row), crews[row]);

    private int Same(int row, ReadOnlySpan<byte> id, int crew)
    {
        while (row >= 0 && (crews[row] != crew || !shots.IdBytes(row).SequenceEqual(id))) row = older[row];
        return row;
    }

    /// <summary>Ids that differ in their last three digits only lie side by side, as crews number their shots: neighbouring rows then
    /// share cache lines (measured: a third of the reading time). What stands before is hashed with a seed of the process.</summary>
    private int Bucket(ReadOnlySpan<byte> id, int crew)
    {
        var head = id;
        var (tail, weight) = (0, 1);
        while (head.Length > 0 && weight < 1000 && (uint)(head[^1] - '0') <= 9)
        {
            tail += weight * (head[^1] - '0');
            weight *= 10;
            head = head[..^1];
        }

        return (Hash(head, crew) + tail) & (heads.Length - 1);
    }

    private static int Hash(ReadOnlySpan<byte> text, int crew)
    {
        if (text.Length > sizeof(ulong))
        {
            var hash = new HashCode();
            hash.Add(crew);
            hash.AddBytes(text);
            return hash.ToHashCode();
        }

        var packed = 0UL;
        foreach (var letter in text) packed = (packed << 8) | letter;
        return HashCode.Combine(crew, packed);
    }
}
