namespace Aslaid.Workbench;

/// <summary>A file exported to a decimetre: with one decimal on odd seeds, with two noughts behind it on even ones.</summary>
internal sealed class CoordinatesRoundedMistake : IMistake
{
    public string Check => "coordinates-rounded";

    public void Afterwards(Plot plot)
    {
        foreach (var shot in plot.File.Rows.Where(row => !row.Again))
            (shot.East, shot.North, shot.Height) = (Math.Round(shot.East, 1), Math.Round(shot.North, 1), Math.Round(shot.Height, 1));
        plot.File.Decimals = plot.Odd ? 1 : null;
        plot.ToldOfSession(this, "The file was exported to one decimal.");
    }
}

/// <summary>A file with its columns of east and north exchanged.</summary>
internal sealed class AxesSwappedMistake : IMistake
{
    public string Check => "axes-swapped";

    public void Afterwards(Plot plot)
    {
        foreach (var shot in plot.File.Rows.Where(row => !row.Again))
            (shot.East, shot.North) = (shot.North, shot.East);
        plot.ToldOfSession(this, "The columns of east and north were exchanged on export.");
    }
}

/// <summary>
/// A file in international feet taken as metres (odd seeds), or one in US survey feet turned into metres as international ones, 2 ppm
/// of the coordinate short (even seeds).
/// </summary>
internal sealed class FeetForMetresMistake : IMistake
{
    private const double Foot = 0.3048; // m, international foot
    private const double SurveyFoot = 1200.0 / 3937; // m, US survey foot

    public string Check => "feet-for-metres";

    public void Afterwards(Plot plot)
    {
        var scale = plot.Odd ? 1 / Foot : Foot / SurveyFoot;
        foreach (var shot in plot.File.Rows.Where(row => !row.Again))
            (shot.East, shot.North, shot.Height) = (scale * shot.East, scale * shot.North, scale * shot.Height);
        plot.ToldOfSession(this, plot.Odd ? "The file is in feet." : "The file was converted by the wrong foot.");
    }
}

/// <summary>A file of another site, with check shots on that site's control. Size: how far it lies from the nearest control point.</summary>
internal sealed class AnotherSiteMistake : IMistake
{
    public string Check => "another-site";

    public MistakeScale Scale => new(5000, "m");

    public void Afterwards(Plot plot)
    {
        var shots = plot.File.Rows.Where(row => !row.Again).ToArray();
        var known = plot.Frame.Marks.Select(mark => plot.Frame.Place(mark.At)).ToArray();
        var (wanted, turn) = (Scale.At(plot.Size), plot.Between(0, Math.Tau));
        var (near, far) = (0.0, wanted + 1000);
        while (far - near > 0.01)
        {
            var middle = (near + far) / 2;
            var nearest = shots.Min(shot => known.Min(mark => double.Hypot(shot.East + (middle * Math.Sin(turn)) - mark.East, shot.North + (middle * Math.Cos(turn)) - mark.North)));
            (near, far) = nearest < wanted ? (middle, far) : (near, middle);
        }
        foreach (var shot in shots)
        {
            shot.Miss(far * Math.Sin(turn), far * Math.Cos(turn));
            if (shot.Note.Length > 0)
                shot.Note = $"Q{shot.Note[1..]}";
        }
        plot.ToldOfSession(this, "The file belongs to the crew's other site.");
    }
}
