using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A shot that a later batch brings again with other values: the same id of the same crew at the same time.</summary>
/// <param name="First">Row of the shot as it was taken first.</param>
/// <param name="Later">Row of the later values.</param>
public readonly record struct ShotVersion(int First, int Later);

/// <summary>
/// Shots with other values in a later batch. The first row counts until somebody adopts a later one, which then stands in its
/// place: in the order of the file, in runs, wherever the shot is used again.
/// </summary>
public sealed class ShotVersions
{
    /// <summary>Where neither row has a time, shots of one id this near are one shot exported again, metres (DEFAULT).</summary>
    private const double SameShot = 0.5;

    private readonly Dictionary<int, int> standsFor = [];
    private readonly HashSet<int> decided = [];
    private readonly Dictionary<int, int> firstOf;

    private readonly ShotTable raw;

    private ShotVersions(ShotTable raw, ImmutableArray<ShotVersion> all) => (this.raw, All, firstOf) = (raw, all, all.ToDictionary(version => version.Later, version => version.First));

    /// <summary>No shot has two versions.</summary>
    public static ShotVersions None { get; } = new(ShotTable.Empty, []);

    /// <summary>All of them, by the later row.</summary>
    public ImmutableArray<ShotVersion> All { get; }

    /// <summary>The row whose values count for a shot: itself, or the later one that was adopted.</summary>
    public int Stand(int row) => standsFor.Count > 0 && standsFor.TryGetValue(row, out var later) ? later : row;

    /// <summary>The row as which a shot was taken first: itself, unless it is a later version.</summary>
    public int Root(int row) => firstOf.Count > 0 && firstOf.TryGetValue(row, out var first) ? first : row;

    /// <summary>Whether nobody said yet which of both counts.</summary>
    public bool IsOpen(ShotVersion version) => !decided.Contains(version.Later);

    /// <summary>Whether a row's values stand in the place of an earlier row.</summary>
    public bool IsAdopted(int row) => standsFor.Count > 0 && firstOf.TryGetValue(row, out var first) && standsFor.GetValueOrDefault(first, -1) == row;

    /// <summary>Whether a row is the version of a shot that does not count.</summary>
    public bool IsOut(int row) => All.Length > 0 && (standsFor.ContainsKey(row) || firstOf.TryGetValue(row, out var first) && Stand(first) != row);

    /// <summary>Finds them among batches that count.</summary>
    /// <param name="used">Rows of batches that were not withdrawn.</param>
    internal static ShotVersions Of(ShotTable raw, ReadOnlySpan<bool> used)
    {
        if (raw.Batches.Length < 2) return None;
        var found = ImmutableArray.CreateBuilder<ShotVersion>();
        var ids = new CrewIds(raw);
        var roots = new Dictionary<int, int>();
        foreach (var batch in raw.Batches)
        {
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                if (raw.Again[row] >= 0 || !used[row]) continue;
                for (var other = ids.Before(row); other >= 0; other = ids.Next(other))
                {
                    if (other >= batch.FirstRow || !IsSame(raw, other, row) || !ids.Same(other, row)) continue;
                    var first = roots.GetValueOrDefault(other, other);
                    roots[row] = first;
                    found.Add(new(first, row));
                    break;
                }
            }

            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
                if (raw.Again[row] < 0 && used[row]) ids.Enter(row);
        }

        return found.Count == 0 ? None : new(raw, found.ToImmutable());
    }

    /// <summary>A crew that begins to count from 1 again uses an id for another shot: its time differs.</summary>
    private static bool IsSame(ShotTable raw, int a, int b)
    {
        if (raw.Time[a] != long.MinValue || raw.Time[b] != long.MinValue) return raw.Time[a] == raw.Time[b];
        return double.Hypot(raw.East[a] - raw.East[b], raw.North[a] - raw.North[b]) <= SameShot;
    }

    /// <summary>Takes a decision about a later row; false where it is none. What was said of the shot stays said of it, whichever values stand.</summary>
    internal bool Decide(int row, bool adopt, bool[] used, int[] code, int[] label)
    {
        if (!firstOf.TryGetValue(row, out var first)) return false;
        decided.Add(row);
        var before = Stand(first);
        if (adopt == (before == row)) return true;
        var stands = adopt ? row : first;
        if (adopt) standsFor[first] = row;
        else standsFor.Remove(first);
        (used[stands], used[before]) = (used[stands] || used[before], false);
        Carry(raw.Code, code);
        Carry(raw.Label, label);
        return true;

        void Carry(ReadOnlySpan<int> measured, int[] now)
        {
            if (measured[before] == measured[stands] && now[before] != measured[before]) now[stands] = now[before];
        }
    }
}

/// <summary>Rows by crew, id and time, the latest entered first.</summary>
internal sealed class CrewIds
{
    private readonly ShotTable raw;
    private readonly int[] heads;
    private readonly int[] next;
    private readonly Words crews = new();
    private readonly int[]? column;
    private readonly int[] ofBatch;
    private readonly int[] ofText;

    public CrewIds(ShotTable raw)
    {
        this.raw = raw;
        heads = new int[(int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(16, 2 * raw.Count))];
        heads.AsSpan().Fill(-1);
        next = new int[raw.Count];
        column = raw.TextColumns.GetValueOrDefault("crew");
        ofBatch = [.. raw.Batches.Select(batch => crews.Keep(batch.Crew))];
        ofText = new int[column is null ? 0 : raw.Texts.Count];
        for (var text = 0; text < ofText.Length; text++) ofText[text] = crews.Keep(raw.Texts[text]);
    }

    public void Enter(int row)
    {
        ref var head = ref heads[Slot(row)];
        (next[row], head) = (head, row);
    }

    /// <summary>The latest row entered that may have the crew, id and time of a row; −1 for none.</summary>
    public int Before(int row) => heads[Slot(row)];

    /// <summary>The one entered before it in the same slot; −1 for none.</summary>
    public int Next(int row) => next[row];

    public bool Same(int a, int b) => CrewOf(a) == CrewOf(b) && raw.IdBytes(a).SequenceEqual(raw.IdBytes(b));

    /// <summary>The crew of a row as a number; the same words have the same number, from whichever place they come.</summary>
    public int CrewOf(int row) => column is not null && column[row] != Words.None ? ofText[column[row]] : ofBatch[raw.BatchOf(row).Number - 1];

    /// <remarks>Fowler, Noll and Vo, 32 bits.</remarks>
    private int Slot(int row)
    {
        var hash = 2166136261 ^ (uint)CrewOf(row);
        foreach (var b in raw.IdBytes(row)) hash = (hash ^ b) * 16777619;
        hash = (hash ^ (uint)raw.Time[row].GetHashCode()) * 16777619; // a shot that comes again has its time again
        return (int)((hash ^ hash >> 15) & (uint)(heads.Length - 1));
    }
}
