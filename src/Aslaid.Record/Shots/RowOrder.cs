namespace Aslaid.Record;

/// <summary>
/// In which order rows are read: each batch in the order of its file, batches merged by time, so that it does not matter which
/// file was taken in first. A row without a time stands with the one before it; a batch without any after those before it; constructed points last.
/// </summary>
internal static class RowOrder
{
    /// <summary>Rows in order.</summary>
    public static IEnumerable<int> Of(ShotTable raw) => InTurn(raw)
        ? Enumerable.Range(0, raw.Count)
        : Merged(raw).Concat(Enumerable.Range(raw.FirstConstructed, raw.Count - raw.FirstConstructed));

    private static bool InTurn(ShotTable raw)
    {
        var latest = long.MinValue;
        foreach (var batch in raw.Batches)
        {
            var before = latest;
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                var time = raw.Time[row];
                if (time == long.MinValue) continue;
                if (time < before) return false;
                latest = Math.Max(latest, time);
            }
        }

        return true;
    }

    private static IEnumerable<int> Merged(ShotTable raw)
    {
        var queue = new PriorityQueue<int, (long Time, int Batch)>();
        var (next, time, latest) = (new int[raw.Batches.Length], new long[raw.Batches.Length], long.MinValue);
        for (var batch = 0; batch < raw.Batches.Length; batch++)
        {
            var (first, end) = (raw.Batches[batch].FirstRow, raw.Batches[batch].FirstRow + raw.Batches[batch].Count);
            (next[batch], time[batch]) = (first, latest);
            for (var row = first; row < end; row++)
            {
                if (raw.Time[row] == long.MinValue) continue;
                time[batch] = raw.Time[row];
                break;
            }

            for (var row = first; row < end; row++) latest = Math.Max(latest, raw.Time[row]);
            if (first < end) queue.Enqueue(batch, (time[batch], batch));
        }

        while (queue.TryDequeue(out var batch, out _))
        {
            var end = raw.Batches[batch].FirstRow + raw.Batches[batch].Count;
            do
            {
                yield return next[batch]++;
                if (next[batch] < end && raw.Time[next[batch]] is var here && here != long.MinValue) time[batch] = Math.Max(time[batch], here);
            }
            while (next[batch] < end && (queue.Count == 0 || queue.TryPeek(out _, out var other) && (time[batch], batch).CompareTo(other) <= 0));
            if (next[batch] < end) queue.Enqueue(batch, (time[batch], batch));
        }
    }
}
