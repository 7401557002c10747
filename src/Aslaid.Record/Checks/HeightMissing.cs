using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots without a height, or with a zero or another mark that stands for none, where the code has limits of height.</summary>
internal sealed class HeightMissing : ICheck
{
    /// <summary>How far from the median height of its batch an exact zero may lie and still be a level, metres (DEFAULT).</summary>
    private const double OffBatch = 3;

    /// <summary>How far from its neighbours along the run an exact zero may lie and still be a level, metres (DEFAULT).</summary>
    private const double OffNeighbour = 1;

    /// <summary>So many shots whose heights are all exactly zero carry a mark, not a level (DEFAULT).</summary>
    private const int NeverByChance = 8;

    /// <summary>How far from the median height of its batch a number that programs write for none may lie and still be a level, metres (DEFAULT).</summary>
    private const double OffByFar = 50;

    /// <summary>Nothing, an exact zero, or a number that programs write for none (common practice).</summary>
    private static bool IsMark(double height) => double.IsNaN(height) || height is 0 or -99 or -999 or -9999 or 999 or 9999 or 99999;

    public string Name => "height-missing";

    public string Title => "Shots without a height";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    public ImmutableArray<string> Explains => ["level-jump", "fall-wrong", "pole-height-wrong", "measured-twice", "cover-not-known", "too-close"];

    public void Look(Site site, Findings found)
    {
        var matters = new bool[site.Shots.Book.Entries.Length];
        for (var place = 0; place < matters.Length; place++) matters[place] = Matters(site.Shots.Book.Entries[place]);
        if (Marked(site, matters) is not { } off) return;
        var marked = new bool[off.Length];
        for (var row = 0; row < off.Length; row++) marked[row] = off[row] >= 0;
        foreach (var stretch in ShotStretches.Of(site, marked))
        {
            var (zeros, worst, at) = (0, 0.0, stretch.Rows[0]);
            foreach (var row in stretch.Rows)
            {
                if (off[row] == 0) continue;
                zeros++;
                if (off[row] > worst) (worst, at) = (off[row], row);
            }

            var known = zeros > 0 && double.IsFinite(worst);
            found.Add(site, stretch, ShotStretches.NeedsProof(site, stretch) ? Severity.Stop : Severity.Look, at,
                known ? worst : null, known ? (stretch.Run < 0 ? OffBatch : OffNeighbour) : null, figures: [zeros, stretch.Rows.Length, double.IsNaN(site.Shots.Heights[at]) ? 0 : site.Shots.Heights[at]]);
        }
    }

    private static bool Matters(CodeEntry entry) =>
        (entry.ToleranceHeight ?? entry.ToleranceHigh ?? entry.ToleranceLow ?? entry.Height95Max ?? entry.CoverMin ?? entry.FallMinPercent) is not null;

    /// <summary>
    /// By row: −1 where there is a height, 0 where there is none, else how far a zero lies from what is about it, metres (infinite
    /// where nothing about it has a height). Null where every shot has one.
    /// </summary>
    private static double[]? Marked(Site site, bool[] matters)
    {
        var (shots, records) = (site.Shots, new Records(site.Shots.Raw));
        double[]? off = null;
        foreach (var batch in shots.Raw.Batches)
        {
            double? median = null;
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                var height = shots.Heights[row];
                if (!IsMark(height)) continue;
                if (!shots.IsShot(row) || !shots.UsedColumn[row] || shots.PlaceColumn[row] < 0 || !matters[shots.PlaceColumn[row]]) continue;
                if (records.Has(row)) continue;
                var here = double.IsNaN(height) ? 0 : OffLevel(site, row, median ??= MedianOf(shots, batch));
                if (here < 0) continue;
                if (off is null) (off = new double[shots.Count]).AsSpan().Fill(-1);
                off[row] = here;
            }
        }

        return off;
    }

    /// <summary>How far an exact zero lies from what is about it; −1 where it may be a level.</summary>
    private static double OffLevel(Site site, int row, double median)
    {
        if (double.IsInfinity(median)) return double.PositiveInfinity;
        var mark = site.Shots.Heights[row];
        if (mark != 0) return Math.Abs(median - mark) > OffByFar ? Math.Abs(median - mark) : -1;
        var off = Math.Abs(median) > OffBatch ? Math.Abs(median) : 0; // a NaN median is over nothing
        if (site.Membership.Run[row] is >= 0 and var number)
        {
            var (run, member) = (site.Runs[number], site.Membership.Member[row]);
            var near = double.PositiveInfinity;
            if (LevelBeside(site.Shots, run, member, -1) is { } before) near = Math.Abs(before);
            if (LevelBeside(site.Shots, run, member, 1) is { } after) near = Math.Min(near, Math.Abs(after));
            if (double.IsFinite(near)) off = near > OffNeighbour ? near : 0; // neighbours know better than the batch
        }

        return off > 0 ? off : -1;
    }

    /// <summary>The next height along a run that is neither missing nor zero, metres.</summary>
    private static double? LevelBeside(CurrentShots shots, Run run, int member, int step)
    {
        const int steps = 4; // farther neighbours say little
        for (var i = 1; i <= steps; i++)
        {
            var at = member + i * step;
            if (at < 0 || at >= run.MemberCount) return null;
            if (shots.Heights[run.Members[at]] is var height && height != 0 && !double.IsNaN(height)) return height;
        }

        return null;
    }

    /// <summary>Median of the heights of a batch that are neither missing nor zero; infinite where all of many are zero, NaN where few are.</summary>
    private static double MedianOf(CurrentShots shots, Batch batch)
    {
        var (levels, zeros) = (new List<double>(batch.Count), 0);
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
        {
            if (!shots.IsShot(row) || !shots.UsedColumn[row] || double.IsNaN(shots.Heights[row])) continue;
            if (shots.Heights[row] == 0) zeros++;
            else levels.Add(shots.Heights[row]);
        }

        if (levels.Count == 0) return zeros >= NeverByChance ? double.PositiveInfinity : double.NaN;
        levels.Sort();
        return levels[levels.Count / 2];
    }

    public string Message(Finding finding)
    {
        var (zeros, all) = (finding.Figure(0), finding.Figure(1));
        var text = zeros < all
            ? $"No height for {CheckText.Count(all, "shot")} of a code with limits of height ({ShotStretches.Where(finding)})"
            : $"Height exactly {CheckText.Metres(finding.Figure(2))} for {CheckText.Count(all, "shot")} ({ShotStretches.Where(finding)})";
        if (zeros > 0 && zeros < all) text += $"; {CheckText.Number(zeros, "0")} of them exactly {CheckText.Metres(finding.Figure(2))}";
        if (finding.Measured is { } off) text += $", {CheckText.Metres(off)} from what lies about it, limit {CheckText.Metres(finding.Allowed)}";
        return text + (zeros > 0 ? ": a mark of a missing height." : ".");
    }

    public string Cure(Finding finding) => "Shoot the height, or take the file again with its heights.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
