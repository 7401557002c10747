using System.Globalization;

namespace Aslaid.Workbench;

/// <summary>Accuracy worse than its code allows.</summary>
internal sealed class AccuracyOverLimitMistake : IMistake
{
    public string Check => "accuracy-over-limit";

    public bool Together => true;

    /// <summary>Sign posts in the default code book, at 95 %.</summary>
    public MistakeScale Scale => new(0.10, "m");

    public void OnSite(Plot plot)
    {
        var shot = plot.Point("SIGN-POST", plot.Corner);
        shot.UPlan = Scale.At(plot.Size) / 2.448 * Math.Sqrt(2); // the limit is for 95 %, the stated figure 1 sigma radial
        plot.Told(this, null, "A sign post was shot under a tree.", shot);
    }
}

/// <summary>A receiver that had not fixed.</summary>
internal sealed class SolutionNotFixedMistake : IMistake
{
    public string Check => "solution-not-fixed";

    public bool Together => true;

    public void OnSite(Plot plot)
    {
        var shot = plot.Point("SIGN-POST", plot.Corner);
        shot.Fix = "float";
        plot.Told(this, null, "A sign post was stored before the receiver had fixed.", shot);
    }
}

/// <summary>Fixed, but by few satellites (odd seeds: five, from size 1 on) or by badly spread ones (even seeds: PDOP 4 times the size).</summary>
internal sealed class SatellitesWeakMistake : IMistake
{
    public string Check => "satellites-weak";

    public MistakeScale Scale => new(4, "PDOP");

    public void OnSite(Plot plot)
    {
        var shot = plot.Point("SIGN-POST", plot.Corner);
        if (plot.Odd)
            shot.Sats = plot.Size > 1 ? 5 : 6;
        else
            shot.Pdop = Scale.At(plot.Size);
        plot.Told(this, null, "A sign post was shot between a wall and a bus.", shot);
    }
}

/// <summary>A pole held aslant while nothing compensates it; all other shots of the file lean by less than half a degree.</summary>
internal sealed class PoleTiltedMistake : IMistake
{
    private const double Pole = 2; // m

    public string Check => "pole-tilted";

    public MistakeScale Scale => new(1, "deg");

    public void OnSite(Plot plot)
    {
        var shot = plot.Point("SIGN-POST", plot.Corner);
        var tilt = Scale.At(plot.Size);
        shot.Tilt = tilt.ToString("F2", CultureInfo.InvariantCulture);
        shot.Miss(Pole * Math.Sin(double.DegreesToRadians(tilt)), 0, Pole * (Math.Cos(double.DegreesToRadians(tilt)) - 1));
        plot.Told(this, null, "A sign post was shot over a hedge, the pole aslant.", shot);
    }

    public void Afterwards(Plot plot)
    {
        plot.File.MoreColumns.AddRange(["tilt", "tilt_compensated"]);
        foreach (var shot in plot.Session)
        {
            shot.TiltCompensated = false;
            if (shot.Tilt.Length == 0)
                shot.Tilt = plot.Between(0, 0.4).ToString("F2", CultureInfo.InvariantCulture);
        }
    }
}

/// <summary>
/// A code whose tolerance is tighter than 95 % of what its shots state, so that no value could conform. The code has no limit of
/// accuracy, which would speak first; the shots are as good as they always are.
/// </summary>
internal sealed class MethodUnfitMistake : IMistake
{
    private const string Code = "BOLLARD";
    private const double Tolerance = 0.1; // m in plan

    public string Check => "method-unfit";

    public MistakeScale Scale => new(Tolerance, "m");

    public void OnSite(Plot plot)
    {
        plot.Book(Code, ("name", "Bollard"), ("kind", "point"), ("group", "furniture"), ("measured_at", "ground"), ("tol_plan_m", "0.1"));
        var shots = Enumerable.Range(0, 5).Select(i => plot.Point(Code, plot.Corner.Ahead(Plot.East, 4 * i))).ToArray();
        foreach (var shot in shots)
            shot.UPlan = Scale.At(plot.Size) / 2.448 * Math.Sqrt(2);
        plot.Told(this, null, "Bollards were shot by a receiver that never states what their tolerance needs.", shots);
    }
}
