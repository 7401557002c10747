namespace Aslaid.Workbench;

/// <summary>A through-shot beside the arc's start. Size: its share of the arc, downwards from a quarter.</summary>
internal sealed class ArcShotNearEndMistake : IMistake
{
    public string Check => "arc-shot-near-end";

    public bool Together => true;

    public MistakeScale Scale => new(0.25, "1", Less: true);

    public void OnSite(Plot plot)
    {
        var kerb = new Trace(plot.Corner, Plot.East).Straight(8, 8).Curve(8, Plot.Left, Scale.At(plot.Size)).Straight(3, 3);
        var run = plot.Lay("KERB-FACE", "KF-7", kerb, Plot.Kerb);
        plot.Told(this, "KF-7", "The through-shot of a kerb's arc stands close to the arc's start.", run.Shots[2]);
    }
}

/// <summary>A nose sharper than its code allows: islands in the default code book.</summary>
internal sealed class RadiusOutOfRangeMistake : IMistake
{
    public string Check => "radius-out-of-range";

    public bool Together => true;

    public MistakeScale Scale => new(0.4, "m", Less: true);

    public void OnSite(Plot plot)
    {
        var island = Interchange.RoundedTriangle(plot.Corner, Plot.East, 12, double.DegreesToRadians(45), double.DegreesToRadians(60), [0.8, 0.9, Scale.At(plot.Size)]);
        var run = plot.LayQuietly("ISLAND-KERB", "IS-8", island, Plot.Kerb);
        var sharp = island.Bends.MinBy(b => b.Radius);
        plot.Told(this, "IS-8", "One nose of an island is sharper than any kerb stone.",
            [.. Enumerable.Range(sharp.First, sharp.Last - sharp.First + 1).Select(i => run.Shots[i])]);
    }
}

/// <summary>
/// A flat arc. Size: its ordinate against its own uncertainty, which makes a tenth of the radius uncertain at 10; near size 3 it is
/// no proven arc any more and belongs to <see cref="ArcNotProvenMistake"/>.
/// </summary>
internal sealed class RadiusTooUncertainMistake : IMistake
{
    public string Check => "radius-too-uncertain";

    public bool Together => true;

    public MistakeScale Scale => new(10 * FlatArc.OrdinateSigma, "m", Less: true, Most: 2.5);

    public void OnSite(Plot plot) => FlatArc.Lay(plot, this, "KF-6", 5, Scale.At(plot.Size), "A short, flat arc: it is proven, its radius hardly.");
}

/// <summary>An arc no better than a straight. Size: its ordinate, downwards from three times its uncertainty.</summary>
internal sealed class ArcNotProvenMistake : IMistake
{
    public string Check => "arc-not-proven";

    public bool Together => true;

    public MistakeScale Scale => new(3 * FlatArc.OrdinateSigma, "m", Less: true);

    public void OnSite(Plot plot) => FlatArc.Lay(plot, this, "KF-5", 6, Scale.At(plot.Size), "A straight kerb shot as an arc.");
}

/// <summary>A full circle with one through-shot only.</summary>
internal sealed class ArcNotMadeMistake : IMistake
{
    public string Check => "arc-not-made";

    public void OnSite(Plot plot)
    {
        var ring = new Trace(plot.Corner, Plot.East).Curve(0.7, Math.Tau, 0.5).Home();
        var run = plot.Lay("TREE-PIT", "TP-9", ring, Plot.Kerb);
        plot.Told(this, "TP-9", "A tree pit was shot by two shots.", run.Shots[0], run.Shots[1]);
    }
}

/// <summary>A kerb of straight, flat arc and straight.</summary>
internal static class FlatArc
{
    /// <summary>Metres: of a mid-ordinate between usual shots with the tip of their pole, 0.0132 / √2 × √1.5.</summary>
    public const double OrdinateSigma = 0.0114;

    public static void Lay(Plot plot, IMistake mistake, string label, double chord, double ordinate, string note)
    {
        var radius = (chord * chord / (8 * ordinate)) + (ordinate / 2);
        var kerb = new Trace(plot.Corner, Plot.East).Straight(6, 6).Curve(radius, -2 * Math.Asin(chord / (2 * radius))).Straight(6, 6);
        var run = plot.LayQuietly("KERB-FACE", label, kerb, Plot.Kerb);
        plot.Told(mistake, label, note, run.Shots[1], run.Shots[2], run.Shots[3]);
    }
}
