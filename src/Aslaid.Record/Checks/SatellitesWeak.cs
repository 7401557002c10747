namespace Aslaid.Record;

/// <summary>Satellite fixes of too few satellites, or of satellites that stand badly.</summary>
internal sealed class SatellitesWeak : ICheck
{
    /// <summary>A value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    public string Name => "satellites-weak";

    public string Title => "Too few satellites, or badly placed ones";

    public string Unit => "1";

    public void Look(Site site, Findings found)
    {
        var raw = site.Shots.Raw;
        var (sats, pdop) = (raw.NumberColumns.GetValueOrDefault("sats"), raw.NumberColumns.GetValueOrDefault("pdop"));
        if (sats is null && pdop is null) return;
        var (least, most) = (site.Settings.SatellitesMin, site.Settings.DilutionMax);
        var (marked, any, judged) = (new bool[raw.Count], false, new FixWords(raw));
        foreach (var row in site.ShotRows)
            if ((sats?[row] < least - Same || pdop?[row] > most + Same) && judged.IsSatelliteFix(row, sats, pdop)) marked[row] = any = true;
        if (!any) return;

        foreach (var stretch in ShotStretches.Of(site, marked))
        {
            var (fewest, worst, at) = (double.PositiveInfinity, 0.0, stretch.Rows[0]);
            foreach (var row in stretch.Rows)
            {
                if (sats?[row] < fewest) (fewest, at) = (sats[row], row);
                if (pdop?[row] > worst)
                {
                    worst = pdop[row];
                    if (!(fewest < least - Same)) at = row;
                }
            }

            var few = fewest < least - Same;
            found.Add(site, stretch, Severity.Look, at, few ? fewest : worst, few ? least : most,
                figures: [few ? 1 : 0, worst > most + Same ? worst : 0, most]);
        }
    }

    /// <summary>Which shots are fixed by satellites, as far as the words of the column <c>fix</c> tell.</summary>
    private readonly struct FixWords(ShotTable raw)
    {
        private readonly int[]? fix = raw.TextColumns.GetValueOrDefault("fix");

        /// <summary>A float is told by another check. Without a word it is a fix where satellites are counted: a total station leaves the cells empty or 0.</summary>
        public bool IsSatelliteFix(int row, double[]? sats, double[]? pdop) => fix is null || string.IsNullOrWhiteSpace(raw.Texts[fix[row]])
            ? sats?[row] > 0 || (sats is null && pdop?[row] > 0)
            : SolutionNotFixed.IsFixed(raw.Texts[fix[row]]!);
    }

    public string Message(Finding finding)
    {
        var few = finding.Figure(0) > 0 ? $"{CheckText.Count(finding.Measured!.Value, "satellite")}, limit {CheckText.Number(finding.Allowed, "0")}" : null;
        var placed = finding.Figure(1) > 0 ? $"PDOP {CheckText.Number(finding.Figure(1), "0.0")}, limit {CheckText.Number(finding.Figure(2), "0.0")}" : null;
        return $"{string.Join("; ", new[] { few, placed }.OfType<string>())} ({ShotStretches.Where(finding)}).";
    }

    public string Cure(Finding finding) => "Shoot again with more sky, or with a total station.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
