using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Ends of runs that come close to what they should join and miss it.</summary>
internal sealed class EndShort : ICheck
{
    /// <summary>An end this near lies on its neighbour, metres (DEFAULT), or within three times its standard uncertainty.</summary>
    private const double OnIt = 0.02;

    private const double Often = 3;

    /// <summary>A neighbour is ahead of an end within 75° of its way (DEFAULT); what lies beside is a neighbour in the same trench.</summary>
    private const double Ahead = 0.2588;

    /// <summary>Words by which an attribute of a run (<c>start</c>, <c>end</c>) says that the end is meant to lie free.</summary>
    private static readonly string[] Meant = ["continues", "cap", "stub", "limit of works"];

    public string Name => "end-short";

    public string Title => "Ends that miss what they should join";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var search = new Search(site);
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.MemberCount < 2 || run.Members[0] == run.Members[^1] || run.Entry is not { EndReach: > 0 } entry) continue;
            search.Look(run, entry, RunEnd.Start, found);
            search.Look(run, entry, RunEnd.End, found);
        }
    }

    private sealed class Search(Site site)
    {
        private readonly CurrentShots shots = site.Shots;
        private readonly List<int> near = [];
        private readonly Dictionary<int, bool[]> joins = [];
        private PlaceGrid? nodes;

        public void Look(Run run, CodeEntry entry, RunEnd end, Findings found)
        {
            var members = run.Members;
            var shot = end == RunEnd.Start ? members[0] : members[^1];
            if (site.Membership.IsShared(shot) || shots.CodeColumn[shot] != run.Table.CodeWords[run.Number]) return; // tied already
            var at = shots.At(shot);
            var least = Math.Max(OnIt, Often * RunEnds.Sigma(shots, site.Settings, shot));
            var (reach, onto) = (entry.EndReach!.Value, -1);
            var missed = NearestRun(run, entry, at, Onwards(run, end), reach, out var piece);
            var node = NearestNode(run, at, Math.Min(reach, missed), out var chamber);
            if (node < missed) (missed, onto, piece) = (node, chamber, null);
            if (missed > reach || missed <= least) return;
            if (RunAttributeSays(run, end)) return;
            if (onto < 0) onto = NearestMember(piece!.Value, at, reach);
            var length = run.PlanLength;
            var (from, to) = end == RunEnd.Start ? (0.0, run.Chainages[1]) : (run.Chainages[^2], length);
            found.Add(entry.NeedsProof ? Severity.Stop : Severity.Look, onto < 0 ? [shot] : [shot, onto], at, shots.HeightOf(shot), run.Number,
                from, to, missed, least, piece?.Run.Label, [end == RunEnd.Start ? 0 : 1, onto < 0 ? 0 : 1]);
        }

        /// <summary>The way the run heads where it ends, away from itself; a unit step.</summary>
        private static Step Onwards(Run run, RunEnd end)
        {
            var piece = run.Piece(end == RunEnd.Start ? 0 : run.PieceCount - 1);
            var back = end == RunEnd.Start ? -1 : 1;
            var way = piece.Kind == PieceKind.Arc ? piece.Arc.BearingAt(end == RunEnd.Start ? 0 : piece.PlanLength) : piece.Straight.Bearing;
            return back * way.Unit;
        }

        /// <summary>Distance to the nearest run ahead that this one may end on; infinite where there is none within reach.</summary>
        private double NearestRun(Run run, CodeEntry entry, Point2 at, Step onwards, double reach, out Piece? nearest)
        {
            var least = double.PositiveInfinity;
            nearest = null;
            near.Clear();
            site.PieceIndex.Near(at, reach, near);
            foreach (var number in near)
            {
                var piece = site.PieceAt(number);
                var candidate = piece.Run.Number;
                if (candidate == run.Number || !Joins(run, entry, candidate)) continue;
                var locus = piece.Kind == PieceKind.Arc ? piece.Arc.Locate(at) : piece.Straight.Locate(at);
                if (locus.Distance > reach || locus.Distance >= least) continue;
                if (locus.Distance > OnIt && onwards.Dot(locus.Foot - at) < Ahead * locus.Distance) continue; // it lies beside, as in one trench
                (least, nearest) = (locus.Distance, piece);
            }

            return least;
        }

        /// <summary>A code named in <c>ends_on</c>; where it names none, the same code or the same service.</summary>
        private bool Joins(Run run, CodeEntry entry, int other)
        {
            var table = run.Table;
            if (!entry.EndsOn.IsEmpty) return table.CodePlaces[other] >= 0 && JoinsOf(run)[table.CodePlaces[other]];
            if (table.CodeWords[other] == table.CodeWords[run.Number]) return true;
            return entry.Service is { } service && table.CodePlaces[other] >= 0 && shots.Book.Entries[table.CodePlaces[other]].Service == service;
        }

        /// <summary>Distance to the nearest point that the run may end on, such as a chamber.</summary>
        private double NearestNode(Run run, Point2 at, double reach, out int onto)
        {
            var least = double.PositiveInfinity;
            onto = -1;
            if (run.Entry!.EndsOn.IsEmpty || site.Points.IsEmpty) return least;
            nodes ??= new(shots, site.Points.AsSpan(), 2 * LongestReach());
            near.Clear();
            nodes.Near(at, reach, near);
            foreach (var row in near)
            {
                if (shots.PlaceColumn[row] < 0 || !JoinsOf(run)[shots.PlaceColumn[row]]) continue;
                var distance = at.DistanceTo(shots.At(row));
                if (distance < least) (least, onto) = (distance, row);
            }

            return least;
        }

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

        /// <summary>The member of a piece that is nearest to the end, where it is within reach; else −1.</summary>
        private int NearestMember(Piece piece, Point2 at, double reach)
        {
            var (best, least) = (-1, reach);
            foreach (var member in piece.Run.Members[piece.First..(piece.Last + 1)])
            {
                var distance = at.DistanceTo(shots.At(member));
                if (distance <= least) (best, least) = (member, distance);
            }

            return best;
        }

        private static bool RunAttributeSays(Run run, RunEnd end) =>
            run.Table.AttributesOf(run.Number).TryGetValue(end == RunEnd.Start ? "start" : "end", out var word) && Array.IndexOf(Meant, word) >= 0;
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} {(finding.Figure(0) > 0 ? "ends" : "begins")} at {finding.Shot(0)}, {CheckText.Metres(finding.Measured)} short of {What(finding)}.";

    private static string What(Finding finding) => finding.Word ?? finding.Shot(1);

    public string Cure(Finding finding) => finding.Figure(1) > 0
        ? $"Tie it to {finding.Shot(1)} if it joins there, shoot the joint, or say that the end continues, is a cap, a stub or the limit of works."
        : $"Shoot where it meets {What(finding)}, or say that the end continues, is a cap, a stub or the limit of works.";

    public Change? Correction(Finding finding) => finding.Figure(1) > 0
        ? new EndTied(finding.Run!.Value.Key, finding.Figure(0) > 0 ? RunEnd.End : RunEnd.Start, finding.Key(1), Instead: false)
        : null;

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
