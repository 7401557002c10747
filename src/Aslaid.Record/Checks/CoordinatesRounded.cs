using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Batches whose coordinates or heights were rounded to more than a millimetre on their way.</summary>
internal sealed class CoordinatesRounded : ICheck
{
    /// <summary>Fewer shots end in zeros by chance now and then (DEFAULT).</summary>
    private const int Least = 8;

    /// <summary>Share of the values that must be rounded: a few typed ones may be finer (DEFAULT).</summary>
    private const double Nearly = 0.95;

    /// <summary>What instruments store, metres.</summary>
    private const double Usual = 0.001;

    /// <summary>How far from a multiple of a step a rounded value may be read, metres: a double near 6 243 000 m is good to 1 nm.</summary>
    private const double Same = 1e-6;

    /// <summary>Share of the tightest 95 % limit of the codes shot that rounding alone may use up before a person should look (DEFAULT).</summary>
    private const double ShareOfLimit = 0.5;

    private static readonly double[] Steps = [0.01, 0.1, 1];

    public string Name => "coordinates-rounded";

    public string Title => "Rounded coordinates";

    public string Unit => "m";

    public bool HoldsSession => true;

    /// <summary>What a few centimetres here and there may raise; a shift or a gap is no consequence.</summary>
    public ImmutableArray<string> Explains =>
    [
        "accuracy-over-limit", "method-unfit", "measured-twice", "two-shots-one-place", "arc-not-proven", "radius-too-uncertain", "tangent-break", "level-jump",
        "fall-wrong", "control-missed", "control-drift", "session-shifted", "scale-off", "setup-rotated", "accuracy-optimistic", "off-design", "design-bend-missed", "design-curve-cut", "cover-too-small", "too-close"];

    /// <summary>Rounding explains an effect in metres that is no larger than itself; what else leads is not asked here.</summary>
    public static bool Allows(Finding leader, double? effect) => leader.Check is not CoordinatesRounded || effect <= leader.Measured;

    public void Look(Site site, Findings found)
    {
        var shots = site.Shots;
        foreach (var batch in shots.Raw.Batches)
        {
            var rows = RowsOf(shots, batch);
            if (rows.Count < Least) continue;
            var (plan, planShare) = Both(StepOf(shots.Raw.East, rows), StepOf(shots.Raw.North, rows));
            var (height, heightShare) = StepOf(shots.Raw.Height, rows);
            if (plan == 0 && height == 0) continue;
            var share = ShareOfLimits(shots, rows, plan, height);
            var severity = share > 1 ? Severity.Stop : Math.Max(plan, height) > Steps[0] || share > ShareOfLimit ? Severity.Look : Severity.Note;
            found.Add(severity, site.BatchPlaces.FirstShots(batch.Number - 1), shots.At(rows[0]), shots.HeightOf(rows[0]),
                measured: Math.Max(plan, height), allowed: Usual, word: batch.FileName, figures: [plan, planShare, height, heightShare, rows.Count, batch.Number]);
        }
    }

    /// <summary>Shots of a batch that count; what was read off records is as fine as the records.</summary>
    private static List<int> RowsOf(CurrentShots shots, Batch batch)
    {
        var (rows, records) = (new List<int>(batch.Count), new Records(shots.Raw));
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            if (shots.IsShot(row) && shots.UsedColumn[row] && !records.Has(row)) rows.Add(row);
        return rows;
    }

    /// <summary>East and north come from one export: both are rounded, or neither.</summary>
    private static (double Step, double Share) Both((double Step, double Share) east, (double Step, double Share) north) =>
        (Math.Min(east.Step, north.Step), Math.Min(east.Share, north.Share));

    /// <summary>The coarsest step of which nearly all values are multiples, metres, and the share that is; 0 for none.</summary>
    private static (double Step, double Share) StepOf(ReadOnlySpan<double> values, List<int> rows)
    {
        var best = (Step: 0.0, Share: 0.0);
        foreach (var step in Steps)
        {
            var (known, off) = (0, 0);
            var most = (1 - Nearly) * rows.Count;
            foreach (var row in rows)
            {
                var value = values[row];
                if (double.IsNaN(value)) continue;
                known++;
                if (Math.Abs(value - Math.Round(value / step) * step) > Same && ++off > most) break;
            }

            if (known < Least || off > (1 - Nearly) * known) break; // what is no multiple of a step is none of a coarser one
            best = (step, (known - off) / (double)known);
        }

        return best;
    }

    /// <summary>How much of the tightest 95 % limit of the codes shot rounding alone uses up, step/√12 being its standard uncertainty.</summary>
    private static double ShareOfLimits(CurrentShots shots, List<int> rows, double plan, double height)
    {
        var (planLimit, heightLimit) = (double.PositiveInfinity, double.PositiveInfinity);
        foreach (var row in rows)
        {
            if (shots.Entry(row) is not { } entry) continue;
            planLimit = Math.Min(planLimit, entry.Plan95Max is > 0 and var p ? p : planLimit);
            heightLimit = Math.Min(heightLimit, entry.Height95Max is > 0 and var h ? h : heightLimit);
        }

        return Math.Max(Normal.Circle95 * Uncertainty(plan) / planLimit, Normal.Within95 * Uncertainty(height) / heightLimit);
    }

    private static double Uncertainty(double step) => step / Math.Sqrt(12);

    public string Message(Finding finding)
    {
        var (plan, height) = (finding.Figure(0), finding.Figure(2));
        var batch = $"of batch {CheckText.Number(finding.Figure(5), "0")} ({finding.Word}) are rounded to";
        var what = plan > 0 && height > 0 ? $"East and north {batch} {Step(plan)}, heights to {Step(height)}"
            : plan > 0 ? $"East and north {batch} {Step(plan)}" : $"Heights {batch} {Step(height)}";
        var share = Math.Min(plan > 0 ? finding.Figure(1) : 1, height > 0 ? finding.Figure(3) : 1);
        return FormattableString.Invariant($"{what} ({100 * share:0} % of {finding.Figure(4):0} shots), {CheckText.Metres(finding.Allowed)} expected: ")
            + $"that alone is a standard uncertainty of {CheckText.Number(Uncertainty(finding.Measured!.Value), "0.0000")} m.";
    }

    private static string Step(double metres) => CheckText.Number(metres, "0.##") + " m";

    public string Cure(Finding finding) => "Export the file again with three decimals, withdraw this batch and take the new file.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
