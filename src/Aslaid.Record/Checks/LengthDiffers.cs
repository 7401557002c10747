using System.Globalization;

namespace Aslaid.Record;

/// <summary>Runs whose stated length is not that of their geometry.</summary>
internal sealed class LengthDiffers : ICheck
{
    /// <summary>Name of the attribute that states a length in metres.</summary>
    private const string Attribute = "length_m";

    /// <summary>Share of the length by which both may differ (DEFAULT).</summary>
    private const double Share = 0.01;

    /// <summary>How often the standard uncertainty of the length both may differ by (DEFAULT).</summary>
    private const double Often = 3;

    public string Name => "length-differs";

    public string Title => "Stated length is not that of the geometry";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var lengths = new AttributeValues(site, Attribute);
        if (!lengths.HasColumn && !site.Runs.HasAttribute(Attribute)) return;
        var values = new List<string>();
        for (var number = 0; number < site.Runs.Count; number++)
        {
            values.Clear();
            var run = site.Runs[number];
            lengths.AddOf(run, values);
            if (values.Count != 1 || !double.TryParse(values[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var stated)) continue;
            if (!(stated >= 0) || !double.IsFinite(stated)) continue;
            var (plan, slope) = (run.PlanLength, run.SlopeLength ?? run.PlanLength);
            var off = stated < plan ? plan - stated : Math.Max(0, stated - slope); // from level to sloping, either is right
            var limit = Math.Max(Share * plan, Often * (run.UPlanLength ?? 0));
            if (off <= limit) continue;
            found.Add(Severity.Look, run.Members, site.Shots.At(run.Members[0]), site.Shots.HeightOf(run.Members[0]), number, 0, plan, off, limit,
                figures: [stated, plan, slope]);
        }
    }

    public string Message(Finding finding) =>
        $"{finding.RunLabel()} states a length of {CheckText.Number(finding.Figure(0), "0.00")} m, its shots give {CheckText.Number(finding.Figure(1), "0.00")} m in plan and "
        + $"{CheckText.Number(finding.Figure(2), "0.00")} m on the slope: {CheckText.Number(finding.Measured, "0.00")} m off, limit {CheckText.Number(finding.Allowed, "0.00")} m.";

    public string Cure(Finding finding) => "Find out whether a part was not shot or the length is wrong; set length_m to what is right.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
