namespace Aslaid.Workbench;

/// <summary>A code misspelt.</summary>
internal sealed class UnknownCodeMistake : IMistake
{
    public string Check => "unknown-code";

    public bool Together => true;

    public void OnSite(Plot plot) => plot.Told(this, null, "A lamp column's code is misspelt.", plot.Point("LAMP-COLUMM", plot.Corner));
}

/// <summary>One id for two places.</summary>
internal sealed class IdTwiceMistake : IMistake
{
    public string Check => "id-twice";

    public bool Together => true;

    public void OnSite(Plot plot)
    {
        var first = plot.Point("FINISH", plot.Corner);
        var second = plot.Point("FINISH", plot.Corner.Ahead(Plot.East, 12));
        second.Id = first.Id;
        plot.Told(this, null, "Two places carry one id.", first);
    }
}

/// <summary>Code and label left as they were for another thing. Size: the leg to it against the usual ones.</summary>
internal sealed class CodeNotChangedMistake : IMistake
{
    private const double Leg = 7.16; // m, from the duct's end to the kerb's: short enough for the spacing of both

    public string Check => "code-not-changed";

    public bool Together => true;

    public MistakeScale Scale => new(3, "legs");

    public void OnSite(Plot plot)
    {
        var duct = new Trace(plot.Corner, Plot.East);
        for (var i = 0; i < 10; i++)
            duct.Straight(Leg / Scale.At(plot.Size), Leg);
        plot.Lay("POWER-DUCT", "PD-9", duct, SiteFrame.Under(0.75), Interchange.Nodes("POWER-CHAMBER", 0, duct.Stops.Count - 1));
        var kerb = Enumerable.Range(0, 7).Select(i => new Spot(duct.End.East - 1.5 - (4 * i), duct.End.North + 7)).ToArray();
        var wrong = kerb.Take(4).Select(at => plot.File.Shoot("POWER-DUCT", at, Plot.Kerb(at, 0), "PD-9")).ToArray();
        foreach (var at in kerb.Skip(4))
            plot.File.Shoot("KERB-FACE", at, Plot.Kerb(at, 0), "KF-9");
        plot.Told(this, "PD-9", "The crew walked from the duct to the kerb and left code and label as they were for four shots.", wrong);
    }
}
