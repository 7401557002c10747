namespace Aslaid.Record;

/// <summary>Points of the design without a shot; one finding a code.</summary>
internal sealed class DesignPointMissing : ICheck
{
    private const int Named = 6;

    public string Name => "design-point-missing";

    public string Title => "Points of the design without a shot";

    public string Unit => "1";

    public void Look(Site site, Findings found)
    {
        if (site.Design.Points.IsEmpty || site.ShotRows.Length == 0) return;
        foreach (var code in site.Coverage.Points.GroupBy(point => point.Code!))
        {
            var points = code.ToArray();
            var row = site.ShotRows[site.ShotIndex.Nearest(points[0].Point.At, out _)];
            var names = string.Join(", ", points.Take(Named).Select(point => point.Point.Name)) + (points.Length > Named ? FormattableString.Invariant($" and {points.Length - Named} more") : "");
            found.Add(Severity.Look, [row], points[0].Point.At, points[0].Point.Height, measured: points.Length, word: $"{code.Key}|{names}", figures: [site.Design.PointsOf(points[0].Place).Count]);
        }
    }

    public string Message(Finding finding) => $"{CheckText.Number(finding.Measured, "0")} of {CheckText.Count(finding.Figure(0), "point")} of {finding.Word!.Split('|')[0]} in the design {(finding.Measured == 1 ? "has" : "have")} no shot: {finding.Word.Split('|', 2)[1]}.";

    public string Cure(Finding finding) => "Shoot them once they are built.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
