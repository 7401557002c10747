using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>A bend of the design between two shots, of which none is on it.</summary>
internal sealed class DesignBendMissedMistake : IMistake
{
    public string Check => "design-bend-missed";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var designed = new Trace(plot.Corner, Plot.East).Straight(20, 5).Curve(3, Plot.Left, 0.5).Straight(8, 4);
        plot.File.Designed.Add(new("TELECOM-DUCT", "TD-21", designed, SiteFrame.Under(0.6)));
        var shots = designed.Stops.Where(stop => !stop.Through && stop.Chainage is < 20 or > 26).Select(stop => plot.File.Shoot("TELECOM-DUCT", stop.At, SiteFrame.Under(0.6)(stop.At, 0), "TD-21")).ToArray();
        plot.Told(this, "TD-21", "The crew walked across a bend of the duct and shot nothing on it.", shots[3], shots[4]);
    }
}

/// <summary>A designed curve with one shot on it and no through-mark: two chords.</summary>
internal sealed class DesignCurveCutMistake : IMistake
{
    public string Check => "design-curve-cut";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var designed = new Trace(plot.Corner, Plot.East).Straight(10, 5).Curve(25, -0.5, 0.5).Straight(8, 4);
        plot.File.Designed.Add(new("TELECOM-DUCT", "TD-22", designed, SiteFrame.Under(0.6)));
        var shots = designed.Stops.Where(stop => !stop.Through).Select(stop => plot.File.Shoot("TELECOM-DUCT", stop.At, SiteFrame.Under(0.6)(stop.At, 0), "TD-22")).ToArray();
        var on = designed.Bends[0].First;
        plot.Told(this, "TD-22", "The crew shot where a curve of the duct begins and ends, and nothing between.", shots[on], shots[on + 1]);
    }
}

/// <summary>A duct laid beside its line in its middle. Size: against the tolerance of ducts.</summary>
internal sealed class OffDesignMistake : IMistake
{
    public string Check => "off-design";

    public bool AgainstDesign => true;

    public MistakeScale Scale => new(0.1, "m", Most: 5);

    public void OnSite(Plot plot)
    {
        var designed = new Trace(plot.Corner, Plot.East).Straight(40, 5);
        plot.File.Designed.Add(new("POWER-DUCT", "PD-23", designed, SiteFrame.Under(0.75)));
        var off = plot.Sign * Scale.At(plot.Size);
        var shots = designed.Stops.Select((stop, i) => new Spot(stop.At.East, stop.At.North + (i is >= 3 and <= 5 ? off : 0))).Select(at => plot.File.Shoot("POWER-DUCT", at, SiteFrame.Under(0.75)(at, 0), "PD-23")).ToArray();
        plot.Told(this, "PD-23", "The duct was laid round a boulder and nobody asked.", shots[3], shots[4], shots[5]);
    }
}

/// <summary>Two runs shot one after the other with a pole that was longer or shorter than entered: no run steps, only the design tells. Size: against the tolerance in height.</summary>
internal sealed class PoleHeightByDesignMistake : IMistake
{
    public string Check => "pole-height-by-design";

    public bool AgainstDesign => true;

    public MistakeScale Scale => new(0.1, "m", Most: 4);

    public void OnSite(Plot plot)
    {
        var off = plot.Sign * Scale.At(plot.Size);
        Lay(plot, "PD-24", 0, 0);
        SampleShot[] wrong = [.. Lay(plot, "PD-25", 4, off), .. Lay(plot, "PD-26", 8, off)];
        plot.Told(this, null, "The pole was set to another height for two ducts and the controller not told.", wrong);
    }

    private static SampleShot[] Lay(Plot plot, string label, double north, double off)
    {
        var designed = new Trace(new(plot.Corner.East, plot.Corner.North + north), Plot.East).Straight(30, 6);
        plot.File.Designed.Add(new("POWER-DUCT", label, designed, SiteFrame.Under(0.9)));
        return [.. designed.Stops.Select(stop => plot.File.Shoot("POWER-DUCT", stop.At, SiteFrame.Under(0.9)(stop.At, 0) + off, label))];
    }
}

/// <summary>A duct shot with the code of the duct before it.</summary>
internal sealed class OnOtherDesignMistake : IMistake
{
    public string Check => "on-other-design";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var first = new Trace(plot.Corner, Plot.East).Straight(20, 5);
        var second = new Trace(new(first.End.East + 4, first.End.North), Plot.East).Straight(12, 4);
        plot.File.Designed.Add(new("POWER-DUCT", "PD-27", first, SiteFrame.Under(0.75)));
        plot.File.Designed.Add(new("TELECOM-DUCT", "TD-27", second, SiteFrame.Under(0.75)));
        foreach (var stop in first.Stops) plot.File.Shoot("POWER-DUCT", stop.At, SiteFrame.Under(0.75)(stop.At, 0), "PD-27");
        SampleShot[] wrong = [.. second.Stops.Select(stop => plot.File.Shoot("POWER-DUCT", stop.At, SiteFrame.Under(0.75)(stop.At, 0), "PD-27"))];
        plot.Told(this, "PD-27", "The telecom duct that goes on from the power duct was shot under its code.", wrong);
    }
}

/// <summary>The back of a kerb shot as its face.</summary>
internal sealed class FaceForBackMistake : IMistake
{
    public string Check => "face-for-back";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var face = new Trace(plot.Corner, Plot.East).Straight(40, 8);
        var back = new Trace(new(plot.Corner.East, plot.Corner.North + 0.15), Plot.East).Straight(40, 8);
        plot.File.Designed.Add(new("KERB-FACE", "KF-28", face, Plot.Kerb));
        plot.File.Designed.Add(new("KERB-BACK", "KB-28", back, Plot.Kerb));
        SampleShot[] wrong = [.. back.Stops.Select(stop => plot.File.Shoot("KERB-FACE", stop.At, Plot.Kerb(stop.At, 0), "KF-28"))];
        plot.Told(this, "KF-28", "The crew walked along the back of the kerb and coded its face.", wrong);
    }
}

/// <summary>The underside of a water main shot where its top was asked for.</summary>
internal sealed class ReferenceUnclearMistake : IMistake
{
    public string Check => "reference-unclear";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var designed = new Trace(plot.Corner, Plot.East).Straight(40, 8);
        plot.File.Designed.Add(new("WATER-MAIN", "WM-29", designed, SiteFrame.Under(1.2)));
        SampleShot[] wrong = [.. designed.Stops.Select(stop => plot.File.Shoot("WATER-MAIN", stop.At, SiteFrame.Under(1.4)(stop.At, 0), "WM-29"))];
        plot.Told(this, "WM-29", "The underside of the main was shot, its top had been asked for.", wrong);
    }
}

/// <summary>A water main laid too shallow as designed. Size: metres short of the least cover, in tenths.</summary>
internal sealed class CoverTooSmallMistake : IMistake
{
    public string Check => "cover-too-small";

    public bool AgainstDesign => true;

    public MistakeScale Scale => new(0.1, "m", Most: 5);

    public void OnSite(Plot plot)
    {
        var designed = new Trace(plot.Corner, Plot.East).Straight(40, 8);
        var level = SiteFrame.Under(0.75 - Scale.At(plot.Size));
        plot.File.Designed.Add(new("WATER-MAIN", "WM-30", designed, level));
        foreach (var stop in designed.Stops) plot.File.Shoot("WATER-MAIN", stop.At, level(stop.At, 0), "WM-30");
        plot.Told(this, "WM-30", "The main was designed and laid too shallow.");
    }
}

/// <summary>A telecom duct laid across a power duct, all but touching it. Size: short of the least clear distance, in tenths of a metre.</summary>
internal sealed class TooCloseMistake : IMistake
{
    public string Check => "too-close";

    public bool AgainstDesign => true;

    public MistakeScale Scale => new(0.1, "m", Most: 2.5);

    public void OnSite(Plot plot)
    {
        var lower = new Trace(plot.Corner, Plot.East).Straight(30, 6);
        var upper = new Trace(new(plot.Corner.East + 14, plot.Corner.North - 6), 0).Straight(12, 4);
        var (deep, shallow) = (SiteFrame.Under(1.2), SiteFrame.Under(1.2 - 0.3 - 0.11 + Scale.At(plot.Size)));
        plot.File.Designed.Add(new("POWER-DUCT", "PD-31", lower, deep));
        plot.File.Designed.Add(new("TELECOM-DUCT", "TD-31", upper, shallow));
        foreach (var stop in lower.Stops) plot.File.Shoot("POWER-DUCT", stop.At, deep(stop.At, 0), "PD-31");
        foreach (var stop in upper.Stops) plot.File.Shoot("TELECOM-DUCT", stop.At, shallow(stop.At, 0), "TD-31");
        plot.Told(this, "TD-31", "The telecom duct was laid across the power duct with too little between.");
    }
}

/// <summary>An old gas main that only the design knows, crossed and not exposed.</summary>
internal sealed class CrossingNotMeasuredMistake : IMistake
{
    public string Check => "crossing-not-measured";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var duct = new Trace(plot.Corner, Plot.East).Straight(30, 6);
        var gas = new Trace(new(plot.Corner.East + 14, plot.Corner.North - 6), 0.1).Straight(12, 12);
        plot.File.Designed.Add(new("TELECOM-DUCT", "TD-32", duct, SiteFrame.Under(0.5)));
        plot.File.Designed.Add(new("GAS-RECORD", "GM-32", gas, SiteFrame.Under(0.9), Existing: true));
        foreach (var stop in duct.Stops) plot.File.Shoot("TELECOM-DUCT", stop.At, SiteFrame.Under(0.5)(stop.At, 0), "TD-32");
        plot.Told(this, "TD-32", "The duct crosses a gas main of the old drawings; nobody exposed it.");
    }
}

/// <summary>A duct said to be built of which the second half was not shot.</summary>
internal sealed class DesignNotMeasuredMistake : IMistake
{
    public string Check => "design-not-measured";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var designed = new Trace(plot.Corner, Plot.East).Straight(40, 5);
        plot.File.Designed.Add(new("POWER-DUCT", "PD-33", designed, SiteFrame.Under(0.75)));
        SampleShot[] shots = [.. designed.Stops.Take(5).Select(stop => plot.File.Shoot("POWER-DUCT", stop.At, SiteFrame.Under(0.75)(stop.At, 0), "PD-33"))];
        plot.Journal.Add(new(plot.Journal.Count + 1, shots[^1].Time.AddMinutes(30), Actor.Typed("Site engineer"), "The foreman says so.", new DesignBuilt("PD-33", 0, 40)));
        plot.Told(this, null, "The duct was said to be built and shot; the crew had stopped half way.");
    }
}

/// <summary>A kerb that is on no design.</summary>
internal sealed class BuiltWithoutDesignMistake : IMistake
{
    public string Check => "built-without-design";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        SampleShot[] shots = [.. new Trace(plot.Corner, Plot.East).Straight(30, 6).Stops.Select(stop => plot.File.Shoot("KERB-FACE", stop.At, Plot.Kerb(stop.At, 0), "KF-35"))];
        plot.Told(this, null, "A kerb was built that no design has.", shots[0]);
    }
}

/// <summary>A main that leaves the designed ground.</summary>
internal sealed class CoverNotKnownMistake : IMistake
{
    public string Check => "cover-not-known";

    public bool AgainstDesign => true;

    public void OnSite(Plot plot)
    {
        var level = SiteFrame.Under(1.2);
        var designed = new Trace(new(-20, plot.Corner.North), -Math.PI / 2).Straight(24, 8);
        plot.File.Designed.Add(new("WATER-MAIN", "WM-36", designed, level));
        SampleShot[] shots = [.. designed.Stops.Select(stop => plot.File.Shoot("WATER-MAIN", stop.At, level(stop.At, 0), "WM-36"))];
        plot.Told(this, null, "The main goes on beyond the designed ground.", shots[0]);
    }
}
