using System.Runtime.InteropServices;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How the coordinates of a batch went wrong.</summary>
internal enum BatchFault : byte
{
    /// <summary>They did not, as far as one can tell.</summary>
    None,

    /// <summary>East and north are exchanged.</summary>
    AxesSwapped,

    /// <summary>The unit is wrong: positions, or heights alone, are right after a factor.</summary>
    Unit,

    /// <summary>They are of another site or another grid.</summary>
    AnotherSite,
}

/// <summary>What is said of a batch.</summary>
/// <param name="Factor">By which its coordinates, or its heights alone, must be multiplied; 1 for none.</param>
/// <param name="Swapped">Whether east and north must also be exchanged.</param>
/// <param name="HeightsOnly">Whether the factor is of heights alone.</param>
/// <param name="Off">Metres: how far it lies from its place as given.</param>
/// <param name="Residual">Metres: how far once it is put right, by check shots where it has any, else from the nearest place known.</param>
/// <param name="CheckShots">How many check shots say so; 0 for none.</param>
internal readonly record struct BatchPlace(BatchFault Fault, double Factor, bool Swapped, bool HeightsOnly, double Off, double Residual, int CheckShots);

/// <summary>
/// Which batches do not lie where the site is, and what would bring them there: control and the other batches tell. One batch without
/// control has nothing to be compared with.
/// </summary>
/// <remarks>
/// Places are cells as wide as <see cref="Settings.OtherSiteDistance"/>; cells that touch and hold places no farther apart belong together, so that a long job goes
/// from batch to batch. At home is what hangs together with control, or, without control, most of the shots.
/// </remarks>
internal sealed class BatchPlaces
{
    /// <summary>The international foot, metres (exact).</summary>
    public const double Foot = 0.3048;

    /// <summary>The US survey foot, metres.</summary>
    public const double SurveyFoot = 1200.0 / 3937.0;

    /// <summary>Check shots that are put right lie this near to their points, metres (DEFAULT).</summary>
    private const double Meets = 1;

    /// <summary>Check shots that need putting right lie at least this far off, metres (DEFAULT).</summary>
    private const double Misses = 10;

    /// <summary>Heights that need putting right are at least this far off, metres (DEFAULT).</summary>
    private const double HeightMisses = 1;

    /// <summary>So many check shots must agree where heights alone or a few parts in a million are at stake (DEFAULT).</summary>
    private const int EnoughChecks = 2;

    /// <summary>So many shots tell where a batch lies.</summary>
    private const int Samples = 256;

    private readonly Site site;
    private readonly BatchPlace[] places;
    private readonly bool any;

    public BatchPlaces(Site site)
    {
        this.site = site;
        var batches = site.Shots.Raw.Batches;
        places = new BatchPlace[batches.Length];
        var ground = new Ground(site);
        var checks = ChecksOf(site);
        for (var batch = 0; batch < places.Length; batch++)
        {
            places[batch] = ByCheckShots(checks[batch]);
            if (places[batch].Fault == BatchFault.None && ground.IsAway(batch)) places[batch] = ground.Told(batch);
            any |= places[batch].Fault != BatchFault.None;
        }
    }

    /// <summary>What is said of a batch, from 0.</summary>
    public BatchPlace Of(int batch) => places[batch];

    /// <summary>Whether a shot lies off only since all of its batch does.</summary>
    public bool Explains(int row) => any && places[site.Shots.Raw.BatchOf(row).Number - 1].Fault != BatchFault.None;

    /// <summary>First shot of each session of a batch, so that a finding speaks of all of them.</summary>
    public int[] FirstShots(int batch)
    {
        var (of, rows, known) = (site.Shots.Raw.Batches[batch], new List<int>(), new HashSet<int>());
        for (var row = of.FirstRow; row < of.FirstRow + of.Count; row++)
            if (site.Shots.IsShot(row) && site.Shots.UsedColumn[row] && known.Add(site.Shots.SessionColumn[row])) rows.Add(row);
        return [.. rows];
    }

    private static List<CheckShot>?[] ChecksOf(Site site)
    {
        var of = new List<CheckShot>?[site.Shots.Raw.Batches.Length];
        foreach (var check in site.CheckShots) (of[site.Shots.Raw.BatchOf(check.Row).Number - 1] ??= []).Add(check);
        return of;
    }

    /// <summary>Check shots are the best witnesses: they say which point they are on.</summary>
    private BatchPlace ByCheckShots(List<CheckShot>? checks)
    {
        if (checks is null) return default;
        var off = Middle(checks, Correction.None);
        if (OfTwoFeet(checks, off) is { } two) return two;
        if (off <= Misses) return OfHeights(checks) ?? default;
        var best = default(BatchPlace);
        foreach (var correction in Correction.All)
        {
            var residual = Middle(checks, correction);
            if (residual <= Meets && (best.Fault == BatchFault.None || residual < best.Residual)) best = correction.Place(off, residual, checks.Count);
        }

        return best;
    }

    /// <summary>Median misfit in plan of check shots, metres, once they are corrected.</summary>
    private double Middle(List<CheckShot> checks, Correction correction)
    {
        var misfits = new double[checks.Count];
        for (var i = 0; i < misfits.Length; i++) misfits[i] = correction.Of(site.Shots.At(checks[i].Row)).DistanceTo(site.Control[checks[i].Point].At);
        Array.Sort(misfits);
        return misfits[misfits.Length / 2];
    }

    /// <summary>
    /// International for US survey feet, or the other way: all check shots are off by the same two millionths of their coordinates.
    /// Only where that is far more than control may be missed by.
    /// </summary>
    private BatchPlace? OfTwoFeet(List<CheckShot> checks, double off)
    {
        if (checks.Count < EnoughChecks || off < 3 * site.Settings.ControlPlanMax) return null;
        foreach (var factor in (ReadOnlySpan<double>)[SurveyFoot / Foot, Foot / SurveyFoot])
        {
            var worst = 0.0;
            foreach (var check in checks)
                worst = Math.Max(worst, new Correction(factor, false).Of(site.Shots.At(check.Row)).DistanceTo(site.Control[check.Point].At));
            if (worst <= site.Settings.ControlPlanMax) return new Correction(factor, false).Place(off, worst, checks.Count);
        }

        return null;
    }

    /// <summary>Heights in feet beside positions in metres, or the other way.</summary>
    private BatchPlace? OfHeights(List<CheckShot> checks)
    {
        foreach (var factor in (ReadOnlySpan<double>)[Foot, 1 / Foot])
        {
            var (known, worst, off) = (0, 0.0, double.PositiveInfinity);
            foreach (var check in checks)
            {
                if (check.Height is not { } misfit || site.Control[check.Point].Height is not { } height) continue;
                known++;
                worst = Math.Max(worst, Math.Abs(factor * (height + misfit) - height));
                off = Math.Min(off, Math.Abs(misfit));
            }

            if (known >= EnoughChecks && off > HeightMisses && worst <= site.Settings.ControlHeightMax)
                return new(BatchFault.Unit, factor, false, true, off, worst, known);
        }

        return null;
    }

    /// <summary>What may put positions right.</summary>
    private readonly record struct Correction(double Factor, bool Swaps)
    {
        public static Correction None { get; } = new(1, false);

        /// <summary>The likeliest first.</summary>
        public static Correction[] All { get; } =
            [new(1, true), new(Foot, false), new(SurveyFoot, false), new(1 / Foot, false), new(1 / SurveyFoot, false), new(Foot, true), new(1 / Foot, true)];

        public Point2 Of(Point2 at) => Swaps ? new(Factor * at.North, Factor * at.East) : new(Factor * at.East, Factor * at.North);

        public BatchPlace Place(double off, double residual, int checks) =>
            new(Factor == 1 ? BatchFault.AxesSwapped : BatchFault.Unit, Factor, Swaps, false, off, residual, checks);
    }

    /// <summary>Where control and batches lie, by cells that hang together.</summary>
    private sealed class Ground
    {
        private readonly Site site;
        private readonly double cell;
        private readonly Dictionary<(long East, long North), int> numbers = [];
        private readonly List<int> parents = [];
        private readonly List<Box2> boxes = []; // what lies in each cell
        private readonly List<Point2>[] samples;
        private readonly int[] homes; // cell in which most of a batch lies, or −1
        private readonly Point2?[] middles;
        private readonly HashSet<int> atHome = [];

        public Ground(Site site)
        {
            (this.site, cell) = (site, site.Settings.OtherSiteDistance);
            samples = [.. site.Shots.Raw.Batches.Select(Sampled)];
            homes = [.. samples.Select(MostOf)];
            middles = new Point2?[homes.Length];
            foreach (var point in site.Control) atHome.Add(NumberOf(point.At));
            Join();
            if (site.Control.IsEmpty && Largest() is >= 0 and var largest) atHome.Add(largest);
            foreach (var home in atHome.ToArray()) atHome.Add(Root(home));
        }

        public bool IsAway(int batch) => homes[batch] >= 0 && !atHome.Contains(Root(homes[batch]));

        /// <summary>The first correction that brings a batch home, else that it is of another site.</summary>
        public BatchPlace Told(int batch)
        {
            var off = Nearest(samples[batch], Correction.None);
            foreach (var correction in Correction.All)
                if (BringsHome(samples[batch], correction)) return correction.Place(off, Nearest(samples[batch], correction), 0);
            return new(BatchFault.AnotherSite, 1, false, false, off, off, 0);
        }

        private List<Point2> Sampled(Batch batch)
        {
            var (of, step) = (new List<Point2>(), Math.Max(1, batch.Count / Samples));
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row += step)
                if (site.Shots.IsShot(row) && site.Shots.UsedColumn[row]) of.Add(site.Shots.At(row));
            return of;
        }

        private (long East, long North) CellOf(Point2 at) => ((long)Math.Floor(at.East / cell), (long)Math.Floor(at.North / cell));

        private int NumberOf(Point2 at)
        {
            ref var number = ref CollectionsMarshal.GetValueRefOrAddDefault(numbers, CellOf(at), out var known);
            if (!known)
            {
                parents.Add(number = parents.Count);
                boxes.Add(Box2.Of(at, at));
            }

            boxes[number] = boxes[number].Union(Box2.Of(at, at));
            return number;
        }

        private int MostOf(List<Point2> points)
        {
            var counts = new Dictionary<int, int>();
            foreach (var point in points) counts[NumberOf(point)] = counts.GetValueOrDefault(NumberOf(point)) + 1;
            return counts.Count == 0 ? -1 : counts.MaxBy(count => (count.Value, -count.Key)).Key;
        }

        private int Root(int number)
        {
            while (parents[number] != number) number = parents[number] = parents[parents[number]];
            return number;
        }

        private void Join()
        {
            foreach (var ((east, north), number) in numbers)
                foreach (var (e, n) in (ReadOnlySpan<(int, int)>)[(1, -1), (1, 0), (1, 1), (0, 1)])
                    if (numbers.TryGetValue((east + e, north + n), out var beside) && Apart(boxes[number], boxes[beside]) <= cell) parents[Root(beside)] = Root(number);
        }

        /// <summary>Where most of the shots lie, the earliest of equals.</summary>
        private int Largest()
        {
            var counts = new Dictionary<int, int>();
            for (var batch = 0; batch < homes.Length; batch++)
                if (homes[batch] >= 0) counts[Root(homes[batch])] = counts.GetValueOrDefault(Root(homes[batch])) + site.Shots.Raw.Batches[batch].Count;
            return counts.Count == 0 ? -1 : counts.MaxBy(count => (count.Value, -count.Key)).Key;
        }

        /// <summary>Whether nearly all of a batch comes to lie in cells at home, or beside them.</summary>
        private bool BringsHome(List<Point2> points, Correction correction)
        {
            var come = 0;
            foreach (var point in points)
                if (IsHome(correction.Of(point))) come++;
            return come >= 0.9 * points.Count;
        }

        private bool IsHome(Point2 place)
        {
            var at = CellOf(place);
            for (var e = -1; e <= 1; e++)
                for (var n = -1; n <= 1; n++)
                    if (numbers.TryGetValue((at.East + e, at.North + n), out var number) && atHome.Contains(Root(number))
                        && Apart(boxes[number], Box2.Of(place, place)) <= cell) return true;
            return false;
        }

        private static double Apart(Box2 a, Box2 b) => double.Hypot(
            Math.Max(0, Math.Max(a.MinEast, b.MinEast) - Math.Min(a.MaxEast, b.MaxEast)),
            Math.Max(0, Math.Max(a.MinNorth, b.MinNorth) - Math.Min(a.MaxNorth, b.MaxNorth)));

        /// <summary>Metres from the middle of a batch to the nearest control point, or where there is none to the middle of a batch at home.</summary>
        private double Nearest(List<Point2> points, Correction correction)
        {
            var (middle, least) = (correction.Of(MiddleOf(points)), double.PositiveInfinity);
            foreach (var point in site.Control) least = Math.Min(least, middle.DistanceTo(point.At));
            for (var batch = 0; batch < homes.Length; batch++)
                if (homes[batch] >= 0 && !IsAway(batch)) least = Math.Min(least, middle.DistanceTo(middles[batch] ??= MiddleOf(samples[batch])));
            return least;
        }

        private static Point2 MiddleOf(List<Point2> points)
        {
            double[] east = [.. points.Select(point => point.East)], north = [.. points.Select(point => point.North)];
            Array.Sort(east);
            Array.Sort(north);
            return new(east[east.Length / 2], north[north.Length / 2]);
        }
    }
}
