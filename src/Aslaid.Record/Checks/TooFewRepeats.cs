namespace Aslaid.Record;

/// <summary>A record in which too few details were measured a second time, later and set up anew.</summary>
internal sealed class TooFewRepeats : ICheck
{
    /// <summary>Standard uncertainties of the difference within which two shots may be one place.</summary>
    private const double Often = 3;

    /// <summary>No shot is so bad that its repeat would lie farther, metres (DEFAULT).</summary>
    private const double Farthest = 0.15;

    /// <summary>Other shots that one is compared with.</summary>
    private const int Compared = 64;

    private const int ShotsNamed = 20;

    public string Name => "too-few-repeats";

    public string Title => "Too few details measured twice";

    public string Unit => "%";

    public void Look(Site site, Findings found)
    {
        if (!(site.Settings.RepeatShareMin > 0)) return;
        var (shots, records, details) = (site.Shots, new Records(site.Shots.Raw), new List<int>());
        foreach (var row in site.ShotRows)
            if (shots.PlaceColumn[row] >= 0 && shots.Book.Entries[shots.PlaceColumn[row]].Kind != CodeKind.Control && !records.Has(row)) details.Add(row);
        if (details.Count == 0) return;
        var (repeated, quick) = Count(site, [.. details]);
        var share = (double)repeated / details.Count;
        if (share >= site.Settings.RepeatShareMin) return;
        found.Add(Severity.Look, quick.Count > 0 ? [.. quick.Take(ShotsNamed)] : [details[0]], shots.At(details[0]), shots.HeightOf(details[0]),
            measured: 100 * share, allowed: 100 * site.Settings.RepeatShareMin, figures: [repeated, details.Count, quick.Count, site.Settings.RepeatMinutes]);
    }

    /// <summary>How many details have a second fix that is independent, and which have only one that came too soon or from the same session.</summary>
    private static (int Repeated, List<int> Quick) Count(Site site, int[] details)
    {
        var (shots, near, quick, repeated) = (site.Shots, new List<int>(), new List<int>(), 0);
        var grid = new PlaceGrid(shots, details, 10 * Farthest);
        foreach (var row in details)
        {
            near.Clear();
            grid.Near(shots.At(row), Farthest, near, most: Compared);
            var (independent, soon) = (false, false);
            foreach (var other in near)
            {
                if (other == row || shots.CodeColumn[other] != shots.CodeColumn[row]) continue;
                var u = Math.Sqrt(2) * double.Hypot(shots.PlaceSigma(row), shots.PlaceSigma(other));
                if (shots.At(row).DistanceTo(shots.At(other)) > (double.IsNaN(u) ? site.Settings.SamePlace : Math.Max(site.Settings.SamePlace, Often * u))) continue;
                var independently = IsIndependent(site, row, other);
                (independent, soon) = (independent | independently, soon | !independently);
            }

            if (independent) repeated++;
            else if (soon) quick.Add(row);
        }

        return (repeated, quick);
    }

    private static bool IsIndependent(Site site, int row, int other)
    {
        var (first, second) = (site.Shots.Raw.Time[row], site.Shots.Raw.Time[other]);
        return site.Shots.SessionColumn[row] != site.Shots.SessionColumn[other] && first != long.MinValue && second != long.MinValue
            && Math.Abs(second - first) >= site.Settings.RepeatMinutes * TimeSpan.TicksPerMinute;
    }

    public string Message(Finding finding)
    {
        var text = $"{CheckText.Number(finding.Figure(0), "0")} of {CheckText.Count(finding.Figure(1), "shot")} have an independent second fix: {CheckText.Number(finding.Measured, "0.0")} %, asked for {CheckText.Number(finding.Allowed, "0.0")} %.";
        return finding.Figure(2) == 0 ? text
            : text + $" {CheckText.Number(finding.Figure(2), "0")} more were repeated within {CheckText.Number(finding.Figure(3), "0")} minutes, in the same session or without a time, which proves nothing ({CheckText.Shots(finding)}).";
    }

    public string Cure(Finding finding) =>
        $"Shoot details again at least {CheckText.Number(finding.Figure(3), "0")} minutes later, from another set-up or after a new initialisation.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
