using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Instruments whose check shots scatter more than they state.</summary>
internal sealed class AccuracyOptimistic : ICheck
{
    public string Name => "accuracy-optimistic";

    public string Title => "Instruments that state too good an accuracy";

    public string Unit => "1";

    /// <summary>A coarse instrument misses control here and there; as a stop where one of those misses is one.</summary>
    public ImmutableArray<string> Explains => ["control-missed", "control-drift", "accuracy-over-limit", "method-unfit"];

    public void Look(Site site, Findings found)
    {
        HashSet<int>? stops = null;
        for (var number = 0; number < site.Shots.Receivers.Length; number++)
        {
            var receiver = site.Shots.Receivers[number];
            var (plan, height) = (Scatter.Of(receiver.Plan), Scatter.Of(receiver.Height));
            if (plan is null && height is null) continue;
            var rows = site.CheckShots.Select(check => check.Row).Where(row => site.Shots.ReceiverColumn[row] == number
                && (plan is not null && !double.IsNaN(site.Shots.Raw.UPlan[row]) || height is not null && !double.IsNaN(site.Shots.Raw.UHeight[row]))).ToArray();
            var leads = height is null || plan?.Over >= height.Value.Over ? plan!.Value : height.Value;
            var (inPlan, inHeight) = (plan ?? Scatter.None, height ?? Scatter.None);
            stops ??= ControlMissed.Stops(site);
            found.Add(stops.Overlaps(rows) ? Severity.Stop : Severity.Look, rows, site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]),
                measured: leads.Ratio, allowed: leads.Limit, figures: [inPlan.Ratio, inPlan.Limit, inPlan.Factor, inHeight.Ratio, inHeight.Limit, inHeight.Factor]);
        }
    }

    /// <summary>How much check shots scatter over what is stated, how much chance allows, and the factor that makes both equal.</summary>
    private readonly record struct Scatter(double Ratio, double Limit, double Factor)
    {
        public static Scatter None => new(double.NaN, double.NaN, double.NaN);

        public double Over => Ratio / Limit;

        public static Scatter? Of(LearntFactor factor) => factor is { State: StatedAccuracy.Optimistic, Ratio: { } ratio }
            ? new(ratio, Math.Sqrt(ChiSquared.Limit(FactorTest.Risk, factor.Freedom) / factor.Freedom), factor.Factor)
            : null;
    }

    public string Message(Finding finding)
    {
        var receiver = finding.Table.RunTable.Shots.Receivers[finding.Table.RunTable.Shots.Receiver[finding.Shots[0]]];
        var more = string.Join(", ", new[] { receiver.Name, receiver.Method }.Where(word => word is not null));
        var (plan, height) = (!double.IsNaN(finding.Figure(0)), !double.IsNaN(finding.Figure(3)));
        var scatter = plan ? $"{Times(0)} times as much as stated in plan" + (height ? $" and {Times(3)} times in height" : "") : $"{Times(3)} times as much as stated in height";
        return $"Check shots of crew {receiver.Crew ?? "not named"}{(more.Length == 0 ? "" : $" ({more})")} scatter {scatter} ({CheckText.Count(finding.Shots.Length, "shot")}),"
            + $" {(plan && height ? "limits" : "limit")} {Both(1)}: stated accuracy counts {Both(2)} times.";

        string Times(int figure) => CheckText.Number(finding.Figure(figure), "0.0");

        string Both(int figure) => plan && height ? $"{Times(figure)} and {Times(figure + 3)}" : Times(plan ? figure : figure + 3);
    }

    public string Cure(Finding finding) =>
        "Find out whether the instrument writes 1 sigma, and what disturbs it; shoot again what must be known better, with another instrument or for longer.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
