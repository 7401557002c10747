namespace Aslaid.Workbench;

/// <summary>Shots of a line without a height: with none on odd seeds, with an exact nought on even ones.</summary>
internal sealed class HeightMissingMistake : IMistake
{
    public string Check => "height-missing";

    public void OnSite(Plot plot)
    {
        var duct = new Trace(plot.Corner, Plot.East).Straight(35, 5);
        var run = plot.Lay("TELECOM-DUCT", "TD-8", duct, SiteFrame.Under(0.4), Interchange.Nodes("TELECOM-CHAMBER", 0, 7));
        SampleShot[] lost = [run.Shots[3], run.Shots[4]];
        foreach (var shot in lost)
            shot.Height = plot.Odd ? double.NaN : 0;
        plot.Told(this, "TD-8", "Two shots of a duct were stored in plan only.", lost);
    }
}

/// <summary>
/// One shot of a level duct that lies off the line of its neighbours, upwards on odd seeds. Size: against the tolerance of ducts in
/// the default code book, which is more than a receiver's accuracy leaves open (0.08 m).
/// </summary>
internal sealed class LevelJumpMistake : IMistake
{
    public string Check => "level-jump";

    public MistakeScale Scale => new(0.1, "m");

    public void OnSite(Plot plot)
    {
        var duct = new Trace(plot.Corner, Plot.East).Straight(40, 5);
        var run = plot.Lay("POWER-DUCT", "PD-8", duct, SiteFrame.Under(1.2), Interchange.Nodes("POWER-CHAMBER", 0, 8));
        run.Shots[4].Miss(0, 0, plot.Sign * Scale.At(plot.Size));
        plot.Told(this, "PD-8", "The pole stood on a stone, or sank, at one shot of a duct.", run.Shots[4]);
    }
}

/// <summary>
/// A drain by total station with one leg of 10 m laid wrong. Its fall is the least of its code (0.5 %) times 2 − size: at size 1 as
/// it must be, at 2 level, at 3 as much against the flow. The other legs fall at 1 %.
/// </summary>
internal sealed class FallWrongMistake : IMistake
{
    private const double Fall = 0.01;
    private const double Leg = 10; // m

    public string Check => "fall-wrong";

    public MistakeScale Scale => new(0.5, "% too little and more");

    public void OnSite(Plot plot)
    {
        var start = SiteFrame.Ground(plot.Corner) - 1.7;
        var lost = (Fall - (0.005 * (2 - plot.Size))) * Leg;
        plot.ByTotalStation(plot.Frame.Marks[1], plot.Frame.Marks[2], () =>
        {
            var drain = new Trace(plot.Corner, Plot.East).Straight(4 * Leg, Leg);
            var run = plot.Lay("STORM-DRAIN", "SD-9", drain,
                (_, chainage) => start - (Fall * chainage) + (lost * Math.Clamp((chainage / Leg) - 2, 0, 1)), Interchange.Nodes("STORM-CHAMBER", 0, 4));
            plot.Told(this, "SD-9", "One leg of a drain was laid without its fall.", run.Shots[2], run.Shots[3]);
        });
    }
}
