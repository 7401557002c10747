using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Instruments whose check shots scatter more than they state.</summary>
internal sealed class AccuracyOptimistic : ICheck
{
    private const double InPlan = 0;
    private const double InHeight = 1;

    public string Name => "accuracy-optimistic";

    public string Title => "Instruments that state too good an accuracy";

    public string Unit => "1";

    public ImmutableArray<string> Explains => ["control-missed", "control-drift", "accuracy-over-limit", "method-unfit"];

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Shots.Receivers.Length; number++)
        {
            var receiver = site.Shots.Receivers[number];
            Look(site, number, receiver.Plan, InPlan, found);
            Look(site, number, receiver.Height, InHeight, found);
        }
    }

    private static void Look(Site site, int number, LearntFactor factor, double axis, Findings found)
    {
        if (factor is not { State: StatedAccuracy.Optimistic, Ratio: { } ratio }) return;
        var rows = site.CheckShots.Select(check => check.Row)
            .Where(row => site.Shots.ReceiverColumn[row] == number && !double.IsNaN(axis == InPlan ? site.Shots.Raw.UPlan[row] : site.Shots.Raw.UHeight[row])).ToArray();
        found.Add(Severity.Look, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]),
            measured: ratio, allowed: Math.Sqrt(ChiSquared.Limit(FactorTest.Risk, factor.Freedom) / factor.Freedom), figures: [axis, factor.Factor]);
    }

    public string Message(Finding finding)
    {
        var receiver = finding.Table.RunTable.Shots.Receivers[finding.Table.RunTable.Shots.Receiver[finding.Shots[0]]];
        var more = string.Join(", ", new[] { receiver.Name, receiver.Method }.Where(word => word is not null));
        return $"Check shots of crew {receiver.Crew ?? "not named"}{(more.Length == 0 ? "" : $" ({more})")} scatter {CheckText.Number(finding.Measured, "0.0")} times as much as stated in {(finding.Figure(0) == InPlan ? "plan" : "height")}"
            + $" ({CheckText.Count(finding.Shots.Length, "shot")}), limit {CheckText.Number(finding.Allowed, "0.0")}: stated accuracy counts {CheckText.Number(finding.Figure(1), "0.0")} times.";
    }

    public string Cure(Finding finding) =>
        "Find out whether the instrument writes 1 sigma, and what disturbs it; shoot again what must be known better, with another instrument or for longer.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
