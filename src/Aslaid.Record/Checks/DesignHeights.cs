namespace Aslaid.Record;

/// <summary>A stretch of shots of a session, in the order taken, whose heights are all off the design by the same.</summary>
/// <param name="Rows">Their rows.</param>
/// <param name="Mean">Metres above the design.</param>
/// <param name="U">Metres, standard uncertainty of one.</param>
/// <param name="Others">Shots of the session that lie where the design has them.</param>
internal readonly record struct DesignHeightBlock(int[] Rows, double Mean, double U, int Others);

/// <summary>Heights above the design, shot by shot in the order taken.</summary>
internal sealed class DesignHeights
{
    /// <summary>Fewer shots may be off by chance or by design (DEFAULT).</summary>
    public const int Least = 4;

    /// <summary>A step that the tolerance of a thing does not show and a pole does: metres (DEFAULT).</summary>
    private const double LeastStep = 0.04;

    private readonly Site site;
    private readonly SortedDictionary<int, (double Height, int Run)> off = []; // by row
    private readonly Dictionary<int, int> ofRun = []; // how many of them a run has

    public DesignHeights(Site site)
    {
        this.site = site;
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            for (var member = 0; member < run.MemberCount; member++)
                if (site.Match.Of(run, member) is { Height: { } height }) off.TryAdd(run.Members[member], (height, number));
        }

        foreach (var (_, (_, run)) in off) ofRun[run] = ofRun.GetValueOrDefault(run) + 1;
        foreach (var row in site.Points)
            if (Deviations.OfPoint(site, row) is { Height: { } height }) off.TryAdd(row, (height, -1));
    }

    /// <summary>Blocks of at least <see cref="Least"/> shots among shots of their session that are right.</summary>
    public IEnumerable<DesignHeightBlock> Blocks()
    {
        foreach (var session in off.Keys.GroupBy(row => site.Shots.Session[row]))
        {
            var rows = session.ToArray();
            double[] sizes = [.. rows.Select(row => Math.Abs(off[row].Height)).Order()];
            for (var i = 0; i < rows.Length; i++)
            {
                if (Step(rows[i]) == 0) continue;
                var first = i;
                while (i + 1 < rows.Length && Step(rows[i + 1]) == Step(rows[first])) i++;
                if (Block(rows, sizes, first, i) is { } block) yield return block;
            }
        }
    }

    /// <summary>Whether a block is the whole of one run, as far as that lies on the design.</summary>
    public bool IsOneRun(DesignHeightBlock block)
    {
        var run = off[block.Rows[0]].Run;
        return run >= 0 && block.Rows.All(row => off[row].Run == run) && ofRun[run] == block.Rows.Length;
    }

    private DesignHeightBlock? Block(int[] rows, double[] sizes, int first, int last)
    {
        if (last - first + 1 < Least) return null;
        var block = rows[first..(last + 1)];
        double[] heights = [.. block.Select(row => off[row].Height)];
        var spread = Misfits.Of(heights);
        var u = block.Max(row => site.Shots.LevelSigma(row));
        if (double.IsNaN(u) || spread.Sd > Math.Max(2 * u, 0.01)) return null;
        var others = sizes.AsSpan().BinarySearch(new AtMost(Math.Abs(spread.Mean) / 2)); // none of the block is off by so little
        if (others < 0) others = ~others;
        return others >= Least ? new(block, spread.Mean, u, others) : null;
    }

    /// <summary>Finds how many sizes lie below a limit.</summary>
    private readonly struct AtMost(double limit) : IComparable<double>
    {
        public int CompareTo(double other) => other < limit ? 1 : -1;
    }

    private int Step(int row)
    {
        var (height, u) = (off[row].Height, site.Shots.LevelSigma(row));
        return double.IsNaN(u) || Math.Abs(height) < Math.Max(LeastStep, 2 * u) ? 0 : Math.Sign(height);
    }
}
