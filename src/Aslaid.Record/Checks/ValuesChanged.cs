namespace Aslaid.Record;

/// <summary>Shots that a later file brings again with other values: one finding a batch.</summary>
internal sealed class ValuesChanged : ICheck
{
    public string Name => "values-changed";

    public string Title => "Shots that come again with other values";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var (shots, raw) = (site.Shots, site.Shots.Raw);
        foreach (var batch in shots.Versions.All.Where(shots.Versions.IsOpen).GroupBy(version => raw.BatchOf(version.Later).Number).OrderBy(batch => batch.Key))
        {
            var (moved, raised, recoded, most, open) = (0, 0, 0, 0.0, new List<int>());
            foreach (var (first, later) in batch)
            {
                if (shots.Used[later]) continue; // restored as a shot of its own
                open.Add(later);
                var plan = double.Hypot(raw.East[later] - raw.East[first], raw.North[later] - raw.North[first]);
                var height = Math.Abs(raw.Height[later] - raw.Height[first]);
                if (plan > 0) moved++;
                if (height > 0 || double.IsNaN(raw.Height[later]) != double.IsNaN(raw.Height[first])) raised++;
                if (raw.Code[later] != raw.Code[first] || raw.Label[later] != raw.Label[first] || raw.Leg[later] != raw.Leg[first]) recoded++;
                most = Math.Max(most, Math.Max(plan, double.IsNaN(height) ? 0 : height));
            }

            if (open.Count == 0) continue;
            var at = open[0];
            found.Add(Severity.Look, [.. open], shots.At(at), shots.HeightOf(at), measured: most, word: raw.Batches[batch.Key - 1].FileName, figures: [batch.Key, moved, raised, recoded]);
        }
    }

    public string Message(Finding finding) =>
        $"Batch {CheckText.Number(finding.Figure(0), "0")} ({finding.Word}) brings {CheckText.Count(finding.Shots.Length, "known shot")} with other values: {CheckText.Shots(finding)}; "
        + $"{CheckText.Number(finding.Figure(1), "0")} in plan, {CheckText.Number(finding.Figure(2), "0")} in height, {CheckText.Number(finding.Figure(3), "0")} in code, run or leg, by {CheckText.Metres(finding.Measured)} at most. "
        + "The earlier values count until somebody decides.";

    public string Cure(Finding finding) => "Adopt the later values where they were put right in the instrument, or keep the earlier ones; the other row stays on file.";

    public Change? Correction(Finding finding) => new ValuesDecided(finding.Keys(), Adopt: true);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
