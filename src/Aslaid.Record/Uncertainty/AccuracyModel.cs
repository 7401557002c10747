using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>
/// The accuracy of every shot (JCGM 100): its independent part, √(k²·stated² + tip²), k learnt from check shots; and what its
/// session has in common. Accuracy declared for a batch holds at the tip as it was declared: a person answers for it, unless check shots
/// disprove it. A stated 0 states nothing.
/// </summary>
internal sealed class AccuracyModel
{
    /// <summary>A check shot that misses by more shows a blunder (another point, exchanged axes, feet), of which other checks tell: it says nothing of the instrument, metres (DEFAULT).</summary>
    private const double Gross = 1;

    private readonly CurrentShots shots;
    private readonly ImmutableArray<ControlPoint> control;
    private readonly Settings settings;
    private readonly Receivers receivers;
    private readonly PoleLean lean;

    private AccuracyModel(CurrentShots shots, ImmutableArray<ControlPoint> control, Settings settings)
    {
        (this.shots, this.control, this.settings) = (shots, control, settings);
        (receivers, lean) = (new(shots.Raw), new(shots.Raw, settings));
    }

    /// <summary>Fills the accuracy of the shots, and returns the check shots that it was learnt from.</summary>
    public static ImmutableArray<CheckShot> Fill(CurrentShots shots, ImmutableArray<ControlPoint> control, Settings settings)
    {
        var model = new AccuracyModel(shots, control, settings);
        var checkShots = CheckShot.Find(shots, control);
        var (plan, height) = (new LearntFactor[model.receivers.Count], new LearntFactor[model.receivers.Count]);
        var (east, north, up) = (model.Residuals(checkShots, 0), model.Residuals(checkShots, 1), model.Residuals(checkShots, 2));
        var (planScatter, heightScatter) = (new CheckScatter[plan.Length][], new CheckScatter[plan.Length][]);
        for (var receiver = 0; receiver < plan.Length; receiver++)
        {
            (planScatter[receiver], heightScatter[receiver]) = ([], []);
            if (model.receivers.IsRecords(receiver))
            {
                plan[receiver] = height[receiver] = new(StatedAccuracy.FromRecords, 1, null, 0);
                continue;
            }

            var unproven = model.receivers.IsDeclared(receiver) ? 1 : settings.FactorUnproven;
            planScatter[receiver] = [new(Of(east, receiver)), new(Of(north, receiver))];
            heightScatter[receiver] = [new(Of(up, receiver))];
            plan[receiver] = FactorTest.Of(planScatter[receiver], unproven);
            height[receiver] = FactorTest.Of(heightScatter[receiver], unproven);
        }

        (shots.PlanScatter, shots.HeightScatter) = (planScatter, heightScatter);
        shots.Receivers = [.. Enumerable.Range(0, plan.Length).Select(number => model.receivers.Named(number, east.Count(residual => residual.Receiver == number), plan[number], height[number]))];
        shots.ReceiverColumn = model.receivers.Of;
        var (planFactors, heightFactors) = (Array.ConvertAll(plan, factor => factor.Factor), Array.ConvertAll(height, factor => factor.Factor));
        shots.Sessions = model.Sessions(east, north, up, planFactors, heightFactors);
        model.Sigmas(planFactors, heightFactors);
        return checkShots;
    }

    private static CheckResidual[] Of(CheckResidual[] residuals, int receiver) =>
        Array.FindAll(residuals, residual => residual.Receiver == receiver && !residual.IsGross);

    private static double Known(double stated) => stated > 0 ? stated : double.NaN;

    /// <summary>Misfits of check shots that state their accuracy on one axis: 0 east, 1 north, 2 height.</summary>
    private CheckResidual[] Residuals(ImmutableArray<CheckShot> checkShots, int axis)
    {
        var residuals = new List<CheckResidual>(checkShots.Length);
        foreach (var check in checkShots)
        {
            var (row, point) = (check.Row, control[check.Point]);
            var gross = check.Plan > Gross || (axis == 2 && Math.Abs(check.Height ?? 0) > Gross);
            var (stated, tip) = axis < 2 ? (Known(shots.Raw.UPlan[row]) / Math.Sqrt(2), lean.PlanVariance(row)) : (Known(shots.Raw.UHeight[row]), lean.HeightVariance(row));
            if (double.IsNaN(stated))
            {
                var declared = shots.Raw.BatchOf(row).Declared;
                (stated, tip) = (axis < 2 ? declared.UPlan / Math.Sqrt(2) ?? double.NaN : declared.UHeight ?? double.NaN, 0);
            }

            var misfit = axis switch { 0 => check.East, 1 => check.North, _ => check.Height ?? double.NaN };
            if (double.IsNaN(stated) || double.IsNaN(misfit)) continue;
            var known = axis < 2 ? point.UPlan / Math.Sqrt(2) : point.UHeight;
            residuals.Add(new(shots.SessionColumn[row], receivers.Of[row], row, check.Point, misfit, stated * stated, tip, known * known ?? double.NaN, gross));
        }

        return [.. residuals];
    }

    private ImmutableArray<SessionAccuracy> Sessions(
        CheckResidual[] east, CheckResidual[] north, CheckResidual[] up, double[] planFactors, double[] heightFactors)
    {
        var (byEast, byNorth, byUp) = (east.ToLookup(r => r.Session), north.ToLookup(r => r.Session), up.ToLookup(r => r.Session));
        var priorPlan = settings.SessionUPlan / Math.Sqrt(2);
        var sessions = ImmutableArray.CreateBuilder<SessionAccuracy>(shots.SessionCount);
        for (var session = 0; session < shots.SessionCount; session++)
        {
            var (e, n) = (CommonPart.Of(byEast[session], priorPlan, planFactors), CommonPart.Of(byNorth[session], priorPlan, planFactors));
            var h = CommonPart.Of(byUp[session], settings.SessionUHeight, heightFactors);
            sessions.Add(new(byEast[session].Count(), Math.Sqrt((e.Variance + n.Variance) / 2), Math.Sqrt(h.Variance), e.Mean, n.Mean, h.Mean));
        }

        return sessions.MoveToImmutable();
    }

    private void Sigmas(double[] planFactors, double[] heightFactors)
    {
        var (raw, plan, height) = (shots.Raw, shots.SigmaPlanColumn, shots.SigmaHeightColumn);
        foreach (var batch in raw.Batches)
        {
            var (declaredPlan, declaredHeight) = (batch.Declared.UPlan / Math.Sqrt(2) ?? double.NaN, batch.Declared.UHeight ?? double.NaN);
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                var receiver = receivers.Of[row];
                plan[row] = Sigma(Known(raw.UPlan[row]) / Math.Sqrt(2), planFactors[receiver], lean.PlanVariance(row), declaredPlan);
                height[row] = Sigma(Known(raw.UHeight[row]), heightFactors[receiver], lean.HeightVariance(row), declaredHeight);
            }
        }

        for (var row = 0; row < raw.Count; row++)
            if (raw.Again[row] is >= 0 and var origin) (plan[row], height[row]) = (plan[origin], height[origin]);
    }

    private static double Sigma(double stated, double factor, double tip, double declared)
    {
        if (double.IsNaN(stated)) return factor * declared;
        return tip == 0 ? factor * stated : Math.Sqrt(factor * factor * stated * stated + tip);
    }
}
