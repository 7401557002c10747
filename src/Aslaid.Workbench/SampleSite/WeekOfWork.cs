using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Two crews work their way along a street, each on its own side of it, for five days.</summary>
internal sealed class WeekOfWork
{
    private const int Days = 5;

    /// <summary>Metres that a run grows in a day.</summary>
    private const double Daily = 44;

    /// <summary>Metres between shots.</summary>
    private const double Step = 1.55;

    /// <summary>Metres by which a relaid stretch lies aside.</summary>
    private const double Aside = 0.9;

    private static readonly string[] Codes = ["WATER-MAIN", "POWER-CABLE", "TELECOM-DUCT", "KERB-FACE"];
    private readonly SeededNumbers _shape;
    private readonly SiteFrame _frame;
    private readonly CrewFile[] _crews;
    private readonly List<GrowingRun> _runs = [];
    private readonly List<WeekAgain> _again = [];

    /// <summary>A run, where it lies, and how far it has come.</summary>
    private sealed class GrowingRun
    {
        public required CrewFile By { get; init; }
        public required string Code { get; init; }
        public required string Label { get; init; }
        public required double North { get; init; }
        public required double Depth { get; init; }
        public bool FromEast { get; init; }
        public double Done { get; set; }

        /// <summary>Metres that it is longer for a stretch that lies aside.</summary>
        public double Longer { get; set; }
        public double InPlace => Done + Longer;

        public Spot At(double chainage) => new(FromEast ? 226 - chainage : 4 + chainage, North);
    }

    public WeekOfWork(int seed)
    {
        _shape = new(seed, 7);
        _frame = new(_shape.Between(0, Math.Tau));
        var monday = Morning(0);
        _crews = [new(new("North", seed, 50), "north.csv", monday, _frame), new(new("South", seed, 60), "south.csv", monday, _frame)];
        foreach (var (crew, number) in _crews.Select((crew, number) => (crew, number)))
        {
            for (var run = 0; run < 10; run++)
            {
                var code = Codes[run % 4];
                _runs.Add(new()
                {
                    By = crew, Code = code, Label = $"{code[0]}{(code[0] == 'K' ? "F" : "L")}-{run + 1}", Depth = code == "KERB-FACE" ? 0 : 0.6 + (0.1 * run),
                    North = number == 0 ? 2 + (3.5 * run) : -2 - (3.5 * run),
                });
            }

            _runs.Add(new() { By = crew, Code = "WATER-MAIN", Label = SampleWeek.Met, Depth = 1.2, North = 48, FromEast = number == 1 });
        }
    }

    private static DateTimeOffset Morning(int day) => new DateTimeOffset(2026, 3, 16, 7, 30, 0, TimeSpan.FromHours(1)).AddDays(day);

    public SampleWeek Shoot()
    {
        var files = ImmutableArray.CreateBuilder<WeekFile>();
        var evenings = ImmutableArray.CreateBuilder<ImmutableSortedDictionary<string, double>>();
        ImmutableArray<string> changed = [];
        for (var day = 0; day < Days; day++)
        {
            foreach (var crew in _crews)
            {
                crew.WaitUntil(Morning(day));
                Work(crew, day);
                if (day == 1 && crew == _crews[0]) changed = PutRight(crew);
                var written = crew.Write(ShotsForm.Usual(3));
                files.Add(new(day + 1, written with { Name = FormattableString.Invariant($"{crew.Crew.Name.ToLowerInvariant()}-to-day-{day + 1}.csv") }));
            }

            evenings.Add(_runs.GroupBy(run => run.Code).ToImmutableSortedDictionary(code => code.Key, code => code.Sum(run => run.InPlace), StringComparer.Ordinal));
        }

        return new("Marlhithe Interchange, the week", files.ToImmutable(), _frame.ControlCsv(), SampleCodes.Csv, evenings.ToImmutable(), [.. _again], changed,
            _crews.Sum(crew => crew.Rows.Count(row => !row.Again)));
    }

    private void Work(CrewFile crew, int day)
    {
        crew.Check(_frame.Marks[day % 2]);
        crew.Check(_frame.Marks[2 + (day % 2)]);
        var shot = 0;
        foreach (var run in _runs.Where(run => run.By == crew))
        {
            var place = _runs.IndexOf(run);
            if (crew == _crews[0] && day == 2 && place == 3) LieAside(crew, run, day, LabelAgain.Supersedes);
            else if (crew == _crews[1] && day == 3 && place == 11 + 5) LieAside(crew, run, day, LabelAgain.Replaces);
            else if (crew == _crews[0] && day == 3 && place == 6) Again(crew, run, day);
            else if (run.Label == SampleWeek.Met) Meet(crew, run, day);
            else GoOn(crew, run, Daily);
            if (++shot % 4 == 0) crew.Check(_frame.Marks[1 + (shot / 4 % 4)]);
        }

        crew.Check(_frame.Marks[(day + 1) % 5]);
    }

    private static void GoOn(CrewFile crew, GrowingRun run, double metres)
    {
        var end = run.Done + metres;
        if (run.Done == 0) Shoot(crew, run, run.At(0));
        for (var count = (int)Math.Ceiling(metres / Step); count > 0; count--) Shoot(crew, run, run.At(end - (metres * (count - 1) / (int)Math.Ceiling(metres / Step))));
        run.Done = end;
        crew.Walk(30, 90);
    }

    /// <summary>Both go towards the middle of 222 m and meet there on Wednesday, at one place that both shoot.</summary>
    private static void Meet(CrewFile crew, GrowingRun run, int day)
    {
        if (day <= 2) GoOn(crew, run, 37);
    }

    /// <summary>A stretch of the second day, from a place on the run back to one, lies aside.</summary>
    private void LieAside(CrewFile crew, GrowingRun run, int day, LabelAgain how)
    {
        var from = 52 + _shape.Between(0, 3);
        var side = run.North < 0 ? -Aside : Aside;
        Shoot(crew, run, run.At(from));
        for (var at = from + 2; at < from + 18.5; at += 2) Shoot(crew, run, run.At(at) with { North = run.North + side });
        Shoot(crew, run, run.At(from + 20));
        run.Longer += (2 * Math.Sqrt((2 * 2) + (Aside * Aside))) - 4;
        _again.Add(new(day + 1, run.Code, run.Label, crew.Crew.Name, how));
        crew.Walk(30, 90);
    }

    /// <summary>A stretch of the second day measured once more, elsewhere along it than the first time.</summary>
    private void Again(CrewFile crew, GrowingRun run, int day)
    {
        var from = 50 + _shape.Between(0, 3);
        for (var at = from; at < from + 24; at += 2.2) Shoot(crew, run, run.At(at));
        _again.Add(new(day + 1, run.Code, run.Label, crew.Crew.Name, LabelAgain.Checks));
        crew.Walk(30, 90);
    }

    private static void Shoot(CrewFile crew, GrowingRun run, Spot at) => crew.Shoot(run.Code, at, SiteFrame.Ground(at) - run.Depth, run.Label);

    /// <summary>Monday's last shots of one run were taken with the pole 0.200 m longer than the instrument was told; the file of Tuesday has it right.</summary>
    private ImmutableArray<string> PutRight(CrewFile crew)
    {
        var run = _runs.First(run => run.By == crew && run.Code == "POWER-CABLE");
        var shots = crew.Rows.Where(row => row.Run == run.Label && row.Time < Morning(1)).TakeLast(12).ToArray();
        foreach (var shot in shots) shot.Height -= 0.200;
        return [.. shots.Select(shot => shot.Id)];
    }
}
