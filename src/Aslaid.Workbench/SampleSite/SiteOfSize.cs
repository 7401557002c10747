using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Aslaid.Workbench;

/// <summary>A town of parallel streets, six lines to a street, shot by up to three crews; made as quickly as it can be written.</summary>
internal sealed class SiteOfSize
{
    private const double OriginEast = 512_000;
    private const double OriginNorth = 6_243_000;
    private const double BlockLength = 130; // m along the street, with the gap between two runs
    private const double StreetWidth = 40;
    private const int LinesInStreet = 6;
    private const int RunsBetweenChecks = 6;
    private const int LongestRun = 21; // shots
    private const double UPlan = 0.012;
    private const double UHeight = 0.015;
    private const double East = Math.PI / 2;
    private static readonly string[] Codes = ["KERB-FACE", "WATER-MAIN", "POWER-DUCT", "TELECOM-DUCT", "KERB-BACK", "KERB-FACE"];
    private static readonly string[] Crews = ["North", "South", "East"];
    private static readonly string[] Kinds = ["solution-not-fixed", "accuracy-over-limit", "shots-too-far-apart", "id-twice", "arc-not-proven"];
    private static readonly Trace Plain = new Trace(default, East).Straight(95, 5);
    private static readonly Trace Bent = new Trace(default, East).Straight(35, 5).Curve(25, 0.6).Curve(25, -0.6).Straight(35, 5.1);
    private static readonly Trace Ring = new Trace(default, East)
        .Straight(36, 6).Curve(2, -East).Straight(8, 8).Curve(2, -East).Straight(36, 6).Curve(2, -East).Straight(8, 8).Curve(2, -East).Home();
    private static readonly Trace Gapped = new Trace(default, East).Straight(35, 5).Straight(25, 25).Straight(35, 5);
    private static readonly Trace Flat = new Trace(default, East).Straight(40, 5).Curve(4500, -2 * Math.Asin(3 / 4500.0)).Straight(40, 5);
    private readonly int _shots;
    private readonly int _decimals;
    private readonly SeededNumbers _noise;
    private readonly int _columns;
    private readonly int _runsToAMistake;

    public SiteOfSize(int shots, int seed, int decimals, int runsToAMistake)
    {
        (_shots, _decimals, _noise, _runsToAMistake) = (shots, decimals, new(seed, 3), runsToAMistake);
        var streets = Math.Sqrt(shots / 20.0 / LinesInStreet * BlockLength / StreetWidth); // as many as make the town square
        _columns = Math.Max(1, (int)(shots / 20.0 / LinesInStreet / Math.Max(1, streets)));
    }

    public List<TrueRun> Truth { get; } = [];

    public List<SeededMistake> Mistakes { get; } = [];

    public ImmutableArray<SampleFile> Shoot()
    {
        var files = ImmutableArray.CreateBuilder<SampleFile>();
        var crews = Math.Clamp(_shots / 5000, 1, Crews.Length);
        var run = 0;
        for (var crew = 0; crew < crews; crew++)
            files.Add(Shoot(Crews[crew], (int)((long)_shots * (crew + 1) / crews) - (int)((long)_shots * crew / crews), ref run, crew));
        return files.DrainToImmutable();
    }

    public static string ControlCsv() => string.Create(CultureInfo.InvariantCulture,
        $"id,east,north,height,u_plan,u_height\nM1,{OriginEast - 20:F4},{OriginNorth - 20:F4},{Ground(-20, -20):F4},0.005,0.004\nM2,{OriginEast - 20:F4},{OriginNorth - 60:F4},{Ground(-20, -60):F4},0.005,0.004\n");

    private SampleFile Shoot(string crew, int shots, ref int run, int files)
    {
        const int checksAtEnd = 2;
        var page = new Page(shots, _decimals);
        Check(page, -60, "M2");
        Check(page, -20, "M1");
        var day = shots - checksAtEnd - LongestRun - 1; // room for one more check shot and one more run
        for (; page.Last < day; run++)
        {
            if (run % RunsBetweenChecks == 0)
                Check(page, -20, "M1");
            Lay(page, crew, run);
        }
        for (var i = 0; page.Last < shots - checksAtEnd; i++)
            page.Shot(null, OriginEast + (3 * i) + Plan(), OriginNorth - 100 - (10 * files) + Plan(), Ground(3 * i, -100) + (UHeight * _noise.Normal()),
                "FINISH", "", "", UPlan, UHeight, "fixed", "");
        Check(page, -20, "M1");
        Check(page, -60, "M2");
        return new($"{crew.ToLowerInvariant()}.csv", crew, page.Text());
    }

    private void Lay(Page page, string crew, int run)
    {
        var row = run / _columns;
        var (line, column) = (row % LinesInStreet, run % _columns);
        var east = column * BlockLength;
        var north = (row / LinesInStreet * StreetWidth) + (2.0 * line);
        var mistake = run % _runsToAMistake == _runsToAMistake / 2 ? Kinds[run / _runsToAMistake % Kinds.Length] : null;
        var ring = line == LinesInStreet - 1 && column % 2 == 0 && mistake is null;
        var trace = mistake switch
        {
            "shots-too-far-apart" => Gapped,
            "arc-not-proven" => Flat,
            _ => ring ? Ring : column % 3 == 0 ? Bent : Plain,
        };
        // The gap is wide for every service but the water main; the flat arc is unproven for all.
        var code = ring ? "ISLAND-KERB" : mistake == "shots-too-far-apart" ? "POWER-DUCT" : Codes[line];
        var label = string.Create(CultureInfo.InvariantCulture, $"R-{run + 1}");
        var depth = code switch { "WATER-MAIN" => -1.2, "POWER-DUCT" => -0.75, "TELECOM-DUCT" => -0.4, _ => 0.12 };
        var first = page.Last + 1;
        var (was, plan, slope) = (0.0, 0.0, 0.0);
        var firstHeight = 0.0;
        for (var i = 0; i < trace.Stops.Count; i++)
        {
            var stop = trace.Stops[i];
            var closing = trace.Closed && i == trace.Stops.Count - 1;
            var (e, n) = (east + stop.At.East, north + stop.At.North);
            var height = closing ? firstHeight : Ground(e, n) + depth;
            if (i == 0)
                firstHeight = height;
            else
                slope += Math.Sqrt(Math.Pow(stop.Chainage - plan, 2) + Math.Pow(height - was, 2));
            (was, plan) = (height, stop.Chainage);
            if (closing)
                page.Again(first, code, label);
            else
            {
                var spoilt = i == 9 ? mistake : null;
                var (uPlan, fix) = (spoilt == "accuracy-over-limit" ? 0.08 : UPlan, spoilt == "solution-not-fixed" ? "float" : "fixed");
                page.Shot(spoilt == "id-twice" ? first : null, OriginEast + e + Plan(), OriginNorth + n + Plan(), height + (UHeight * _noise.Normal()),
                    code, label, stop.Through ? "through" : "", uPlan, UHeight, fix, "");
            }
        }
        if (mistake is null)
            Truth.Add(new(code, label, crew, plan, slope, trace.Area, [.. trace.Bends.Select(b => new TrueArc(
                b.Radius, double.RadiansToDegrees(b.Sweep), b.PlanLength,
                [.. Enumerable.Range(b.First, b.Last - b.First + 1).Select(i => Id(first + (trace.Closed && i == trace.Stops.Count - 1 ? 0 : i)))]))]));
        else
            Mistakes.Add(new(mistake, crew, [.. Named(mistake, trace, first)], label, "Seeded in a site of size."));
    }

    private static IEnumerable<string> Named(string mistake, Trace trace, int first) => mistake switch
    {
        "id-twice" => [Id(first)],
        "shots-too-far-apart" => [Id(first + 7), Id(first + 8)],
        "arc-not-proven" => Enumerable.Range(trace.Bends[0].First, 3).Select(i => Id(first + i)),
        _ => [Id(first + 9)],
    };

    private static string Id(int number) => number.ToString(CultureInfo.InvariantCulture);

    private void Check(Page page, double north, string mark) => page.Shot(
        null, OriginEast - 20 + Calm(), OriginNorth + north + Calm(), Ground(-20, north) + Calm(), "CONTROL", "", "", 0.008, 0.010, "fixed", mark);

    private double Plan() => UPlan / Math.Sqrt(2) * _noise.Normal();

    private double Calm() => Math.Clamp(0.005 * _noise.Normal(), -0.008, 0.008);

    private static double Ground(double east, double north) => 6 + (0.5 * Math.Sin(east / 900)) + (0.5 * Math.Cos(north / 700));

    /// <summary>A shot file as it grows. Numbers are written by whole digits: the general formatter takes most of the time otherwise.</summary>
    private sealed class Page(int shots, int decimals)
    {
        private static readonly DateTime Start = new(2026, 3, 16, 7, 0, 0);
        private readonly StringBuilder _text = new StringBuilder(shots * 100).Append("id,east,north,height,code,run,leg,time,u_plan,u_height,fix,note\n");
        private readonly char[] _time = [.. "2026-03-16T07:00:00+01:00"];

        public int Last { get; private set; }

        public void Shot(int? id, double east, double north, double height, string code, string run, string leg, double uPlan, double uHeight, string fix, string note)
        {
            Last++;
            _text.Append(id ?? Last).Append(',');
            Number(east, decimals);
            Number(north, decimals);
            Number(height, decimals);
            _text.Append(code).Append(',').Append(run).Append(',').Append(leg).Append(',');
            Time(Start.AddSeconds(40.0 * Last));
            _text.Append(',');
            Number(uPlan, 3);
            Number(uHeight, 3);
            _text.Append(fix).Append(',').Append(note).Append('\n');
        }

        public void Again(int id, string code, string run) =>
            _text.Append(id).Append(",,,,").Append(code).Append(',').Append(run).Append(",,,,,,\n");

        public string Text() => _text.ToString();

        private void Number(double value, int digits)
        {
            var scale = 1L;
            for (var i = 0; i < digits; i++)
                scale *= 10;
            var whole = (long)Math.Round(value * scale); // never negative here
            Span<char> cell = stackalloc char[24];
            var at = cell.Length;
            cell[--at] = ',';
            for (var i = 0; i < digits || whole > 0 || i == digits; i++)
            {
                if (i == digits && digits > 0)
                    cell[--at] = '.';
                cell[--at] = (char)('0' + (whole % 10));
                whole /= 10;
            }
            _text.Append(cell[at..]);
        }

        private void Time(DateTime time)
        {
            Two(5, time.Month);
            Two(8, time.Day);
            Two(11, time.Hour);
            Two(14, time.Minute);
            Two(17, time.Second);
            Two(2, time.Year % 100);
            _text.Append(_time);

            void Two(int at, int value) => (_time[at], _time[at + 1]) = ((char)('0' + (value / 10)), (char)('0' + (value % 10)));
        }
    }
}
