namespace Aslaid.Record;

/// <summary>The stretches of a run by the batch that brought them: a batch that comes for the first time begins one; constructed points begin none.</summary>
internal static class BatchStretches
{
    /// <summary>Batch, first member and the member after the last.</summary>
    public static List<(int Batch, int First, int End)> Of(CurrentShots shots, ReadOnlySpan<int> members)
    {
        var stretches = new List<(int Batch, int First, int End)>();
        var seen = new HashSet<int>();
        for (var member = 0; member < members.Length; member++)
        {
            var batch = shots.BatchOf(members[member]);
            if (stretches.Count > 0 && (shots.Raw.IsConstructed(members[member]) || !seen.Add(batch))) stretches[^1] = stretches[^1] with { End = member + 1 };
            else
            {
                seen.Add(batch);
                stretches.Add((batch, member, member + 1));
            }
        }

        return stretches;
    }
}
