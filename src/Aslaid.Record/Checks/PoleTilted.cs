using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Shots with a pole that leaned too far and was not compensated.</summary>
internal sealed class PoleTilted : ICheck
{
    /// <summary>Degrees: a tilt this near to the limit equals it.</summary>
    private const double Same = 1e-6;

    /// <summary>Pole by which a displacement is told as an example where none is given, metres.</summary>
    private const double UsualPole = 2;

    public string Name => "pole-tilted";

    public string Title => "Shots with a tilted pole";

    public string Unit => "deg";

    public ImmutableArray<string> Explains => ["accuracy-over-limit", "method-unfit"];

    public bool DoubtsItsShots => true;

    public void Look(Site site, Findings found)
    {
        var raw = site.Shots.Raw;
        if (!raw.NumberColumns.TryGetValue("tilt", out var tilts)) return;
        var (poles, limit) = (raw.NumberColumns.GetValueOrDefault("pole"), site.Settings.PoleTiltMaxDegrees);
        var (marked, any, lean) = (new bool[raw.Count], false, new PoleLean(raw, site.Settings));
        foreach (var row in site.ShotRows)
            if (Math.Abs(tilts[row]) > limit + Same && !lean.IsCompensated(row)) marked[row] = any = true;
        if (!any) return;

        foreach (var stretch in ShotStretches.Of(site, marked))
        {
            var (tilt, displacement, at) = (0.0, double.NaN, stretch.Rows[0]);
            foreach (var row in stretch.Rows)
            {
                var here = Displacement(poles?[row] ?? double.NaN, tilts[row]);
                if (here > displacement || (double.IsNaN(displacement) && (!double.IsNaN(here) || Math.Abs(tilts[row]) > tilt)))
                    (tilt, displacement, at) = (Math.Abs(tilts[row]), here, row);
            }

            var entry = stretch.Run < 0 ? site.Shots.Entry(at) : site.Runs[stretch.Run].Entry;
            var stop = entry?.NeedsProof == true && displacement > entry.Plan95Max;
            found.Add(site, stretch, stop ? Severity.Stop : Severity.Look, at, tilt, limit,
                figures: [displacement, poles?[at] ?? double.NaN, entry?.Plan95Max ?? double.NaN]);
        }
    }

    /// <summary>How far the tip stands from below the antenna, metres in plan: pole · sin(tilt).</summary>
    private static double Displacement(double pole, double tilt) =>
        Math.Abs(pole) * Math.Sin(double.DegreesToRadians(Math.Min(90, Math.Abs(tilt))));

    public string Message(Finding finding)
    {
        var displaced = double.IsNaN(finding.Figure(0))
            ? $"how far that displaces is not known without the pole's height (2 m: {CheckText.Metres(Displacement(UsualPole, finding.Measured!.Value))})"
            : $"a pole of {CheckText.Number(finding.Figure(1), "0.00")} m is displaced by {CheckText.Metres(finding.Figure(0))} in plan"
                + (finding.Severity == Severity.Stop ? $", limit {CheckText.Metres(finding.Figure(2))}" : "");
        return $"Pole tilted by {CheckText.Number(finding.Measured, "0.0")}°, not compensated, limit {CheckText.Number(finding.Allowed, "0.0")}°: "
            + $"{displaced} ({ShotStretches.Where(finding)}).";
    }

    public string Cure(Finding finding) => "Shoot again with the pole upright, or say in tilt_compensated that the instrument corrected it.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
