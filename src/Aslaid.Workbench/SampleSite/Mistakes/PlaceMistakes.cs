namespace Aslaid.Workbench;

/// <summary>One thing shot twice under two ids in one session, half an hour apart or more.</summary>
internal sealed class TwoShotsOnePlaceMistake : IMistake
{
    public string Check => "two-shots-one-place";

    public bool Together => true;

    public MistakeScale Scale => new(0.020, "m", Less: true);

    public void OnSite(Plot plot)
    {
        var (at, first) = plot.Lamps[0];
        plot.File.WaitUntil(first.Time.AddMinutes(35));
        var second = plot.Point("LAMP-COLUMN", at);
        (second.East, second.North, second.Height) = (first.East + Scale.At(plot.Size), first.North, first.Height + 0.003);
        plot.Told(this, null, "The crew shot a lamp column again on its way home, under a new id.", first, second);
    }
}

/// <summary>A shot that lies nowhere near the site.</summary>
internal sealed class LoneShotFarOffMistake : IMistake
{
    public string Check => "lone-shot-far-off";

    public bool Together => true;

    public MistakeScale Scale => new(100, "m");

    public void OnSite(Plot plot) => plot.Told(this, null, "A finished level lies hundreds of metres off the site.", plot.Point("FINISH", plot.Corner));

    /// <summary>Carries the shot off until nothing is nearer than the size says.</summary>
    public void Afterwards(Plot plot)
    {
        var shot = plot.File.Rows.Single(row => !row.Again && row.Id == plot.Made.Single(made => made.Check == Check).Shots[0]);
        var others = plot.Files.SelectMany(file => file.Rows).Where(row => !row.Again && row != shot).ToArray();
        var (wanted, turn) = (Scale.At(plot.Size), plot.Between(0, Math.Tau));
        var (near, far) = (0.0, 2000 + wanted);
        while (far - near > 1e-4)
        {
            var middle = (near + far) / 2;
            (near, far) = others.Min(other => double.Hypot(shot.East + (middle * Math.Sin(turn)) - other.East, shot.North + (middle * Math.Cos(turn)) - other.North)) < wanted
                ? (middle, far)
                : (near, middle);
        }
        (shot.TrueEast, shot.TrueNorth) = (shot.TrueEast + (far * Math.Sin(turn)), shot.TrueNorth + (far * Math.Cos(turn)));
        shot.Miss(far * Math.Sin(turn), far * Math.Cos(turn));
    }
}

/// <summary>
/// A valve met again half an hour later, elsewhere or at another level than before. Size: against three and a half standard
/// uncertainties of the step between two usual shots, 0.065 m in plan on odd seeds, 0.075 m in height on even ones;
/// beyond 0.15 m in plan it is two things.
/// </summary>
internal sealed class MeasuredTwiceMistake : IMistake
{
    public string Check => "measured-twice";

    public MistakeScale Scale => new(0.065, "m", Most: 2.25);

    public void OnSite(Plot plot)
    {
        var first = plot.Point("WATER-VALVE", plot.Corner);
        plot.File.Wait(35);
        var second = plot.Point("WATER-VALVE", plot.Corner);
        var off = Scale.At(plot.Size);
        (second.East, second.North, second.Height) = plot.Odd ? (first.East + off, first.North, first.Height + 0.003) : (first.East, first.North + 0.003, first.Height + (off * 0.075 / 0.065));
        plot.Told(this, null, "A valve was measured again later and does not lie where it did.", first, second);
    }
}
