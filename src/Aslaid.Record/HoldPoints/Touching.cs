using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A length of a run that something reaches over: a finding, a release, a covering.</summary>
/// <param name="From">Chainage, metres.</param>
/// <param name="To">Chainage, metres.</param>
/// <param name="Source">Number of the finding, or journal position.</param>
internal readonly record struct Stretch(double From, double To, int Source);

/// <summary>
/// Which stretches reach over the whole of each interval between neighbouring edges, interval after interval; a stretch of no
/// length touches the intervals about it. Each stretch is put in and taken out once.
/// </summary>
internal sealed class Touching
{
    private readonly List<Stretch> stretches;
    private readonly List<(int At, int Stretch)> begins = [];
    private readonly List<(int At, int Stretch)> ends = [];
    private readonly SortedSet<int> now = [];
    private int interval = -1;
    private int begun;
    private int ended;

    /// <param name="edges">Metres, rising; two are the same only where they are all.</param>
    public Touching(List<Stretch>? stretches, double[] edges)
    {
        this.stretches = stretches ?? [];
        for (var i = 0; i < this.stretches.Count; i++)
        {
            var stretch = this.stretches[i];
            var (first, end) = (CountBefore(edges, stretch.From, orAt: false), CountBefore(edges, stretch.To, orAt: true) - 1);
            if (stretch.From == stretch.To) (first, end) = (first - 1, end + 1);
            (first, end) = (Math.Max(first, 0), Math.Min(end, edges.Length - 1));
            if (first >= end) continue;
            begins.Add((first, i));
            ends.Add((end, i));
        }

        begins.Sort();
        ends.Sort();
    }

    /// <summary>Sources that touch the interval, in the order of the stretches.</summary>
    public ImmutableArray<int> Sources
    {
        get
        {
            if (now.Count == 0) return [];
            var sources = ImmutableArray.CreateBuilder<int>(now.Count);
            foreach (var stretch in now) sources.Add(stretches[stretch].Source);
            return sources.MoveToImmutable();
        }
    }

    /// <summary>The last of <see cref="Sources"/>; null where nothing touches the interval.</summary>
    public int? LastSource => now.Count == 0 ? null : stretches[now.Max].Source;

    /// <summary>Goes to the next interval, at first to the first.</summary>
    public void Next()
    {
        interval++;
        for (; ended < ends.Count && ends[ended].At == interval; ended++) now.Remove(ends[ended].Stretch);
        for (; begun < begins.Count && begins[begun].At == interval; begun++) now.Add(begins[begun].Stretch);
    }

    /// <summary>How many edges lie before a chainage, or at it too.</summary>
    private static int CountBefore(double[] edges, double chainage, bool orAt)
    {
        var (low, high) = (0, edges.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (edges[middle] < chainage || (orAt && edges[middle] == chainage)) low = middle + 1;
            else high = middle;
        }

        return low;
    }
}
