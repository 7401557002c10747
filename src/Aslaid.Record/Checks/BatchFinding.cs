using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What findings about whole batches have in common: one a batch, on the first shot of each of its sessions.</summary>
internal static class BatchFinding
{
    /// <summary>What shots that lie elsewhere, or nowhere in particular, may also raise.</summary>
    public static ImmutableArray<string> Consequences { get; } =
    [
        "lone-shot-far-off", "accuracy-over-limit", "method-unfit", "two-shots-one-place", "measured-twice", "shots-out-of-order", "nearly-closed", "end-short",
        "arc-shot-near-end", "arc-not-proven", "arc-not-made", "radius-out-of-range", "radius-too-uncertain", "tangent-break", "curve-by-chords",
        "bend-not-shot", "level-jump", "fall-wrong", "pole-height-wrong", "shots-too-far-apart", "code-not-changed", "length-differs", "no-check-shot",
        "control-missed", "control-drift", "session-shifted", "height-datum-off", "scale-off", "setup-rotated", "accuracy-optimistic",
        "off-design", "cover-too-small", "too-close", "design-bend-missed", "design-curve-cut", "reference-unclear", "pole-height-by-design", "face-for-back", "on-other-design", "crossing-not-measured", "built-without-design", "cover-not-known",
    ];

    /// <summary>Figures: number of the batch, factor, whether exchanged, whether of heights alone, residual, check shots, journal position of its intake or 0.</summary>
    public static void Look(Site site, Findings found, BatchFault fault)
    {
        foreach (var batch in site.Shots.Raw.Batches)
        {
            var place = site.BatchPlaces.Of(batch.Number - 1);
            if (place.Fault != fault) continue;
            var rows = site.BatchPlaces.FirstShots(batch.Number - 1);
            found.Add(Severity.Stop, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), measured: place.Off,
                allowed: fault == BatchFault.AnotherSite ? site.Settings.OtherSiteDistance : null, word: batch.FileName,
                figures:
                [
                    batch.Number, place.Factor, place.Swapped ? 1 : 0, place.HeightsOnly ? 1 : 0, place.Residual, place.CheckShots,
                    site.Intakes.GetValueOrDefault(batch.Number),
                ]);
        }
    }

    /// <summary>The intake withdrawn: its shots count no more, and stay on file.</summary>
    public static Change? Correction(Finding finding) => finding.Figure(6) > 0 ? new Withdrawn((int)finding.Figure(6)) : null;

    public static string Named(Finding finding) => $"batch {CheckText.Number(finding.Figure(0), "0")} ({finding.Word})";

    /// <summary>A distance that may be far: kilometres, metres or millimetres as it comes.</summary>
    public static string Far(double? metres) => metres >= 1000 ? CheckText.Number(metres / 1000, "0.0") + " km" : CheckText.Metres(metres);

    public static string Residual(Finding finding) => finding.Figure(5) > 0
        ? $"its {CheckText.Count(finding.Figure(5), "check shot")} {(finding.Figure(5) > 1 ? "meet" : "meets")} control within {Far(finding.Figure(4))}"
        : $"it lies {Far(finding.Figure(4))} from the nearest control point or other batch";
}
