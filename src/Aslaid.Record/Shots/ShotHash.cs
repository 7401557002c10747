using System.Security.Cryptography;

namespace Aslaid.Record;

/// <summary>
/// The hash of a batch's rows as taken: rows in blocks of 1,000 over canonical bytes, the batch's hash over the blocks' hashes,
/// so that a changed row is found by its block.
/// </summary>
public static class ShotHash
{
    /// <summary>Rows to a block.</summary>
    public const int BlockRows = 1000;

    [ThreadStatic]
    private static CanonicalBytes? scratch; // a block has some hundred kilobytes: used again by the thread's next block

    /// <summary>Hash of the rows of a batch, lower-case hexadecimal.</summary>
    public static string OfBatch(ShotTable shots, Batch batch, IWorkers? workers = null)
    {
        var blocks = Blocks(shots, batch, workers ?? OneWorker.Instance);
        return Convert.ToHexStringLower(SHA256.HashData(blocks));
    }

    /// <summary>The hashes of the blocks, 32 bytes each, one after the other.</summary>
    public static byte[] Blocks(ShotTable shots, Batch batch, IWorkers workers)
    {
        var count = (batch.Count + BlockRows - 1) / BlockRows;
        var hashes = new byte[count * SHA256.HashSizeInBytes];
        workers.Do(count, block =>
        {
            var bytes = scratch ??= new();
            bytes.Clear();
            var end = Math.Min(batch.Count, (block + 1) * BlockRows);
            for (var row = batch.FirstRow + block * BlockRows; row < batch.FirstRow + end; row++) Row(shots, row, bytes);
            SHA256.HashData(bytes.Written, hashes.AsSpan(block * SHA256.HashSizeInBytes));
        });
        return hashes;
    }

    private static void Row(ShotTable shots, int row, CanonicalBytes bytes)
    {
        bytes.Whole(shots.Line[row]);
        bytes.Utf8(shots.IdBytes(row));
        var again = shots.Again[row];
        var key = again < 0 ? default : shots.Key(again);
        bytes.Whole(key.Batch);
        bytes.Whole(key.Line);
        bytes.Maybe(shots.East[row]);
        bytes.Maybe(shots.North[row]);
        bytes.Maybe(shots.Height[row]);
        bytes.Text(shots.Codes[shots.Code[row]]);
        bytes.Text(shots.Labels[shots.Label[row]]);
        bytes.Whole((int)shots.Leg[row]);
        bytes.Whole(shots.Time[row]);
        bytes.Whole(shots.Zone[row]);
        bytes.Maybe(shots.UPlan[row]);
        bytes.Maybe(shots.UHeight[row]);
        foreach (var (name, column) in shots.NumberColumns)
        {
            if (double.IsNaN(column[row])) continue; // a column that a later file brought must not change an earlier batch
            bytes.Text(name);
            bytes.Number(column[row]);
        }

        foreach (var (name, column) in shots.TextColumns)
        {
            if (column[row] == Words.None) continue;
            bytes.Text(name);
            bytes.Text(shots.Texts[column[row]]);
        }
    }
}
