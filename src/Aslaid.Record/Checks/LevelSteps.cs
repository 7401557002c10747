namespace Aslaid.Record;

/// <summary>A step in height between two shots of a run that were taken one after the other.</summary>
/// <param name="Session">The session that took both.</param>
/// <param name="Run">Number of the run.</param>
/// <param name="Member">The member before the step, from 0.</param>
/// <param name="From">Row of the earlier shot: it stands before the step.</param>
/// <param name="To">Row of the later shot: it stands after it.</param>
/// <param name="Rise">Metres, in the order of shooting.</param>
/// <param name="U">Metres, its standard uncertainty; larger than the shots' where the run about it is rougher than they are.</param>
internal readonly record struct LevelStep(int Session, int Run, int Member, int From, int To, double Rise, double U)
{
    /// <summary>Whether a change of this size at any row between both would be seen here.</summary>
    public bool Agrees(double rise, double u) => Math.Abs(Rise - rise) <= Often * double.Hypot(U, u);

    /// <summary>Two values of one thing differ by no more than this many standard uncertainties.</summary>
    public const double Often = 3.5;
}

/// <summary>The steps in height of all runs: change points of a line with one gradient on both sides, by session and in the order of shooting.</summary>
internal sealed class LevelSteps
{
    /// <summary>Steps below this are never looked at, metres (DEFAULT).</summary>
    public const double Least = 0.03;

    /// <summary>A step must be this many standard uncertainties high (DEFAULT).</summary>
    public const double LeastSigmas = 4.5;

    /// <summary>Shots on each side of the step that tell its height: so many, or as few.</summary>
    private const int Most = 4, Fewest = 3;

    /// <summary>What a quick look must see, in standard uncertainties of a shot (DEFAULT): well below any step that counts.</summary>
    private const double QuickSigmas = 4;

    private readonly List<LevelStep> all = [];
    private readonly Site site;

    public LevelSteps(Site site)
    {
        this.site = site;
        for (var run = 0; run < site.Runs.Count; run++)
            if (site.Runs[run] is { MemberCount: >= 2 * Fewest, Entry: { } entry }) In(site.Runs[run], entry.SpacingMax ?? RunBreaks.UsualSpacing);
        all.Sort((a, b) => (a.Session, a.To, a.Run).CompareTo((b.Session, b.To, b.Run)));
    }

    public IReadOnlyList<LevelStep> All => all;

    private void In(Run run, double farthest)
    {
        var section = new Section(site, run, farthest);
        var (best, worth) = (default(LevelStep), 0.0);
        for (var member = Fewest - 1; member + Fewest < run.MemberCount; member++)
        {
            if (!section.MayStep(member)) continue;
            for (var each = Most; each >= Fewest; each--)
            {
                if (!section.Reaches(member, each) || !section.TryStep(member, each, out var rise, out var u)) continue;
                if (Math.Abs(rise) <= Math.Max(Least, LeastSigmas * u) || Math.Abs(rise) / u <= Worth(member)) continue;
                if (Worth(member) == 0) Keep();
                var (a, b) = (run.Members[member], run.Members[member + 1]);
                best = new(site.Shots.Session[a], run.Number, member, Math.Min(a, b), Math.Max(a, b), b > a ? rise : -rise, u);
                worth = Math.Abs(rise) / u;
            }
        }

        Keep();

        double Worth(int member) => worth > 0 && member - best.Member < Fewest ? worth : 0;

        void Keep()
        {
            if (worth > 0 && IsOwn(run, best.Member)) all.Add(best);
            worth = 0;
        }
    }

    /// <summary>Whether the leg is the run's own: a chamber may have a drop, and a wrong code is another mistake.</summary>
    private bool IsOwn(Run run, int member)
    {
        for (var at = member; at <= member + 1; at++)
        {
            var shot = run.Members[at];
            if (site.Shots.CodeColumn[shot] != run.Table.CodeWords[run.Number] || site.Membership.IsShared(shot)) return false;
        }

        return !site.RunBreaks.Touches(run.Number, member + 1) && !site.LateStretches.Explains(run.Number, member + 1);
    }

    /// <summary>A run as its long section: members at chainages and heights.</summary>
    private readonly ref struct Section(Site site, Run run, double farthest)
    {
        private readonly ReadOnlySpan<int> members = run.Members;
        private readonly ReadOnlySpan<double> along = run.Chainages;
        private readonly ReadOnlySpan<double> heights = site.Shots.Heights;
        private readonly ReadOnlySpan<double> sigmas = site.Shots.SigmaHeight;
        private readonly ReadOnlySpan<int> sessions = site.Shots.Session;

        /// <summary>A quick look at two members on each side: most legs rise as the legs about them do.</summary>
        public bool MayStep(int member)
        {
            var (h0, h1, h2, h3) = (heights[members[member - 1]], heights[members[member]], heights[members[member + 1]], heights[members[member + 2]]);
            var (before, after) = ((h1 - h0) / (along[member] - along[member - 1]), (h3 - h2) / (along[member + 2] - along[member + 1]));
            var step = Math.Abs(h2 - h1 - (before + after) / 2 * (along[member + 1] - along[member]));
            return step > Least / 2 && step > QuickSigmas * sigmas[members[member]]; // false where either is missing
        }

        /// <summary>Whether so many members on each side of a leg follow one another closely and in one session.</summary>
        public bool Reaches(int member, int each)
        {
            if (member + 1 < each || member + each >= members.Length) return false;
            var first = member + 1 - each;
            for (var i = first + 1; i <= member + each; i++)
                if (along[i] - along[i - 1] > farthest || sessions[members[i]] != sessions[members[first]]) return false;
            return true;
        }

        /// <summary>
        /// Two parallel lines by least squares, one through the members up to the leg and one through those after it: how much the second
        /// lies higher, u by propagation from the shots, and larger by √(χ²/freedom) where they scatter more than they should.
        /// </summary>
        public bool TryStep(int member, int each, out double rise, out double u)
        {
            var (first, next, end) = (member + 1 - each, member + 1, member + 1 + each);
            var (x0, h0) = Mean(first, next);
            var (x1, h1) = Mean(next, end);
            var (xx, xh) = (0.0, 0.0);
            for (var i = first; i < end; i++)
            {
                var (dx, dh) = i < next ? (along[i] - x0, heights[members[i]] - h0) : (along[i] - x1, heights[members[i]] - h1);
                (xx, xh) = (xx + dx * dx, xh + dx * dh);
            }

            var gradient = xh / xx;
            rise = h1 - h0 - gradient * (x1 - x0);
            var (variance, scatter) = (0.0, 0.0);
            for (var i = first; i < end; i++)
            {
                var (dx, dh, sign) = i < next ? (along[i] - x0, heights[members[i]] - h0, -1.0) : (along[i] - x1, heights[members[i]] - h1, 1.0);
                var (weight, variance1, off) = (sign / each - dx / xx * (x1 - x0), sigmas[members[i]] * sigmas[members[i]], dh - gradient * dx);
                variance += weight * weight * variance1;
                scatter += off * off / variance1;
            }

            u = Math.Sqrt(variance * Math.Max(1, scatter / (2 * each - 3)));
            return u > 0 && double.IsFinite(rise) && double.IsFinite(u);
        }

        private (double Along, double Height) Mean(int from, int end)
        {
            var (x, h) = (0.0, 0.0);
            for (var i = from; i < end; i++) (x, h) = (x + along[i], h + heights[members[i]]);
            return (x / (end - from), h / (end - from));
        }
    }
}
