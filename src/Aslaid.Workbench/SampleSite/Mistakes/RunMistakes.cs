using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>A run of one shot.</summary>
internal sealed class SingleShotRunMistake : IMistake
{
    public string Check => "single-shot-run";

    public bool Together => true;

    public void OnSite(Plot plot)
    {
        var shot = plot.File.Shoot("KERB-BACK", plot.Corner, Plot.Kerb(plot.Corner, 0), "KB-9");
        plot.Told(this, "KB-9", "A kerb was begun and left after one shot.", shot);
    }
}

/// <summary>A ring left open.</summary>
internal sealed class RunNotClosedMistake : IMistake
{
    public string Check => "run-not-closed";

    public bool Together => true;

    public void OnSite(Plot plot)
    {
        var open = new Trace(plot.Corner, Plot.East).Straight(5, 5).Corner(Plot.Left).Straight(4, 5).Corner(Plot.Left).Straight(5, 5);
        var run = plot.Lay("ISLAND-KERB", "IS-9", open, Plot.Kerb);
        plot.Told(this, "IS-9", "An island was never closed on its first shot.", run.Shots[0], run.Shots[^1]);
    }
}

/// <summary>A ring that ends beside its start. Size: the gap against the least of 50 mm and three times the usual radial uncertainty of a step, 0.019 m.</summary>
internal sealed class NearlyClosedMistake : IMistake
{
    public string Check => "nearly-closed";

    public bool Together => true;

    public MistakeScale Scale => new(0.050, "m", Less: true);

    public void OnSite(Plot plot)
    {
        var round = new Trace(plot.Corner, Plot.East).Straight(6, 6).Corner(Plot.Left).Straight(4, 6).Corner(Plot.Left).Straight(6, 6)
            .Corner(Plot.Left).Straight(4 - Scale.At(plot.Size), 6);
        var run = plot.LayQuietly("KERB-FACE", "KF-8", round, Plot.Kerb);
        plot.Told(this, "KF-8", "The crew came round to its first shot and took a new one beside it.", run.Shots[0], run.Shots[^1]);
    }
}

/// <summary>
/// An end that misses the main by 0.15 m times the size: far beyond what accuracy could explain (some 0.06 m between two
/// usual shots), well within the reach of the code.
/// </summary>
internal sealed class EndShortMistake : IMistake
{
    public string Check => "end-short";

    public bool Together => true;

    public MistakeScale Scale => new(0.15, "m");

    public void OnSite(Plot plot)
    {
        var branch = new Trace(plot.BesideMain, 0).Straight(8 - Scale.At(plot.Size), 4);
        var run = plot.LayQuietly("WATER-BRANCH", "WB-9", branch, SiteFrame.Under(1.2), Interchange.Nodes("WATER-HYDRANT", 0));
        plot.Told(this, "WB-9", "A branch ends short of the main WM-1.", run.Shots[^1]);
    }
}

/// <summary>A stretch not shot. Telecom ducts in the default code book.</summary>
internal sealed class ShotsTooFarApartMistake : IMistake
{
    public string Check => "shots-too-far-apart";

    public bool Together => true;

    public MistakeScale Scale => new(10, "m");

    public void OnSite(Plot plot)
    {
        var gap = Scale.At(plot.Size);
        var duct = new Trace(plot.Corner, Plot.East).Straight(8, 8).Straight(gap, gap).Straight(8, 8);
        var run = plot.Lay("TELECOM-DUCT", "TD-9", duct, SiteFrame.Under(0.4), Interchange.Nodes("TELECOM-CHAMBER", 0, 3));
        plot.Told(this, "TD-9", "A stretch of duct was not shot.", run.Shots[1], run.Shots[2]);
    }
}

/// <summary>Two shots of a later day that belong into the middle of a run and stand at its end.</summary>
internal sealed class ShotsOutOfOrderMistake : IMistake
{
    private const string Label = "WM-1";

    public string Check => "shots-out-of-order";

    public void OnSite(Plot plot)
    {
        var top = SiteFrame.Under(1.2);
        var onMain = plot.BesideMain.Ahead(0, 8);
        var shots = new[] { -0.75, 0.75 }.Select(way => onMain.Ahead(Plot.East, way)).Select(at => plot.File.Shoot("WATER-MAIN", at, top(at, 0), Label)).ToArray();
        foreach (var file in plot.Files)
            file.Truth.RemoveAll(run => run.Label == Label && run.Crew == plot.File.Crew.Name);
        plot.Told(this, Label, "The crew came back for a joint in the middle of the main.", shots);
    }
}

/// <summary>Two shots of a kerb's back stored in the wrong order.</summary>
internal sealed class NeighboursExchangedMistake : IMistake
{
    public string Check => "neighbours-exchanged";

    public void OnSite(Plot plot)
    {
        var run = plot.Lay("KERB-BACK", "KB-6", new Trace(plot.Corner, Plot.East).Straight(36, 4), Plot.Kerb);
        var (a, b) = (run.Shots[3], run.Shots[4]);
        (a.East, a.North, a.Height, b.East, b.North, b.Height) = (b.East, b.North, b.Height, a.East, a.North, a.Height);
        (a.TrueEast, a.TrueNorth, a.TrueHeight, b.TrueEast, b.TrueNorth, b.TrueHeight) = (b.TrueEast, b.TrueNorth, b.TrueHeight, a.TrueEast, a.TrueNorth, a.TrueHeight);
        plot.Told(this, "KB-6", "Two shots of a kerb's back came into the file in the wrong order.", a, b);
    }
}

/// <summary>A path set by hand that leaves two shots out, each between two that it keeps, so that no gap is too long.</summary>
internal sealed class ShotOnNoPathMistake : IMistake
{
    private static readonly int[] Left = [2, 4];

    public string Check => "shot-on-no-path";

    public void OnSite(Plot plot)
    {
        var before = plot.File.Rows.Count;
        var duct = new Trace(plot.Corner, Plot.East).Straight(32, 4);
        var run = plot.Lay("TELECOM-DUCT", "TD-5", duct, SiteFrame.Under(0.4));
        var batch = plot.Files.IndexOf(plot.File) + 1;
        var lines = plot.File.Rows.Select((row, index) => (Row: row, Line: index + 2)).Skip(before).Where(at => run.Shots.Contains(at.Row)).ToArray();
        plot.Journal.Add(new(plot.Journal.Count + 1, run.Shots[^1].Time, Actor.Typed("Site engineer"), "As the drawing has it.",
            new PathSet($"TELECOM-DUCT/TD-5@{plot.File.Crew.Name}", null, [.. lines.Where((_, i) => !Left.Contains(i)).Select(at => new PathStep(new(batch, at.Line), false))])));
        plot.Told(this, "TD-5", "A path was set by hand and left two shots out.", run.Shots[Left[0]], run.Shots[Left[1]]);
    }
}
