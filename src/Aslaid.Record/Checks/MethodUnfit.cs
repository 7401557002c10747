using System.Runtime.InteropServices;

namespace Aslaid.Record;

/// <summary>
/// Shots measured so that no value could be proven within their construction tolerance: one finding for each code and batch.
/// Figures: for height, then for plan: worst 95 % uncertainty, tolerance, shots unfit; then shots of the code in the batch.
/// </summary>
internal sealed class MethodUnfit : ICheck
{
    private const int OfHeight = 0;
    private const int OfPlan = 3;
    private const int OfAll = 6;

    public string Name => "method-unfit";

    public string Title => "Measured too coarsely for the tolerance";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    /// <summary>A method that is too coarse by itself is no consequence of its session.</summary>
    public bool MayFoldUnder(Finding finding, Finding leader) => !leader.Check.HoldsSession || finding.Figure(OfAll + 1) == 0;

    public void Look(Site site, Findings found)
    {
        var bounds = new Bounds[site.Shots.Book.Entries.Length];
        for (var place = 0; place < bounds.Length; place++) bounds[place] = Bounds.Of(site.Shots.Book.Entries[place]);
        if (!Array.Exists(bounds, bound => bound.Any)) return;

        var ofBatch = new Unfit?[bounds.Length];
        var rows = site.ShotRows;
        var next = 0;
        foreach (var batch in site.Shots.Raw.Batches)
        {
            for (; next < rows.Length && rows[next] < batch.FirstRow + batch.Count; next++)
            {
                var place = site.Shots.PlaceColumn[rows[next]];
                if (place >= 0 && bounds[place].Any) (ofBatch[place] ??= new()).Take(site, rows[next], bounds[place]);
            }

            for (var place = 0; place < ofBatch.Length; place++)
            {
                if (ofBatch[place] is not { } unfit) continue;
                if (unfit.Rows.Count > 0) Add(site, site.Shots.Book.Entries[place], unfit, bounds[place], found);
                ofBatch[place] = null;
            }
        }
    }

    /// <summary>
    /// The largest 95 % uncertainty with which something could be proven, and the largest that the shot itself may have, metres;
    /// infinite without a limit.
    /// </summary>
    private readonly record struct Bounds(double Plan, double Height, double Coverage, double OwnPlan, double OwnHeight)
    {
        public bool Any => Plan < double.PositiveInfinity || Height < double.PositiveInfinity;

        /// <summary>A point lies in a circle about its place, a line is judged by its offset; a height has half the width of its limits.</summary>
        public static Bounds Of(CodeEntry entry) => new(
            entry.TolerancePlan ?? double.PositiveInfinity, Limits.OfHeight(entry).Width / 2 ?? double.PositiveInfinity,
            entry.Kind == CodeKind.Point ? Normal.Circle95 : Normal.Within95,
            entry.Plan95Max ?? double.PositiveInfinity, entry.Height95Max ?? double.PositiveInfinity);
    }

    /// <summary>What a batch holds of a code.</summary>
    private sealed class Unfit
    {
        public List<int> Rows { get; } = [];

        public int All { get; private set; }

        /// <summary>Whether a shot is too coarse without what its session adds.</summary>
        public bool ByItself { get; private set; }

        public (double U95, int Shot, int Count) Plan;

        public (double U95, int Shot, int Count) Height;

        /// <summary>A shot worse than its own location accuracy allows is the finding of that check; where nothing is given NaN compares false.</summary>
        public void Take(Site site, int row, in Bounds bounds)
        {
            All++;
            var (place, level) = (site.Shots.OwnPlaceSigma(row), site.Shots.OwnLevelSigma(row));
            if (Normal.Circle95 * place > bounds.OwnPlan + Limits.Same || Normal.Within95 * level > bounds.OwnHeight + Limits.Same) return;
            var (plan, height) = (bounds.Coverage * site.Shots.OwnPlaceSigma(row, assumed: true), double.IsNaN(site.Shots.Heights[row]) ? double.NaN : Normal.Within95 * site.Shots.OwnLevelSigma(row, assumed: true));
            var (inPlan, inHeight) = (plan > bounds.Plan + Limits.Same, height > bounds.Height + Limits.Same);
            if (inPlan) Plan = (Math.Max(Plan.U95, plan), plan > Plan.U95 ? row : Plan.Shot, Plan.Count + 1);
            if (inHeight) Height = (Math.Max(Height.U95, height), height > Height.U95 ? row : Height.Shot, Height.Count + 1);
            if (!(inPlan || inHeight)) return;
            Rows.Add(row);
            ByItself |= inPlan && bounds.Coverage * site.Shots.ShotPlaceSigma(row) > bounds.Plan || inHeight && Normal.Within95 * site.Shots.ShotLevelSigma(row) > bounds.Height;
        }
    }

    private static void Add(Site site, CodeEntry entry, Unfit unfit, in Bounds bounds, Findings found)
    {
        var byHeight = unfit.Plan.Count == 0 || unfit.Height.Count > 0 && unfit.Height.U95 / bounds.Height >= unfit.Plan.U95 / bounds.Plan;
        var worst = byHeight ? unfit.Height : unfit.Plan;
        found.Add(entry.NeedsProof ? Severity.Stop : Severity.Look, CollectionsMarshal.AsSpan(unfit.Rows), site.Shots.At(worst.Shot), site.Shots.HeightOf(worst.Shot),
            measured: worst.U95, allowed: byHeight ? bounds.Height : bounds.Plan, word: entry.Code,
            figures: [unfit.Height.U95, bounds.Height, unfit.Height.Count, unfit.Plan.U95, bounds.Plan, unfit.Plan.Count, unfit.All, unfit.ByItself ? 1 : 0]);
    }

    public string Message(Finding finding)
    {
        var of = $"{finding.Word} in {finding.Table.RunTable.Shots.Raw.BatchOf(finding.Shots[0]).FileName}";
        var height = Part(finding, OfHeight, $"Heights of {of} are good to", "height");
        var plan = Part(finding, OfPlan, finding.Figure(OfHeight + 2) > 0 ? "In plan they are good to" : $"Places in plan of {of} are good to", "place");
        return $"{height}{(height.Length > 0 && plan.Length > 0 ? " " : "")}{plan}";
    }

    private static string Part(Finding finding, int first, string begin, string thing) => finding.Figure(first + 2) == 0
        ? ""
        : $"{begin} {CheckText.Metres(finding.Figure(first))} at 95 %, tolerance {CheckText.Metres(finding.Figure(first + 1))}: no {thing} measured so can be proven "
            + $"({CheckText.Number(finding.Figure(first + 2), "0")} of {CheckText.Count(finding.Figure(OfAll), "shot")}).";

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Measure again by a method that can prove it, such as a level or total station, before it is covered."
        : "Where the tolerance must be proven, measure by level or total station.";

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
