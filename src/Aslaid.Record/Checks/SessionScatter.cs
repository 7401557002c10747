using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Whether check shots of a session miss otherwise all the time, and not from one moment on: then their instrument is coarser than it states, and nothing drifted.</summary>
/// <param name="InPlan">Whether they do so in plan. Never where check shots bear out what the instrument states, in plan and in height.</param>
/// <param name="InHeight">Whether they do so in height.</param>
internal readonly record struct SessionScatter(bool InPlan, bool InHeight)
{
    /// <summary>Fewer check shots with a time do not tell a step from scatter.</summary>
    private const int Fewest = 4;

    /// <summary>What is left fits when it is not less likely than this (DEFAULT).</summary>
    private const double Fits = 0.01;

    /// <summary>
    /// Two means, before and after the best moment, or a line in time: Σ d²/v of what is left follows χ² with two degrees of freedom
    /// less than check shots on each axis. Variances as stated, with the pole's tip and the control point's own.
    /// </summary>
    public static SessionScatter Of(Site site, ImmutableArray<int> checks)
    {
        var (inPlan, inHeight) = (false, false);
        foreach (var check in checks)
        {
            var receiver = site.Shots.Receivers[site.Shots.ReceiverColumn[site.CheckShots[check].Row]];
            inPlan |= receiver.Plan.State == StatedAccuracy.Optimistic;
            inHeight |= receiver.Height.State == StatedAccuracy.Optimistic;
        }

        if (!inPlan && !inHeight) return default;
        var timed = checks.Where(check => Time(check) != long.MinValue).OrderBy(Time).ToArray();
        if (timed.Length < Fewest) return default;
        var minutes = Array.ConvertAll(timed, check => (Time(check) - Time(timed[0])) / (double)TimeSpan.TicksPerMinute);
        Miss[][] plan = [Axis(check => check.East, PlanVariance), Axis(check => check.North, PlanVariance)];
        Miss[][] height = [Axis(check => check.Height ?? double.NaN, HeightVariance)];
        if (!inPlan || !inHeight) return new(!IsOneChange(minutes, plan), !IsOneChange(minutes, height)); // what is coarse on one axis may drift on the other
        return IsOneChange(minutes, [.. plan, .. height]) ? default : new(true, true);

        long Time(int check) => site.Shots.Raw.Time[site.CheckShots[check].Row];

        Miss[] Axis(Func<CheckShot, double> misfit, Func<CheckShot, double> variance) => Array.ConvertAll(timed, place =>
        {
            var (by, weight) = (misfit(site.CheckShots[place]), 1 / variance(site.CheckShots[place]));
            return double.IsFinite(by * weight) ? new Miss(by, weight) : default; // what states no accuracy tells nothing
        });

        double PlanVariance(CheckShot check) => site.SessionChecks.PlanVariance(check.Row) + Square(site.Control[check.Point].UPlan ?? 0) / 2;

        double HeightVariance(CheckShot check) => site.SessionChecks.HeightVariance(check.Row) + Square(site.Control[check.Point].UHeight ?? 0);
    }

    /// <summary>A check shot's misfit on one axis, metres, and its weight, 1/m².</summary>
    private readonly record struct Miss(double By, double Weight);

    private static bool IsOneChange(double[] minutes, Miss[][] axes)
    {
        var freedom = axes.Sum(axis => Math.Max(0, axis.Count(miss => miss.Weight > 0) - 2));
        if (freedom == 0) return true; // nothing is left to tell by
        var (least, all, before) = (axes.Sum(axis => AboutLine(minutes, axis)), new Sums[axes.Length], new Sums[axes.Length]);
        for (var axis = 0; axis < all.Length; axis++)
            foreach (var miss in axes[axis]) all[axis] = all[axis].With(miss);
        for (var i = 1; i < minutes.Length; i++)
        {
            var left = 0.0;
            for (var axis = 0; axis < all.Length; axis++)
            {
                before[axis] = before[axis].With(axes[axis][i - 1]);
                left += before[axis].AboutMean + all[axis].Less(before[axis]).AboutMean;
            }

            if (minutes[i] > minutes[i - 1]) least = Math.Min(least, left);
        }

        return ChiSquared.Above(least, freedom) >= Fits;
    }

    /// <summary>Sums of weights, and of misfits and their squares by weight.</summary>
    private readonly record struct Sums(double Weights, double Misfits, double Squares)
    {
        public Sums With(Miss miss) => new(Weights + miss.Weight, Misfits + miss.Weight * miss.By, Squares + miss.Weight * miss.By * miss.By);

        public Sums Less(Sums part) => new(Weights - part.Weights, Misfits - part.Misfits, Squares - part.Squares);

        public double AboutMean => Weights > 0 ? Math.Max(0, Squares - Misfits * Misfits / Weights) : 0;
    }

    private static double AboutLine(double[] minutes, Miss[] axis)
    {
        var (weights, at, sum) = (0.0, 0.0, 0.0);
        for (var i = 0; i < axis.Length; i++) (weights, at, sum) = (weights + axis[i].Weight, at + axis[i].Weight * minutes[i], sum + axis[i].Weight * axis[i].By);
        var (tt, tb, bb) = (0.0, 0.0, 0.0);
        for (var i = 0; i < axis.Length; i++)
        {
            var (t, b) = (minutes[i] - at / weights, axis[i].By - sum / weights);
            (tt, tb, bb) = (tt + axis[i].Weight * t * t, tb + axis[i].Weight * t * b, bb + axis[i].Weight * b * b);
        }

        return weights == 0 ? 0 : tt > 0 ? Math.Max(0, bb - tb * tb / tt) : bb;
    }

    private static double Square(double x) => x * x;
}
