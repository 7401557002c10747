using System.Globalization;

namespace Aslaid.Record;

/// <summary>An id that a crew used for more than one shot of a batch.</summary>
internal sealed class IdTwice : ICheck
{
    public string Name => "id-twice";

    public string Title => "One id for several shots of a batch";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    public void Look(Site site, Findings found)
    {
        var shots = site.Shots;
        var groups = new SortedDictionary<int, List<int>>();
        foreach (var batch in shots.Raw.Batches)
            if (!Rising(shots, batch)) Group(shots, batch, groups);
        if (groups.Count == 0) return;
        var usedAgain = new HashSet<int>();
        foreach (var origin in shots.Raw.Again)
            if (origin >= 0) usedAgain.Add(origin);

        foreach (var (first, rows) in groups)
        {
            var (apart, again, near) = (0.0, false, true);
            foreach (var row in rows)
            {
                apart = Math.Max(apart, shots.At(first).DistanceTo(shots.At(row)));
                near &= !(Math.Abs(shots.Heights[first] - shots.Heights[row]) > site.Settings.SamePlace);
                again |= usedAgain.Contains(row);
            }

            near &= apart <= site.Settings.SamePlace;
            var severity = near ? Severity.Note : again ? Severity.Stop : Severity.Look;
            found.Add(severity, [.. rows], shots.At(first), shots.HeightOf(first), site.Membership.Run[first],
                measured: apart, allowed: site.Settings.SamePlace, figures: [again ? 1 : 0, near ? 1 : 0]);
        }
    }

    /// <summary>Whether ids only ever rise (shorter first, then by bytes), as an instrument that counts on leaves them: then none comes twice.</summary>
    private static bool Rising(CurrentShots shots, Batch batch)
    {
        var raw = shots.Raw;
        ReadOnlySpan<byte> before = [];
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
        {
            if (raw.Again[row] >= 0 || !shots.UsedColumn[row]) continue;
            var id = raw.IdBytes(row);
            if (id.Length < before.Length || (id.Length == before.Length && id.SequenceCompareTo(before) <= 0)) return false;
            before = id;
        }

        return true;
    }

    /// <summary>Puts rows of one batch and crew that share an id under the first of them.</summary>
    private static void Group(CurrentShots shots, Batch batch, SortedDictionary<int, List<int>> groups)
    {
        var raw = shots.Raw;
        var crew = raw.TextColumns.GetValueOrDefault("crew");
        var batchCrew = raw.Texts.Find(batch.Crew);
        var heads = new int[(int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(16, 2 * batch.Count))];
        var next = new int[batch.Count];
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
        {
            if (raw.Again[row] >= 0 || !shots.UsedColumn[row]) continue;
            var id = raw.IdBytes(row);
            var slot = (int)(Hash(id) & (uint)(heads.Length - 1));
            var known = heads[slot]; // rows count from 1 here; 0 is none
            while (known > 0 && !(CrewOf(batch.FirstRow + known - 1) == CrewOf(row) && raw.IdBytes(batch.FirstRow + known - 1).SequenceEqual(id)))
                known = next[known - 1];
            if (known > 0)
            {
                var first = batch.FirstRow + known - 1;
                if (!groups.TryGetValue(first, out var rows)) groups[first] = rows = [first];
                rows.Add(row);
                continue;
            }

            next[row - batch.FirstRow] = heads[slot];
            heads[slot] = row - batch.FirstRow + 1;
        }

        int CrewOf(int row) => crew is null || crew[row] == Words.None ? batchCrew : crew[row];
    }

    /// <remarks>Fowler, Noll and Vo, 32 bits.</remarks>
    private static uint Hash(ReadOnlySpan<byte> bytes)
    {
        var hash = 2166136261;
        foreach (var b in bytes) hash = (hash ^ b) * 16777619;
        return hash ^ hash >> 15;
    }

    public string Message(Finding finding) => string.Create(CultureInfo.InvariantCulture,
        $"Id {finding.Shot(0)} names {finding.Shots.Length} shots, {CheckText.Metres(finding.Measured)} apart ({string.Join(", ", finding.Keys())})")
        + (finding.Figure(1) > 0 ? ": a repeat." : finding.Figure(0) > 0 ? "; a row uses the id again and may mean either." : ".");

    public string Cure(Finding finding) => finding.Figure(1) > 0
        ? "Set the repeat aside, or leave it as a check."
        : "Say which one is meant and set the other aside; both are kept apart by batch and line.";

    public Change? Correction(Finding finding) => finding.Figure(1) > 0 ? new SetAside(finding.Keys(from: 1)) : null;

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
