namespace Aslaid.Workbench;

/// <summary>A session that ends without control.</summary>
internal sealed class NoCheckShotMistake : IMistake
{
    public string Check => "no-check-shot";

    public bool Together => true;

    public void Afterwards(Plot plot)
    {
        var file = plot.GoingHome;
        file.Rows.RemoveRange(file.Rows.Count - 2, 2);
        plot.Made.Add(new(Check, file.Crew.Name, [], null, $"Crew {file.Crew.Name} drove home on the second day without a check shot.", file.Name));
    }
}

/// <summary>A known point that has moved. Size: against half the tightest tolerance of the session, a kerb's.</summary>
internal sealed class ControlMissedMistake : IMistake
{
    public string Check => "control-missed";

    public bool Together => true;

    public MistakeScale Scale => new(0.025, "m");

    public void OnSite(Plot plot)
    {
        var shot = plot.File.Check(plot.Struck);
        shot.TrueEast += Scale.At(plot.Size);
        shot.Miss(Scale.At(plot.Size), 0);
        plot.Told(this, null, $"{plot.Struck.Id} was struck by an excavator; nobody knows yet.", shot);
    }
}

/// <summary>
/// A session that creeps: from its first check shots to its last it moves by 3 √(u₁² + u₂²) of two usual check shots, 0.034 m in
/// plan, times the size, half of it before and half after the middle; up to size 1.4 no check shot is over its own limit.
/// </summary>
internal sealed class ControlDriftMistake : IMistake
{
    public string Check => "control-drift";

    public MistakeScale Scale => new(0.034, "m");

    public void Afterwards(Plot plot)
    {
        var shots = plot.Session.ToArray();
        var (first, all) = (shots[0].Time, (shots[^1].Time - shots[0].Time).TotalSeconds);
        var (drift, way) = (Scale.At(plot.Size), plot.Between(0, Math.Tau));
        foreach (var shot in shots)
        {
            var share = ((shot.Time - first).TotalSeconds / all) - 0.5;
            shot.Miss(drift * share * Math.Sin(way), drift * share * Math.Cos(way));
        }
        plot.ToldOfSession(this, "The base sank into soft ground all day long.");
    }
}

/// <summary>Hours of work between two check shots.</summary>
internal sealed class ControlGapMistake : IMistake
{
    private const int Shots = 8;

    public string Check => "control-gap";

    public MistakeScale Scale => new(120, "min");

    public void OnSite(Plot plot)
    {
        plot.File.Check(plot.Frame.Marks[1]);
        for (var i = 0; i < Shots; i++)
        {
            plot.File.Wait((Scale.At(plot.Size) - 10) / Shots); // walking and the next check shot take the ten minutes
            plot.PointAtOnce("FINISH", plot.Corner.Ahead(Plot.East, 5 * i));
        }
        plot.Made.Add(new(Check, plot.File.Crew.Name, [], null, "The crew worked on for hours and never looked at control.", plot.File.Name));
    }
}

/// <summary>
/// A receiver too sure of itself: it states 4 mm in plan and 5 mm in height on every shot, and errs by twice that times the size;
/// the tip of its pole errs as always. It is another receiver than the rest of the site has, so that ten more check shots than usual
/// speak of it alone.
/// </summary>
internal sealed class AccuracyOptimisticMistake : IMistake
{
    private const double Plan = 0.004;
    private const double Height = 0.005;
    private const double Tip = 0.0055; // m, radial: centring and lean of a 2 m pole

    public string Check => "accuracy-optimistic";

    public MistakeScale Scale => new(2, "1");

    public void OnSite(Plot plot)
    {
        for (var i = 0; i < 5; i++)
        {
            plot.File.Check(plot.Frame.Marks[0]);
            plot.File.Check(plot.Frame.Marks[1]);
        }
    }

    public void Afterwards(Plot plot)
    {
        var factor = Scale.At(plot.Size);
        var axis = double.Hypot(factor * Plan, Tip) / Math.Sqrt(2);
        plot.File.MoreColumns.Add("instrument");
        foreach (var shot in plot.Session)
        {
            shot.More["instrument"] = "receiver-2";
            (shot.UPlan, shot.UHeight) = (Plan, Height);
            (shot.East, shot.North) = (shot.TrueEast + (axis * plot.Normal()), shot.TrueNorth + (axis * plot.Normal()));
            shot.Height = shot.TrueHeight + (factor * Height * plot.Normal());
        }
        plot.ToldOfSession(this, "The receiver stated an accuracy that it never had.");
    }
}

/// <summary>A contract that asks for one shot in twenty to be occupied a second time, and a crew that occupied none.</summary>
internal sealed class TooFewRepeatsMistake : IMistake
{
    public string Check => "too-few-repeats";

    public void Afterwards(Plot plot)
    {
        plot.Settings.Add("repeat_share_min = 0.05");
        plot.Made.Add(new(Check, plot.File.Crew.Name, [], null, "Nothing was measured a second time."));
    }
}
