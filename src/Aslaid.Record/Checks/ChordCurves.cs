using System.Runtime.InteropServices;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Straights of a run that are chords of one curve.</summary>
/// <param name="Run">Number of the run.</param>
/// <param name="First">First member on the curve, from 0.</param>
/// <param name="Last">Last member on it.</param>
/// <param name="Radius">Metres, of the best circle.</param>
/// <param name="URadius">Metres, its standard uncertainty.</param>
/// <param name="Longest">Metres, the longest chord.</param>
/// <param name="Turn">Radians, the mean turn where two chords meet.</param>
/// <param name="Known">Whether every shot on it states its accuracy.</param>
internal readonly record struct ChordCurve(int Run, int First, int Last, double Radius, double URadius, double Longest, double Turn, bool Known);

/// <summary>
/// The curves of all runs that were measured as chords: three straights or more that turn the same way at like curvature, each turn
/// proven, all members on one circle within their uncertainty. Shared by the checks that would otherwise each report the same mistake.
/// </summary>
internal sealed class ChordCurves
{
    /// <summary>An ordinate this many standard uncertainties long is proven, as where arcs are made.</summary>
    private const double Proven = 3;

    /// <summary>A turn beyond 60° is a corner: six chords to a circle (DEFAULT).</summary>
    private const double MostTurn = Math.PI / 3;

    /// <summary>Curvatures are alike within this factor of their mean, or within three standard uncertainties (DEFAULT).</summary>
    private const double Alike = 2;

    /// <summary>Where a curve begins on a straight the path turns by half of what it turns within; less than this share of it is no beginning (DEFAULT).</summary>
    private const double LeastShareAtEnd = 0.25;

    /// <summary>Members that really lie on one circle are turned down this often (DEFAULT).</summary>
    private const double TurnedDown = 0.001;

    private const int LeastChords = 3;

    private readonly Dictionary<int, (int First, int Count)> ofRun = [];
    private readonly List<ChordCurve> all = [];

    public ChordCurves(Site site)
    {
        var search = new Search(site, all);
        for (var run = 0; run < site.Runs.Count; run++)
        {
            if (site.Runs[run].Entry?.SagittaMax is null) continue;
            var before = all.Count;
            search.In(site.Runs[run]);
            if (all.Count > before) ofRun.Add(run, (before, all.Count - before));
        }
    }

    public IReadOnlyList<ChordCurve> All => all;

    /// <summary>Whether a member lies on a curve that was measured as chords.</summary>
    public bool Has(int run, int member)
    {
        if (!ofRun.TryGetValue(run, out var at)) return false;
        for (var i = at.First; i < at.First + at.Count; i++)
            if (member >= all[i].First && member <= all[i].Last) return true;
        return false;
    }

    /// <summary>Longest chord that loses no more than a sagitta on a radius, metres: 2√(2Rs − s²); the diameter at most.</summary>
    public static double LongestChord(double radius, double sagitta) =>
        sagitta >= radius ? 2 * radius : 2 * Math.Sqrt(2 * radius * sagitta - sagitta * sagitta);

    /// <summary>Sagitta of a chord on a radius, metres: R − √(R² − c²/4), nearly c²/8R.</summary>
    public static double Sagitta(double radius, double chord)
    {
        var half = Math.Min(chord / 2, radius);
        return half * half / (radius + Math.Sqrt(radius * radius - half * half));
    }

    /// <summary>What the arc is longer than its chord, metres: nearly 8s²/3c.</summary>
    public static double Lost(double radius, double chord) => 2 * radius * Math.Asin(Math.Min(1, chord / 2 / radius)) - chord;

    private sealed class Search(Site site, List<ChordCurve> into)
    {
        private readonly List<Corner> corners = [];
        private readonly List<Point2> places = [];
        private readonly List<double> weights = [];

        public void In(Run run)
        {
            for (var piece = 0; piece < run.PieceCount;)
            {
                var end = piece;
                while (end < run.PieceCount && run.Piece(end).Kind == PieceKind.Straight) end++;
                if (end - piece >= LeastChords) Along(run, run.Piece(piece).First, run.Piece(end - 1).Last);
                piece = Math.Max(end, piece + 1);
            }
        }

        /// <summary>Members from first to last are joined by straights: looks for stretches whose corners are proven and alike.</summary>
        private void Along(Run run, int first, int last)
        {
            corners.Clear();
            for (var member = first + 1; member < last; member++) corners.Add(Corner.At(site, run, member));
            for (var from = first + 1; from < last;)
            {
                var to = from;
                var (sum, count) = (0.0, 0);
                while (to < last && Turns(At(to)) && (count == 0 || Like(At(to), sum / count)))
                {
                    (sum, count) = (sum + At(to).Curvature, count + 1);
                    to++;
                }

                if (count >= 2) Try(run, first, last, from, to - 1);
                from = Math.Max(to, from + 1);
            }

            Corner At(int member) => corners[member - first - 1];
        }

        private static bool Turns(Corner corner) => Math.Abs(corner.Ordinate) >= Proven * corner.UOrdinate && Math.Abs(corner.Turn) is > 0 and <= MostTurn;

        private static bool Like(Corner corner, double mean) =>
            corner.Curvature * mean > 0 && (Math.Abs(corner.Curvature) <= Alike * Math.Abs(mean) && Math.Abs(mean) <= Alike * Math.Abs(corner.Curvature)
                || Math.Abs(corner.Curvature - mean) <= Proven * corner.UCurvature);

        /// <summary>The curve reaches from the member before the corners to the one after, or to the corners themselves where a straight begins there.</summary>
        private void Try(Run run, int first, int last, int from, int to)
        {
            var (before, after) = (Begins(from - 1, from), Begins(to + 1, to));
            for (var cut = 0; cut < 4; cut++)
            {
                var (early, late) = ((cut & 1) == 0, (cut & 2) == 0);
                if (early && !before || late && !after) continue;
                var (a, b) = (early ? from - 1 : from, late ? to + 1 : to);
                if (b - a < LeastChords || !Fits(run, a, b, out var radius, out var uRadius)) continue;
                Add(run, a, b, radius, uRadius);
                return;
            }

            bool Begins(int member, int within)
            {
                if (member <= first || member >= last) return true; // no straight leads on from here
                return corners[member - first - 1].Turn / corners[within - first - 1].Turn >= LeastShareAtEnd;
            }
        }

        private bool Fits(Run run, int from, int to, out double radius, out double uRadius)
        {
            (radius, uRadius) = (0, 0);
            var closes = run.Members[from] == run.Members[to];
            places.Clear();
            weights.Clear();
            var worst = 0.0;
            for (var member = from; member < (closes ? to : to + 1); member++)
            {
                var sigma = RunEnds.Sigma(site.Shots, site.Settings, run.Members[member]);
                if (!(sigma > 0)) return false;
                worst = Math.Max(worst, sigma);
                places.Add(site.Shots.At(run.Members[member]));
                weights.Add(1 / (sigma * sigma));
            }

            var at = CollectionsMarshal.AsSpan(places);
            var w = CollectionsMarshal.AsSpan(weights);
            var flatness = Proven * 1.5 * worst; // the ordinate's u is √1.5 to 1.5 times that of a shot
            ArcFit fit;
            if (closes)
            {
                if (!ArcFitting.TryCircle(at, flatness, out fit, out _, w)) return false;
            }
            else if (!ArcFitting.TryFree(at, flatness, out fit, out _, w) || !ArcFitting.TryHeld(at, flatness, out _, out _)) return false; // such an arc would be made

            if (fit.DegreesOfFreedom < 1 || ChiSquared.Above(fit.SumOfSquares, fit.DegreesOfFreedom) < TurnedDown) return false;
            (radius, uRadius) = (fit.Arc.Radius, Math.Sqrt(Math.Max(0, fit.Cofactor.RadiusRadius)));
            return true;
        }

        private void Add(Run run, int from, int to, double radius, double uRadius)
        {
            var (longest, turn, known) = (0.0, 0.0, true);
            for (var member = from; member <= to; member++)
            {
                known &= !double.IsNaN(site.Shots.SigmaPlan[run.Members[member]]);
                if (member == to) continue;
                longest = Math.Max(longest, run.Chainages[member + 1] - run.Chainages[member]);
                turn += 2 * Math.Asin(Math.Min(1, (run.Chainages[member + 1] - run.Chainages[member]) / 2 / radius));
            }

            into.Add(new(run.Number, from, to, radius, uRadius, longest, turn / (to - from), known));
        }
    }
}
