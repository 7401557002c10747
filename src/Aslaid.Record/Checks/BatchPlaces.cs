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

    private readonly Site site;
    private readonly BatchPlace[] places;
    private readonly bool any;

    public BatchPlaces(Site site)
    {
        this.site = site;
        var batches = site.Shots.Raw.Batches;
        places = new BatchPlace[batches.Length];
        var ground = new BatchGround(site);
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
    public bool Explains(int row) => any && !site.Shots.Raw.IsConstructed(row) && places[site.Shots.Raw.BatchOf(row).Number - 1].Fault != BatchFault.None;

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
        var off = Middle(checks, BatchCorrection.None);
        if (OfTwoFeet(checks, off) is { } two) return two;
        if (off <= Misses) return OfHeights(checks) ?? default;
        var best = default(BatchPlace);
        foreach (var correction in BatchCorrection.All)
        {
            var residual = Middle(checks, correction);
            if (residual <= Meets && (best.Fault == BatchFault.None || residual < best.Residual)) best = correction.Place(off, residual, checks.Count);
        }

        return best;
    }

    /// <summary>Median misfit in plan of check shots, metres, once they are corrected.</summary>
    private double Middle(List<CheckShot> checks, BatchCorrection correction)
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
                worst = Math.Max(worst, new BatchCorrection(factor, false).Of(site.Shots.At(check.Row)).DistanceTo(site.Control[check.Point].At));
            if (worst <= site.Settings.ControlPlanMax) return new BatchCorrection(factor, false).Place(off, worst, checks.Count);
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
}
