namespace Aslaid.Record;

/// <summary>One thing measured twice, with two results.</summary>
internal sealed class MeasuredTwice : ICheck
{
    /// <summary>Standard uncertainties of the difference within which two shots are one place in plan.</summary>
    private const double Often = 3;

    /// <summary>Two things of a code for nodes cannot stand nearer than this, nor can shots farther apart be one place, metres (DEFAULT).</summary>
    private const double Farthest = 0.15;

    /// <summary>Heights of one thing may differ by this where its code has no tolerance, metres (DEFAULT).</summary>
    private const double UsualHeight = 0.020;

    /// <summary>Later shots that one is compared with.</summary>
    private const int Compared = 16;

    private const double InPlan = 0;
    private const double InHeight = 1;

    public string Name => "measured-twice";

    public string Title => "Measured twice, with two results";

    public string Unit => "m";

    public bool DoubtsItsShots => true;

    public void Look(Site site, Findings found)
    {
        var said = SaidRepeats.Of(site);
        var seen = new HashSet<(int, int)>();
        foreach (var (first, again) in said)
        {
            seen.Add((Math.Min(first, again), Math.Max(first, again)));
            Compare(site, first, again, AlarmBudget.Sigmas(said.Count), found);
        }

        var (points, sizes) = (Points(site), Sizes(site.Shots.Book));
        if (points.Length < 2) return;
        var (shots, sigmas, near) = (site.Shots, AlarmBudget.Sigmas(points.Length), new List<int>());
        var grid = new PlaceGrid(shots, points, 10 * Farthest);
        for (var place = 0; place < points.Length; place++)
        {
            var row = points[place];
            near.Clear();
            grid.Near(shots.At(row), Farthest, near, after: place, most: Compared);
            if (near.Count == 0) continue;
            near.Sort();
            foreach (var other in near)
            {
                if (shots.CodeColumn[other] != shots.CodeColumn[row] || SameIdInBatch(shots, row, other) || seen.Contains((row, other))) continue;
                if (!Disagrees(site, row, other, sizes[shots.PlaceColumn[row]], sigmas, found)) continue;
                break; // one finding a shot
            }
        }
    }

    /// <summary>Points that were measured: no control, nothing read off records.</summary>
    private static int[] Points(Site site)
    {
        var (shots, records, rows) = (site.Shots, new Records(site.Shots.Raw), new List<int>());
        foreach (var row in site.ShotRows)
            if (shots.PlaceColumn[row] >= 0 && shots.Book.Entries[shots.PlaceColumn[row]].Kind == CodeKind.Point && !records.Has(row)) rows.Add(row);
        return [.. rows];
    }

    /// <summary>How near two things of each code cannot stand, metres: their size, or a hand's breadth for what runs end on; 0 where nothing is known.</summary>
    private static double[] Sizes(CodeBook book)
    {
        var nodes = book.Entries.SelectMany(entry => entry.EndsOn).ToHashSet(StringComparer.Ordinal);
        return [.. book.Entries.Select(entry => Math.Min(Farthest, entry.OutsideDiameter ?? entry.Width ?? (nodes.Contains(entry.Code) ? Farthest : 0)))];
    }

    /// <summary>Ids that come twice in a batch are another mistake.</summary>
    private static bool SameIdInBatch(CurrentShots shots, int a, int b) =>
        shots.Raw.IdBytes(a).SequenceEqual(shots.Raw.IdBytes(b)) && shots.Raw.BatchOf(a) == shots.Raw.BatchOf(b);

    /// <summary>One place, and heights that disagree; or so near that it must be one thing, and places that disagree.</summary>
    private static bool Disagrees(Site site, int first, int second, double size, double sigmas, Findings found)
    {
        var shots = site.Shots;
        var apart = shots.At(first).DistanceTo(shots.At(second));
        var (uPlan, uHeight) = U(shots, first, second);
        var place = Math.Max(site.Settings.SamePlace, Math.Min(Farthest, Often * Math.Sqrt(2) * uPlan));
        if (double.IsNaN(place)) place = site.Settings.SamePlace;
        var step = Math.Abs(shots.Heights[first] - shots.Heights[second]);
        var heightLimit = Math.Max(Tolerance(shots, first), sigmas * uHeight);
        if (apart <= place && step > heightLimit)
        {
            Add(site, first, second, InHeight, step, heightLimit, uHeight, found);
            return true;
        }

        var planLimit = Math.Max(site.Settings.SamePlace, AlarmBudget.Radial(sigmas) * uPlan);
        if (!(apart < size && apart > planLimit) || step > heightLimit || !LaterOn(site, first, second)) return false;
        var entry = shots.Book.Entries[shots.PlaceColumn[first]];
        var beyondDoubt = entry.OutsideDiameter is not null || entry.Width is not null || SameId(shots, first, second);
        Add(site, first, second, InPlan, apart, planLimit, uPlan, found, beyondDoubt);
        return true;
    }

    /// <summary>A repeat that the crew itself named, however far off.</summary>
    private static void Compare(Site site, int first, int again, double sigmas, Findings found)
    {
        var shots = site.Shots;
        var (uPlan, uHeight) = U(shots, first, again);
        var (apart, step) = (shots.At(first).DistanceTo(shots.At(again)), Math.Abs(shots.Heights[first] - shots.Heights[again]));
        var planLimit = Math.Max(site.Settings.SamePlace, AlarmBudget.Radial(sigmas) * uPlan);
        var heightLimit = Math.Max(site.Settings.SamePlace, sigmas * uHeight);
        if (apart > planLimit && !(step / heightLimit > apart / planLimit)) Add(site, first, again, InPlan, apart, planLimit, uPlan, found);
        else if (step > heightLimit) Add(site, first, again, InHeight, step, heightLimit, uHeight, found);
    }

    /// <summary>Standard uncertainties of the differences, metres, per plan axis and in height: what a session has in common counts only between two.</summary>
    private static (double Plan, double Height) U(CurrentShots shots, int a, int b)
    {
        var (plan, height) = (Square(shots.SigmaPlan[a]) + Square(shots.SigmaPlan[b]), Square(shots.SigmaHeight[a]) + Square(shots.SigmaHeight[b]));
        if (shots.SessionColumn[a] == shots.SessionColumn[b]) return (Math.Sqrt(plan), Math.Sqrt(height));
        var (first, second) = (shots.Sessions[shots.SessionColumn[a]], shots.Sessions[shots.SessionColumn[b]]);
        return (Math.Sqrt(plan + Square(first.UPlan) + Square(second.UPlan)), Math.Sqrt(height + Square(first.UHeight) + Square(second.UHeight)));
    }

    private static double Tolerance(CurrentShots shots, int row) => shots.Book.Entries[shots.PlaceColumn[row]].ToleranceHeight is > 0 and var tolerance ? tolerance : UsualHeight;

    /// <summary>Whether the second was taken another time, or under the id of the first.</summary>
    private static bool LaterOn(Site site, int a, int b)
    {
        var (first, second) = (site.Shots.Raw.Time[a], site.Shots.Raw.Time[b]);
        return site.Shots.SessionColumn[a] != site.Shots.SessionColumn[b]
            || first != long.MinValue && second != long.MinValue && Math.Abs(second - first) > site.Settings.RepeatMinutes * TimeSpan.TicksPerMinute
            || SameId(site.Shots, a, b);
    }

    private static bool SameId(CurrentShots shots, int a, int b) => shots.Raw.IdBytes(a).SequenceEqual(shots.Raw.IdBytes(b)) && shots.Raw.Crew(a) == shots.Raw.Crew(b);

    private static void Add(Site site, int first, int second, double axis, double measured, double allowed, double u, Findings found, bool beyondDoubt = true)
    {
        var shots = site.Shots;
        var step = shots.At(second) - shots.At(first);
        var severity = shots.Book.Entries[shots.PlaceColumn[first]].NeedsProof && beyondDoubt ? Severity.Stop : Severity.Look;
        var run = site.Membership.Run[second];
        var (from, to) = run < 0 ? ((double?)null, (double?)null) : RunRange.About(site.Runs[run], site.Membership.Member[second], site.Membership.Member[second]);
        found.Add(severity, [first, second], shots.At(second), shots.HeightOf(second), run, from, to,
            measured: measured, allowed: allowed, figures: [step.East, step.North, shots.Heights[second] - shots.Heights[first], axis, u]);
    }

    public string Message(Finding finding)
    {
        var height = double.IsNaN(finding.Figure(2)) ? "" : $", H {CheckText.Signed(finding.Figure(2))}";
        return $"{finding.Shot(0)} and {finding.Shot(1)} are one thing measured twice, and differ by {CheckText.Metres(finding.Measured)} in {(finding.Figure(3) == InPlan ? "plan" : "height")}"
            + $" (E {CheckText.Signed(finding.Figure(0))}, N {CheckText.Signed(finding.Figure(1))}{height} m), limit {CheckText.Metres(finding.Allowed)}.";
    }

    public string Cure(Finding finding) => "Measure it a third time, from another set-up, and set the one aside that does not agree; accept it if these are two things.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;

    private static double Square(double x) => x * x;
}
