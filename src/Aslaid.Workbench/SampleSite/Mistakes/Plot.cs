using System.Collections.Immutable;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Where a mistake is made: a crew at work, 46 by 15 m of free ground for it, and the rest of the site about it.</summary>
internal sealed class Plot
{
    private const double Quiet = 0.2; // share of the usual noise, where a mistake of millimetres must keep its size
    private readonly SeededNumbers _numbers;

    /// <param name="seed">Of the site; odd and even seeds make different kinds of one mistake where there are two.</param>
    /// <param name="size">How far a mistake goes: 1 is at the default limit of its check, 2 is twice that.</param>
    public Plot(int seed, double size)
    {
        (Size, Odd) = (size, seed % 2 != 0);
        _numbers = new(seed, 50);
    }

    public const double East = Math.PI / 2;

    public const double Left = -Math.PI / 2;

    public double Size { get; }

    public bool Odd { get; }

    public required SiteFrame Frame { get; init; }

    /// <summary>The session in which mistakes are made, by satellite receiver; it meets control at its start and at its end.</summary>
    public required CrewFile File { get; init; }

    /// <summary>All files of the site.</summary>
    public required ImmutableArray<CrewFile> Files { get; init; }

    /// <summary>The file whose crew is the last to go home.</summary>
    public required CrewFile GoingHome { get; init; }

    /// <summary>Lamp columns that stood in the files before.</summary>
    public required IReadOnlyList<(Spot At, SampleShot Shot)> Lamps { get; init; }

    /// <summary>A known point that nothing else needs.</summary>
    public required Mark Struck { get; init; }

    /// <summary>8 m south of a water main, square to it.</summary>
    public required Spot BesideMain { get; init; }

    /// <summary>South-west corner of the free ground.</summary>
    public required Spot Corner { get; init; }

    public List<SeededMistake> Made { get; } = [];

    public List<JournalEntry> Journal { get; } = [];

    /// <summary>Lines of the settings.</summary>
    public List<string> Settings { get; } = [];

    /// <summary>Rows of the delivery table.</summary>
    public List<string> Delivery { get; } = [];

    /// <summary>The code book, as CSV.</summary>
    public string Codes { get; set; } = SampleCodes.Csv;

    /// <summary>1 or −1.</summary>
    public int Sign => Odd ? 1 : -1;

    /// <summary>What the receiver measured in the session, check shots included.</summary>
    public IEnumerable<SampleShot> Session => File.Rows.Where(row => !row.Again && row.By == Instrument.Receiver);

    /// <summary>In [least, most), the same for one seed.</summary>
    public double Between(double least, double most) => _numbers.Between(least, most);

    /// <summary>Mean 0, standard deviation 1.</summary>
    public double Normal() => _numbers.Normal();

    public SampleShot Point(string code, Spot at) => File.Point(code, at, SiteFrame.Ground(at));

    /// <summary>A point shot without a look at the clock: no check shot comes before it.</summary>
    public SampleShot PointAtOnce(string code, Spot at) => File.Shoot(code, at, SiteFrame.Ground(at));

    /// <summary>A run that is wrong, so that its truth is not told.</summary>
    public LaidRun Lay(string code, string label, Trace trace, Func<Spot, double, double> level, IReadOnlyDictionary<int, string>? nodes = null)
    {
        File.Designed.Add(new(code, label, trace, level)); // as it should have been shot
        return File.Lay(code, label, trace, level, nodes: nodes, truth: false);
    }

    public LaidRun LayQuietly(string code, string label, Trace trace, Func<Spot, double, double> level, IReadOnlyDictionary<int, string>? nodes = null)
    {
        File.Noise = Quiet;
        var run = Lay(code, label, trace, level, nodes);
        File.Noise = 1;
        return run;
    }

    /// <summary>A set-up of its own, proven on two points before and after.</summary>
    public void ByTotalStation(Mark first, Mark second, Action work)
    {
        File.By = Instrument.TotalStation;
        File.Walk(300, 600);
        File.Check(first);
        File.Check(second);
        work();
        File.Check(second);
        File.Check(first);
        File.By = Instrument.Receiver;
        File.Walk(300, 600);
    }

    /// <summary>Another row of the code book, or a row instead of the one there.</summary>
    /// <param name="cells">Cells by column; those of new columns too.</param>
    public void Book(string code, params ReadOnlySpan<(string Column, string Cell)> cells)
    {
        var lines = Codes.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        List<string> columns = [.. lines[0].Split(',')];
        var row = columns.ConvertAll(_ => "");
        foreach (var (column, cell) in cells)
        {
            if (!columns.Contains(column))
                (columns, row, lines) = ([.. columns, column], [.. row, ""], [.. lines.Select(line => line + ",")]);
            row[columns.IndexOf(column)] = cell;
        }
        row[columns.IndexOf("code")] = code;
        row[columns.IndexOf("source")] = "default";
        lines[0] = string.Join(',', columns);
        Codes = new StringBuilder().AppendJoin('\n', lines.Where(line => !line.StartsWith(code + ",", StringComparison.Ordinal))).Append('\n')
            .AppendJoin(',', row).Append('\n').ToString();
    }

    /// <summary>Writes down that a mistake was made.</summary>
    /// <param name="shots">Those that the finding must name.</param>
    public void Told(IMistake mistake, string? run, string note, params ReadOnlySpan<SampleShot> shots)
    {
        var ids = ImmutableArray.CreateBuilder<string>(shots.Length);
        foreach (var shot in shots)
            ids.Add(shot.Id);
        Made.Add(new(mistake.Check, File.Crew.Name, ids.MoveToImmutable(), run, note));
    }

    /// <summary>Writes down that a session is wrong as a whole; what was laid in it is no truth any more.</summary>
    public void ToldOfSession(IMistake mistake, string note)
    {
        File.Truth.Clear();
        Made.Add(new(mistake.Check, File.Crew.Name, [], null, note, File.Name));
    }

    /// <summary>Top of a kerb.</summary>
    public static double Kerb(Spot at, double chainage) => SiteFrame.Ground(at) + 0.12;
}
