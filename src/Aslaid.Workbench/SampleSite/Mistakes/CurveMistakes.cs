namespace Aslaid.Workbench;

/// <summary>A kerb whose arc does not begin along the straight before it; it turns away from the arc on odd seeds.</summary>
internal sealed class TangentBreakMistake : IMistake
{
    public string Check => "tangent-break";

    /// <summary>Kerbs in the default code book.</summary>
    public MistakeScale Scale => new(10, "deg");

    public void OnSite(Plot plot)
    {
        var kerb = new Trace(plot.Corner, Plot.East).Straight(10, 5).Corner(plot.Sign * double.DegreesToRadians(Scale.At(plot.Size)))
            .Curve(8, -Math.PI / 3).Straight(10, 5);
        var run = plot.Lay("KERB-FACE", "KF-3", kerb, Plot.Kerb);
        plot.Told(this, "KF-3", "The arc was begun beside its tangent point.", run.Shots[2]);
    }
}

/// <summary>A kerb of 30 m radius shot by straights only. Size: the sagitta that each of its eight legs loses, against the code's.</summary>
internal sealed class CurveByChordsMistake : IMistake
{
    private const double Radius = 30; // m
    private const int Legs = 8;

    public string Check => "curve-by-chords";

    /// <summary>Kerbs in the default code book.</summary>
    public MistakeScale Scale => new(0.010, "m");

    public void OnSite(Plot plot)
    {
        var turn = 2 * Math.Acos(1 - (Scale.At(plot.Size) / Radius));
        var chord = 2 * Radius * Math.Sin(turn / 2);
        var kerb = new Trace(plot.Corner, Plot.East).Straight(8, 4).Corner(-turn / 2);
        for (var i = 0; i < Legs; i++)
            kerb.Straight(chord, chord).Corner(i == Legs - 1 ? -turn / 2 : -turn);
        kerb.Straight(8, 4);
        var run = plot.Lay("KERB-FACE", "KF-2", kerb, Plot.Kerb);
        plot.Told(this, "KF-2", "The crew walked a curve and never said so.", [.. run.Shots.Skip(4).Take(Legs - 3)]); // whether the outermost corners belong to the curve, noise decides
    }
}

/// <summary>
/// A bend of a duct shot as one corner, where two straights meet. Size: how far the sharpest bend allowed (1 m) would stay inside
/// that corner, against the code's sagitta.
/// </summary>
internal sealed class BendNotShotMistake : IMistake
{
    private const double Radius = 1; // m, power ducts in the default code book

    public string Check => "bend-not-shot";

    public MistakeScale Scale => new(0.025, "m");

    public void OnSite(Plot plot)
    {
        var turn = 2 * Math.Acos(1 / (1 + (Scale.At(plot.Size) / Radius)));
        var duct = new Trace(plot.Corner, Plot.East).Straight(18, 6).Corner(-turn).Straight(12, 6);
        var run = plot.Lay("POWER-DUCT", "PD-7", duct, SiteFrame.Under(0.75), Interchange.Nodes("POWER-CHAMBER", 0, 5));
        plot.Told(this, "PD-7", "A bend was shot at its corner only.", run.Shots[3]);
    }
}
