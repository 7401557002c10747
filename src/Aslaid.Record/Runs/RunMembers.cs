using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Which shots belong to which run, before any geometry.</summary>
internal sealed class RunMembers
{
    public required string Key { get; init; }

    public required string Label { get; init; }

    public required int CodeWord { get; init; }

    /// <summary>Key of the run that the label made, of which this is a part; null where it is that run.</summary>
    public string? Whole { get; init; }

    public List<int> Shots { get; private set; } = [];

    public List<bool> Through { get; private set; } = [];

    /// <summary>Adds a member; a shot that follows itself is one member.</summary>
    public void Add(int shot, bool through)
    {
        if (Shots.Count > 0 && Shots[^1] == shot) return;
        Shots.Add(shot);
        Through.Add(through);
    }

    public void Replace(IEnumerable<(int Shot, bool Through)> members)
    {
        (Shots, Through) = ([], []);
        foreach (var (shot, through) in members) Add(shot, through);
    }

    /// <summary>The key of a run: code, label and, where one is named, crew.</summary>
    public static string KeyOf(string code, string label, string? crew) => crew is null ? $"{code}/{label}" : $"{code}/{label}@{crew}";
}

/// <summary>
/// Groups shots to runs. A label makes a run of its code and crew, in file order, batches by time. Without labels each line
/// code of a batch and crew stays open until its leg says last, home or first, or its own gap in distance or time exceeds
/// the settings; other codes in between close nothing.
/// </summary>
internal sealed class RunGrouping(CurrentShots shots, Settings settings)
{
    private readonly ShotTable raw = shots.Raw;
    private readonly List<RunMembers> runs = [];
    private readonly ImmutableArray<int>.Builder points = ImmutableArray.CreateBuilder<int>();
    private readonly Dictionary<(int Code, int Label, int Crew), RunMembers> labelled = [];
    private readonly Dictionary<(int Code, int Crew, int Batch), Open> open = [];
    private readonly Words crews = new();

    /// <summary>A run without a label that still waits for shots; it does not reach over files.</summary>
    private sealed record Open(RunMembers Run, int LastShot);

    public (List<RunMembers> Runs, ImmutableArray<int> Points) Group()
    {
        var crewColumn = raw.TextColumns.GetValueOrDefault("crew");
        var (batch, batchCrew) = (default(Batch), Words.None);
        foreach (var place in RowOrder.Of(raw))
        {
            var row = shots.Versions.Stand(place); // later values stand where the shot was taken
            if (!shots.Used[row] || row == place && shots.Versions.IsAdopted(row)) continue;
            if (batch is null || place < batch.FirstRow || place >= batch.FirstRow + batch.Count)
            {
                batch = raw.BatchOf(place);
                batchCrew = crews.Keep(batch.Crew);
            }

            Take(row, crewColumn is null || crewColumn[row] == Words.None ? batchCrew : crews.Keep(raw.Texts[crewColumn[row]]), batch.Number);
        }

        return (runs, points.ToImmutable());
    }

    private void Take(int row, int crew, int batch)
    {
        var leg = raw.Leg[row];
        var (code, label, shot) = (shots.Code[row], shots.Label[row], shots.Shot(row));
        var kind = shots.Entry(row)?.Kind ?? (label == Words.None ? CodeKind.Point : CodeKind.Line);
        if (kind == CodeKind.Control) return;
        if (leg == Leg.Alone || kind == CodeKind.Point)
        {
            if (raw.Again[row] < 0 || shots.Code[row] != shots.Code[shot]) points.Add(row); // a pipe's end that is also a chamber
            return;
        }

        if (label == Words.None && raw.IsConstructed(row)) return; // a path names it, or nothing does
        if (label != Words.None) TakeLabelled(shot, leg, code, label, crew);
        else TakeOpen(shot, leg, code, crew, batch);
    }

    private void TakeLabelled(int shot, Leg leg, int code, int label, int crew)
    {
        if (!labelled.TryGetValue((code, label, crew), out var run))
        {
            run = Begin(code, shots.Labels[label]!, crew);
            labelled.Add((code, label, crew), run);
        }

        run.Add(shot, leg == Leg.Through);
        if (leg == Leg.Home) run.Add(run.Shots[0], false);
    }

    private void TakeOpen(int shot, Leg leg, int code, int crew, int batch)
    {
        if (leg == Leg.First || !open.TryGetValue((code, crew, batch), out var at) || TooFar(at.LastShot, shot))
            at = new(Begin(code, string.Create(CultureInfo.InvariantCulture, $"from {batch}/{raw.Id(shot)}"), crew), shot);

        at.Run.Add(shot, leg == Leg.Through);
        open[(code, crew, batch)] = at with { LastShot = shot };
        if (leg == Leg.Home) at.Run.Add(at.Run.Shots[0], false);
        if (leg is Leg.Last or Leg.Home) open.Remove((code, crew, batch));
    }

    private readonly HashSet<string> keys = new(StringComparer.Ordinal);

    private RunMembers Begin(int code, string label, int crew)
    {
        var key = RunMembers.KeyOf(shots.Codes[code] ?? "", label, crews[crew]);
        var (unique, times) = (key, 1);
        while (!keys.Add(unique)) unique = string.Create(CultureInfo.InvariantCulture, $"{key}#{++times}"); // an id used twice may begin two runs
        var run = new RunMembers { Key = unique, Label = label, CodeWord = code };
        runs.Add(run);
        return run;
    }

    private bool TooFar(int from, int to)
    {
        var distance = double.Hypot(raw.East[to] - raw.East[from], raw.North[to] - raw.North[from]);
        if (distance > settings.GapDistance) return true;
        var (start, end) = (raw.Time[from], raw.Time[to]);
        return start != long.MinValue && end != long.MinValue && (end - start) / (double)TimeSpan.TicksPerMinute > settings.GapMinutes;
    }
}
