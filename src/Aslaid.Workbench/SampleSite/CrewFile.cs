using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Aslaid.Workbench;

/// <summary>What a crew measures with, and how well: standard uncertainties in metres, plan radial.</summary>
internal sealed record Instrument(string Method, string Setup, double UPlan, double UHeight, string Fix, double? Pole)
{
    public static Instrument Receiver { get; } = new("gnss", "base-1", 0.012, 0.015, "fixed", 2.0);

    public static Instrument TotalStation { get; } = new("total-station", "station-1", 0.004, 0.002, "", 1.3);

    /// <summary>Not measured at all: read off somebody's old drawing.</summary>
    public static Instrument Records { get; } = new("records", "", 0.15, 0.2, "", null);
}

/// <summary>One row of a shot file. What was measured stands beside where the shot really was.</summary>
internal sealed class SampleShot
{
    public required string Id { get; set; }
    public required string Code { get; set; }
    public string Run { get; set; } = "";
    public string Leg { get; set; } = "";
    public string Note { get; set; } = "";
    public string Seen { get; set; } = "";
    public string Fix { get; set; } = "";
    public string Tilt { get; set; } = "";
    public Instrument? By { get; set; }
    public double UPlan { get; set; }
    public double UHeight { get; set; }
    public double TrueEast { get; set; }
    public double TrueNorth { get; set; }
    public double TrueHeight { get; set; }
    public double East { get; set; }
    public double North { get; set; }
    public double Height { get; set; }
    public double Pdop { get; set; }
    public int Sats { get; set; }
    public DateTimeOffset Time { get; set; }

    /// <summary>A known id without coordinates: the shot is used again.</summary>
    public bool Again { get; set; }

    /// <summary>Whether the instrument took the tilt out.</summary>
    public bool TiltCompensated { get; set; } = true;

    /// <summary>Cells of columns that only some files have, by the column's name.</summary>
    public Dictionary<string, string> More { get; } = [];

    /// <summary>Moves what was measured; where the shot really was stays.</summary>
    public void Miss(double east, double north, double height = 0) => (East, North, Height) = (East + east, North + north, Height + height);
}

/// <summary>A run as it was shot.</summary>
internal sealed record LaidRun(Trace Trace, IReadOnlyList<SampleShot> Shots)
{
    public ImmutableArray<string> Ids(int first, int last) =>
        [.. Shots.Skip(first).Take(last - first + 1).Select(s => s.Id)];
}

/// <summary>A crew: it numbers its shots from 1 and goes on numbering the next day.</summary>
internal sealed class Crew(string name, int seed, int stream)
{
    private int _last;

    public string Name => name;

    public SeededNumbers Noise { get; } = new(seed, stream);

    public SeededNumbers Pace { get; } = new(seed, stream + 1);

    public string NextId() => (++_last).ToString(CultureInfo.InvariantCulture);
}

/// <summary>One file being shot: the crew walks, measures with noise, and checks itself on control.</summary>
internal sealed class CrewFile(Crew crew, string name, DateTimeOffset start, SiteFrame frame)
{
    private const double WalkingPace = 1.2; // m/s, with a pole in hand
    private const double Centring = 0.003; // m, 1 sigma, radial
    private static readonly double Upright = double.DegreesToRadians(0.13); // rad, 1 sigma
    private readonly List<SampleShot> _rows = [];
    private Spot? _at;
    private DateTimeOffset _now = start;
    private DateTimeOffset _checked = start;

    public string Name => name;

    public Crew Crew => crew;

    public List<SampleShot> Rows => _rows;

    public List<TrueRun> Truth { get; } = [];

    /// <summary>Lines as they were designed.</summary>
    public List<DesignedRun> Designed { get; } = [];

    /// <summary>Points as they were designed.</summary>
    public List<DesignedSpot> DesignedSpots { get; } = [];

    public Instrument By { get; set; } = Instrument.Receiver;

    /// <summary>Share of the usual noise. A seeded mistake of a few millimetres must not drown in it.</summary>
    public double Noise { get; set; } = 1;

    /// <summary>Columns of this file beyond the usual ones.</summary>
    public List<string> MoreColumns { get; } = [];

    /// <summary>Decimals of this file's coordinates; null as all files of the site.</summary>
    public int? Decimals { get; set; }

    /// <summary>A point by itself.</summary>
    public SampleShot Point(string code, Spot at, double height)
    {
        CheckIfDue();
        var shot = Shoot(code, at, height);
        if (code is "LAMP-COLUMN" or "SIGN-POST")
            DesignedSpots.Add(new(code, $"{code} {crew.Name} {shot.Id}", at, height));
        return shot;
    }

    /// <summary>A shot that belongs to the run being walked.</summary>
    public SampleShot Shoot(string code, Spot at, double height, string run = "", string leg = "")
    {
        var (east, north) = frame.Place(at);
        var way = _at is { } here ? Math.Sqrt(Math.Pow(at.East - here.East, 2) + Math.Pow(at.North - here.North, 2)) : 0;
        _at = at;
        var uPlan = Math.Round(By.UPlan * crew.Noise.Between(0.85, 1.15), 3);
        var uHeight = Math.Round(By.UHeight * crew.Noise.Between(0.85, 1.15), 3);
        var axis = Axis(uPlan);
        var shot = new SampleShot
        {
            Id = crew.NextId(),
            Code = code,
            Run = run,
            Leg = leg,
            By = By,
            Fix = By.Fix,
            Seen = By == Instrument.Records ? "records" : SampleCodes.IsBuried(code) ? "exposed" : "",
            UPlan = uPlan,
            UHeight = uHeight,
            TrueEast = east,
            TrueNorth = north,
            TrueHeight = height,
            East = east + (Noise * axis * crew.Noise.Normal()),
            North = north + (Noise * axis * crew.Noise.Normal()),
            Height = height + (Noise * uHeight * crew.Noise.Normal()),
            Pdop = Math.Round(crew.Pace.Between(1.1, 2.2), 1),
            Sats = 15 + crew.Pace.Whole(12),
            Time = Walk(15 + (way / WalkingPace), 45 + (way / WalkingPace)),
        };
        _rows.Add(shot);
        return shot;
    }

    /// <summary>Metres per axis: what the instrument states (radial), and the tip of a pole that is centred and held upright by hand.</summary>
    private double Axis(double uPlan)
    {
        var tip = By.Pole is { } pole ? (Centring * Centring) + (pole * Upright * pole * Upright) : 0;
        return Math.Sqrt(((uPlan * uPlan) + tip) / 2);
    }

    /// <summary>Uses a known shot once more.</summary>
    public void Again(SampleShot shot, string code, string run, string leg = "") =>
        _rows.Add(new() { Id = shot.Id, Code = code, Run = run, Leg = leg, Again = true });

    /// <summary>A run, shot stop by stop.</summary>
    /// <param name="level">Metres, from place and chainage.</param>
    /// <param name="known">Stops that are shots taken already.</param>
    /// <param name="nodes">Codes of points that stand at stops: each is shot by itself there and used again by the run.</param>
    /// <param name="truth">Whether the run is right, so that its truth may be told.</param>
    public LaidRun Lay(
        string code, string label, Trace trace, Func<Spot, double, double> level,
        IReadOnlyDictionary<int, SampleShot>? known = null, IReadOnlyDictionary<int, string>? nodes = null, bool truth = true)
    {
        CheckIfDue();
        Walk(30, 120);
        var shots = new List<SampleShot>();
        for (var i = 0; i < trace.Stops.Count; i++)
        {
            var stop = trace.Stops[i];
            var leg = stop.Through ? "through" : "";
            var node = nodes?.GetValueOrDefault(i) is { } at ? Shoot(at, stop.At, level(stop.At, stop.Chainage)) : null;
            var again = node ?? known?.GetValueOrDefault(i) ?? (trace.Closed && i == trace.Stops.Count - 1 ? shots[0] : null);
            if (again is not null)
                Again(again, code, label, leg);
            shots.Add(again ?? Shoot(code, stop.At, level(stop.At, stop.Chainage), label, leg));
        }
        var laid = new LaidRun(trace, shots);
        if (truth)
        {
            Tell(code, label, laid);
            Designed.Add(new(code, label, trace, level, By == Instrument.Records));
        }
        return laid;
    }

    /// <summary>A check shot, observed longer than a detail; its noise is as honest as theirs.</summary>
    public SampleShot Check(Mark mark)
    {
        var usual = By;
        By = usual with { UPlan = Math.Min(usual.UPlan, 0.008), UHeight = Math.Min(usual.UHeight, 0.010) };
        var shot = Shoot("CONTROL", mark.At, mark.Height);
        By = usual;
        shot.By = usual;
        shot.Note = mark.Id;
        _checked = shot.Time;
        return shot;
    }

    /// <summary>Goes on only after so many minutes.</summary>
    public void Wait(double minutes) => _now = _now.AddMinutes(minutes);

    public void WaitUntil(DateTimeOffset time) => _now = _now < time ? time : _now;

    /// <summary>Walks to the next place.</summary>
    public DateTimeOffset Walk(double leastSeconds, double mostSeconds) =>
        _now = _now.AddSeconds(Math.Round(crew.Pace.Between(leastSeconds, mostSeconds)));

    public SampleFile Write(ShotsForm form) => new(name, crew.Name,
        (form with { Decimals = Decimals ?? form.Decimals, Columns = [.. form.Columns, .. MoreColumns] }).Write(_rows));

    private void CheckIfDue()
    {
        if (_now - _checked > TimeSpan.FromMinutes(90) && By.Fix.Length > 0)
            Check(frame.Marks[0]);
    }

    /// <summary>Writes the truth of a run down.</summary>
    public void Tell(string code, string label, LaidRun laid)
    {
        var stops = laid.Trace.Stops;
        var slope = 0.0;
        for (var i = 1; i < stops.Count; i++)
        {
            var plan = stops[i].Chainage - stops[i - 1].Chainage;
            var rise = laid.Shots[i].TrueHeight - laid.Shots[i - 1].TrueHeight;
            slope += Math.Sqrt((plan * plan) + (rise * rise));
        }
        var arcs = laid.Trace.Bends.Select(b => new TrueArc(
            b.Radius, double.RadiansToDegrees(b.Sweep), b.PlanLength,
            laid.Ids(b.First, b.Sweep == Math.Tau ? b.Last - 1 : b.Last)));
        Truth.Add(new(code, label.Length == 0 ? null : label, crew.Name, laid.Trace.PlanLength, slope, laid.Trace.Area, [.. arcs]));
    }
}

/// <summary>How a shot file is written: its columns and marks.</summary>
internal sealed record ShotsForm(int Decimals, params string[] Columns)
{
    public char Separator { get; init; } = ',';

    public bool DecimalComma { get; init; }

    public static ShotsForm Usual(int decimals) => new(decimals,
        "id", "east", "north", "height", "code", "run", "leg", "time", "u_plan", "u_height", "method", "setup", "fix", "pdop", "sats", "pole", "seen", "note");

    public string Write(IReadOnlyList<SampleShot> rows)
    {
        var text = new StringBuilder().AppendJoin(Separator, Columns).Append('\n');
        foreach (var row in rows)
            text.AppendJoin(Separator, Columns.Select(c => Cell(row, c))).Append('\n');
        return text.ToString();
    }

    private string Cell(SampleShot row, string column) => column switch
    {
        "id" => row.Id,
        "code" => row.Code,
        "run" => row.Run,
        "leg" => row.Leg,
        _ when row.Again => "",
        "east" => Number(row.East, Decimals),
        "north" => Number(row.North, Decimals),
        "height" => double.IsNaN(row.Height) ? "" : Number(row.Height, Decimals),
        "time" when row.By == Instrument.Records => "",
        "time" => row.Time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
        "u_plan" => Number(row.UPlan, 3),
        "u_height" => Number(row.UHeight, 3),
        "method" => row.By?.Method ?? "",
        "setup" => row.By?.Setup ?? "",
        "fix" => row.Fix,
        "pdop" => row.Fix.Length == 0 ? "" : Number(row.Pdop, 1),
        "sats" => row.Fix.Length == 0 ? "" : row.Sats.ToString(CultureInfo.InvariantCulture),
        "pole" => row.By?.Pole is { } pole ? Number(pole, 2) : "",
        "tilt" => row.Tilt,
        "tilt_compensated" => row.Tilt.Length == 0 ? "" : row.TiltCompensated ? "yes" : "no",
        "seen" => row.Seen,
        "note" => row.Note,
        _ => row.More.GetValueOrDefault(column, ""),
    };

    private string Number(double value, int decimals)
    {
        var text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return DecimalComma ? text.Replace('.', ',') : text;
    }
}
