using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Ends of runs that come close to what they should join and miss it.</summary>
internal sealed class EndShort : ICheck
{
    /// <summary>An end this near lies on its neighbour, metres (DEFAULT), or within what chance explains by <see cref="AlarmBudget"/>.</summary>
    private const double OnIt = 0.02;

    /// <summary>A node nearer than this may be joined by lengthening the run, metres (DEFAULT); farther off its own size would be counted as pipe.</summary>
    private const double Joinable = 0.1;

    /// <summary>A neighbour is ahead of an end within 75° of its way (DEFAULT); what lies beside is a neighbour in the same trench.</summary>
    private const double Ahead = 0.2588;

    public string Name => "end-short";

    public string Title => "Ends that miss what they should join";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var tested = 0;
        for (var number = 0; number < site.Runs.Count; number++)
            if (Ends(site.Runs[number])) tested += 2;
        if (tested == 0) return;
        var search = new Search(site, AlarmBudget.Sigmas(tested));
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (!Ends(run)) continue;
            search.Look(run, run.Entry!, RunEnd.Start, found);
            search.Look(run, run.Entry!, RunEnd.End, found);
        }
    }

    private static bool Ends(Run run) => run.MemberCount >= 2 && run.Members[0] != run.Members[^1] && run.Entry is { EndReach: > 0 };

    /// <param name="sigmas">Standard uncertainties by which an end must miss a run.</param>
    private sealed class Search(Site site, double sigmas)
    {
        private readonly CurrentShots shots = site.Shots;
        private readonly List<int> near = [];
        private readonly Dictionary<int, bool[]> joins = [];
        private readonly double widest = Math.Max(NodeTable.UsualHalf, site.Shots.Book.Entries.Max(entry => (HalfOf(entry) ?? 0) + (entry.TolerancePlan ?? 0)));
        private PlaceGrid? nodes;

        public void Look(Run run, CodeEntry entry, RunEnd end, Findings found)
        {
            var members = run.Members;
            var shot = end == RunEnd.Start ? members[0] : members[^1];
            if (site.Nodes.Tied.Contains((run.Number, end)) || site.Membership.IsShared(shot) || shots.CodeColumn[shot] != run.Table.CodeWords[run.Number]) return; // tied already
            var (onwards, reach) = (Onwards(run, end), entry.EndReach!.Value);
            var ofRun = NearestRun(run, entry, shot, onwards, reach);
            if (ofRun.Distance <= ofRun.Least) return;
            var ofNode = NearestNode(run, entry, shot, onwards, reach);
            if (ofNode.Distance <= ofNode.Least) return;
            var misses = ofNode.Distance < ofRun.Distance || ofNode.Onto >= 0 && shots.At(ofNode.Onto).DistanceTo(ofRun.Foot) <= ofNode.Least ? ofNode : ofRun;
            if (misses.Distance > reach || IsMeant(run, end)) return;
            var aNode = misses.Run is null;
            var tie = aNode ? misses.Distance < Joinable : misses.Onto >= 0 && shots.At(shot).DistanceTo(shots.At(misses.Onto)) <= reach;
            var (from, to) = end == RunEnd.Start ? (0.0, run.Chainages[1]) : (run.Chainages[^2], run.PlanLength);
            found.Add(entry.NeedsProof && !aNode ? Severity.Stop : Severity.Look, aNode || tie ? [shot, misses.Onto] : [shot], shots.At(shot), shots.HeightOf(shot),
                run.Number, from, to, misses.Distance, misses.Least, misses.Run?.Label, [end == RunEnd.Start ? 0 : 1, tie ? 1 : 0, aNode ? 1 : 0]);
        }

        /// <summary>The way the run heads where it ends, away from itself; a unit step.</summary>
        private static Step Onwards(Run run, RunEnd end)
        {
            var piece = run.Piece(end == RunEnd.Start ? 0 : run.PieceCount - 1);
            var back = end == RunEnd.Start ? -1 : 1;
            var way = piece.Kind == PieceKind.Arc ? piece.Arc.BearingAt(end == RunEnd.Start ? 0 : piece.PlanLength) : piece.Straight.Bearing;
            return back * way.Unit;
        }

        /// <summary>What an end comes near to.</summary>
        /// <param name="Distance">Metres; infinite where nothing is within reach.</param>
        /// <param name="Least">Metres up to which the end lies on it.</param>
        /// <param name="Foot">Where it is nearest.</param>
        /// <param name="Onto">Its nearest shot; −1 where there is none.</param>
        /// <param name="Run">The run; null for a node.</param>
        private readonly record struct Neighbour(double Distance, double Least, Point2 Foot, int Onto, Run? Run)
        {
            public static Neighbour None => new(double.PositiveInfinity, 0, default, -1, null);
        }

        /// <summary>The nearest run ahead that this one may end on, or one on which it lies.</summary>
        private Neighbour NearestRun(Run run, CodeEntry entry, int shot, Step onwards, double reach)
        {
            var (at, nearest) = (shots.At(shot), Neighbour.None);
            near.Clear();
            site.PieceIndex.Near(at, reach, near);
            foreach (var number in near)
            {
                var piece = site.PieceAt(number);
                var candidate = piece.Run.Number;
                if (candidate == run.Number || site.Relations.MayTouch(run.Number, candidate) || !Joins(run, entry, candidate)) continue;
                var locus = piece.Kind == PieceKind.Arc ? piece.Arc.Locate(at) : piece.Straight.Locate(at);
                if (locus.Distance > reach || locus.Distance >= nearest.Distance) continue;
                var onto = NearestMember(piece, at);
                var least = Math.Max(OnIt, sigmas * Uncertainty(shot, onto));
                if (locus.Distance > least && onwards.Dot(locus.Foot - at) < Ahead * locus.Distance) continue; // it lies beside, as in one trench
                nearest = new(locus.Distance, least, locus.Foot, onto, piece.Run);
            }

            return nearest;
        }

        /// <summary>Standard uncertainty of the step between two shots, metres per axis: what a session has in common counts only between two.</summary>
        private double Uncertainty(int a, int b)
        {
            var own = double.Hypot(RunEnds.Sigma(shots, site.Settings, a), RunEnds.Sigma(shots, site.Settings, b));
            if (shots.SessionColumn[a] == shots.SessionColumn[b]) return own;
            return double.Hypot(own, double.Hypot(Common(a), Common(b)));

            double Common(int row) => shots.Sessions[shots.SessionColumn[row]].UPlan is var u && double.IsNaN(u) ? 0 : u;
        }

        /// <summary>A code named in <c>ends_on</c>; where it names none, the same code or the same service.</summary>
        private bool Joins(Run run, CodeEntry entry, int other)
        {
            var table = run.Table;
            if (!entry.EndsOn.IsEmpty) return table.CodePlaces[other] >= 0 && JoinsOf(run)[table.CodePlaces[other]];
            if (table.CodeWords[other] == table.CodeWords[run.Number]) return true;
            return entry.Service is { } service && table.CodePlaces[other] >= 0 && shots.Book.Entries[table.CodePlaces[other]].Service == service;
        }

        /// <summary>The nearest point ahead that the run may end on, such as a chamber, or one within whose size it ends.</summary>
        private Neighbour NearestNode(Run run, CodeEntry entry, int shot, Step onwards, double reach)
        {
            var (at, nearest) = (shots.At(shot), Neighbour.None);
            if (entry.EndsOn.IsEmpty || site.Points.IsEmpty) return nearest;
            nodes ??= new(shots, site.Points.AsSpan(), 2 * Math.Max(LongestReach(), widest));
            near.Clear();
            nodes.Near(at, Math.Max(reach, widest), near);
            foreach (var row in near)
            {
                if (shots.PlaceColumn[row] < 0 || !JoinsOf(run)[shots.PlaceColumn[row]]) continue;
                var (distance, least) = (at.DistanceTo(shots.At(row)), NodeTable.UsualHalf);
                if (HalfOf(shots.Book.Entries[shots.PlaceColumn[row]]) is { } half) least = half + (entry.TolerancePlan ?? 0);
                if (distance <= least) return new(distance, least, shots.At(row), row, null);
                if (distance > reach || distance >= nearest.Distance || onwards.Dot(shots.At(row) - at) < Ahead * distance) continue;
                nearest = new(distance, least, shots.At(row), row, null);
            }

            return nearest;
        }

        private static double? HalfOf(CodeEntry entry) => (entry.Width ?? entry.OutsideDiameter) / 2;

        private double LongestReach()
        {
            var longest = 0.0;
            foreach (var entry in shots.Book.Entries) longest = Math.Max(longest, entry.EndReach ?? 0);
            return longest;
        }

        private bool[] JoinsOf(Run run)
        {
            var place = run.Table.CodePlaces[run.Number];
            if (joins.TryGetValue(place, out var known)) return known;
            var codes = joins[place] = new bool[shots.Book.Entries.Length];
            foreach (var code in run.Entry!.EndsOn)
                if (shots.Book.Find(code) is >= 0 and var at) codes[at] = true;
            return codes;
        }

        /// <summary>Whether somebody said that the end is meant to lie free.</summary>
        private static bool IsMeant(Run run, RunEnd end) => (end == RunEnd.Start ? run.Facts.Start : run.Facts.End) is not null;

        /// <summary>The member of a piece that is nearest to the end.</summary>
        private int NearestMember(Piece piece, Point2 at)
        {
            var (best, least) = (-1, double.PositiveInfinity);
            foreach (var member in piece.Run.Members[piece.First..(piece.Last + 1)])
            {
                var distance = at.DistanceTo(shots.At(member));
                if (distance < least) (best, least) = (member, distance);
            }

            return best;
        }
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} {(finding.Figure(0) > 0 ? "ends" : "begins")} at {finding.Shot(0)}, {CheckText.Metres(finding.Measured)} "
        + (OfNode(finding) ? $"from {finding.Shot(1)}; a node's size explains {CheckText.Metres(finding.Allowed)}." : $"short of {What(finding)}.");

    private static bool OfNode(Finding finding) => finding.Figure(2) > 0;

    private static string What(Finding finding) => finding.Word ?? finding.Shot(1);

    public string Cure(Finding finding) => finding switch
    {
        _ when finding.Figure(1) > 0 => $"Tie it to {finding.Shot(1)} if it joins there, shoot the joint, {OrSay}",
        _ when OfNode(finding) => $"Shoot where it meets {finding.Shot(1)}, accept it if {finding.Shot(1)} is that large, {OrSay}",
        _ => $"Shoot where it meets {What(finding)}, {OrSay}",
    };

    private const string OrSay = "or say that the end continues, is a cap, a stub or the limit of works.";

    public Change? Correction(Finding finding) => finding.Figure(1) > 0
        ? new EndTied(finding.Run!.Value.Key, finding.Figure(0) > 0 ? RunEnd.End : RunEnd.Start, finding.Key(1), Instead: false)
        : null;

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
