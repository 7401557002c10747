namespace Aslaid.Workbench;

/// <summary>A wrong base: one vector on every shot of the session, check shots too.</summary>
internal sealed class SessionShiftedMistake : IMistake
{
    public string Check => "session-shifted";

    public MistakeScale Scale => new(0.03, "m");

    public void Afterwards(Plot plot)
    {
        var (shift, way) = (Scale.At(plot.Size), plot.Between(0, Math.Tau));
        foreach (var shot in plot.Session)
            shot.Miss(shift * Math.Sin(way), shift * Math.Cos(way));
        plot.ToldOfSession(this, "The base stood over the old nail beside the right one.");
    }
}

/// <summary>Heights above another datum: one step on every height of the file, upwards on odd seeds. A geoid that was left out makes 40 m of it.</summary>
internal sealed class HeightDatumOffMistake : IMistake
{
    public string Check => "height-datum-off";

    public MistakeScale Scale => new(1, "m");

    public void Afterwards(Plot plot)
    {
        foreach (var shot in plot.File.Rows.Where(row => !row.Again))
            shot.Miss(0, 0, plot.Sign * Scale.At(plot.Size));
        plot.ToldOfSession(this, "Heights were exported above another datum.");
    }
}

/// <summary>
/// Ground for grid: the session is scaled about the site's first control point. The crew met all five points, twice each: 240 ppm
/// are 50 mm from one end of the site to the other, and fourteen check shots tell about 15 ppm.
/// </summary>
internal sealed class ScaleOffMistake : IMistake
{
    public string Check => "scale-off";

    public MistakeScale Scale => new(120, "ppm");

    public void OnSite(Plot plot)
    {
        for (var i = 0; i < 2; i++)
            foreach (var mark in plot.Frame.Marks)
                plot.File.Check(mark);
    }

    public void Afterwards(Plot plot)
    {
        var (east, north) = plot.Frame.Place(plot.Frame.Marks[0].At);
        var scale = plot.Sign * Scale.At(plot.Size) * 1e-6;
        foreach (var shot in plot.Session)
            shot.Miss(scale * (shot.East - east), scale * (shot.North - north));
        plot.ToldOfSession(this, "The receiver was set to distances on the ground.");
    }
}

/// <summary>
/// A total station over M1 that was turned to a wrong bearing: its session turns about it by 0.03 m in 100 m (62″) times the size.
/// It meets M2 75 m and M3 159 m away.
/// </summary>
internal sealed class SetupRotatedMistake : IMistake
{
    private const double Reach = 100; // m

    public string Check => "setup-rotated";

    public MistakeScale Scale => new(0.03, "m");

    public void OnSite(Plot plot)
    {
        var before = plot.File.Rows.Count;
        plot.ByTotalStation(plot.Frame.Marks[1], plot.Frame.Marks[2], () =>
        {
            for (var i = 0; i < 8; i++)
                plot.PointAtOnce("FINISH", plot.Corner.Ahead(Plot.East, 4 * i));
        });
        var (east, north) = plot.Frame.Place(plot.Frame.Marks[0].At);
        var (sin, cos) = Math.SinCos(plot.Sign * Scale.At(plot.Size) / Reach);
        foreach (var shot in plot.File.Rows.Skip(before))
        {
            var (e, n) = (shot.East - east, shot.North - north);
            (shot.East, shot.North) = (east + (e * cos) + (n * sin), north + (n * cos) - (e * sin));
        }
        plot.Made.Add(new(Check, plot.File.Crew.Name, [], null, "The total station was oriented on the wrong side of a target.", plot.File.Name));
    }
}

/// <summary>
/// A pole height entered wrongly for a while, across a kerb's face, its back and finished levels: every height between is off by one
/// step, upwards on odd seeds. Nothing else of the site tells the step than the lines that were begun before it or ended after it:
/// 4.5 times the uncertainty of a step between two lines fitted to usual heights, 0.115 m, is the least that can be told.
/// </summary>
internal sealed class PoleHeightWrongMistake : IMistake
{
    public string Check => "pole-height-wrong";

    public MistakeScale Scale => new(0.115, "m");

    public void OnSite(Plot plot)
    {
        var file = plot.File;
        var first = file.Rows.Count + 4;
        plot.Lay("KERB-FACE", "KF-4", Line(0), Plot.Kerb);
        for (var i = 0; i < 4; i++)
            plot.PointAtOnce("FINISH", plot.Corner.Ahead(Plot.East, 6 * i).Ahead(0, 4));
        var last = file.Rows.Count + 4;
        plot.Lay("KERB-BACK", "KB-4", Line(8), Plot.Kerb);
        var wrong = file.Rows.Skip(first).Take(last - first).ToArray();
        foreach (var shot in wrong)
            shot.Miss(0, 0, plot.Sign * Scale.At(plot.Size));
        plot.Told(this, null, "The pole was drawn out, and its new height entered some time later.", wrong);

        Trace Line(double north) => new Trace(plot.Corner.Ahead(0, north), Plot.East).Straight(35, 5);
    }
}
