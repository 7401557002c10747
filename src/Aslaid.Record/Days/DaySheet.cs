using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Metres of a code that a day added, and how many of them something holds.</summary>
public readonly record struct DayLength(string Code, double Metres, double Held);

/// <summary>A check shot of the day: misfits are shot minus known, metres.</summary>
public readonly record struct DayCheck(int Row, string Point, double East, double North, double? Height);

/// <summary>An end of a run at which the day's work stopped, and nobody said that it is meant to lie free.</summary>
public readonly record struct OpenEnd(int Run, RunEnd End, int Shot);

/// <summary>What one crew did on one day.</summary>
/// <param name="Crew">Null where files name none.</param>
/// <param name="From">Time of the first shot.</param>
/// <param name="To">Time of the last.</param>
/// <param name="Lengths">By code, new runs only. A leg belongs to the day and crew of the later of its two shots, so that days add up.</param>
/// <param name="Points">New points by code.</param>
/// <param name="Photos">How many of the day's shots have a photograph.</param>
/// <param name="Stops">Numbers of standing stops about a shot of the day, those that lead.</param>
/// <param name="OpenEnds">Ends left open that evening.</param>
/// <param name="Open">Metres of the day's legs that nothing holds and nobody released or covered.</param>
public sealed record DaySheet(
    string? Crew, DateOnly Date, DateTimeOffset From, DateTimeOffset To, int Shots, ImmutableArray<DayLength> Lengths, ImmutableSortedDictionary<string, int> Points,
    ImmutableArray<DayCheck> Checks, int Photos, ImmutableArray<int> Stops, ImmutableArray<OpenEnd> OpenEnds, double Open)
{
    /// <summary>Dates on which anything was shot, rising.</summary>
    public static ImmutableArray<DateOnly> Dates(AsBuiltRecord record) =>
        [.. record.Site.ShotRows.ToArray().Select(row => ShotDay.Of(record.Shots.Raw, row)).OfType<DateOnly>().Distinct().Order()];

    /// <summary>The sheets of one day, crew by crew in alphabetical order.</summary>
    public static ImmutableArray<DaySheet> Of(AsBuiltRecord record, DateOnly date)
    {
        var raw = record.Shots.Raw;
        var crews = new SortedDictionary<string, List<int>>(StringComparer.Ordinal);
        foreach (var row in record.Site.ShotRows)
        {
            if (ShotDay.Of(raw, row) != date) continue;
            var crew = raw.Crew(row) ?? "";
            if (!crews.TryGetValue(crew, out var rows)) crews.Add(crew, rows = []);
            rows.Add(row);
        }

        return [.. crews.Select(crew => Of(record, date, crew.Key.Length == 0 ? null : crew.Key, crew.Value))];
    }

    /// <summary>Metres of new runs that belong to no day: no shot at either end of the leg has a time.</summary>
    public static double Undated(AsBuiltRecord record)
    {
        var (raw, metres) = (record.Shots.Raw, 0.0);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            for (var member = 1; run.Counts && member < run.MemberCount; member++)
                if (raw.Time[Later(raw, run.Members[member - 1], run.Members[member])] == long.MinValue) metres += run.Chainages[member] - run.Chainages[member - 1];
        }

        return metres;
    }

    private static DaySheet Of(AsBuiltRecord record, DateOnly date, string? crew, List<int> rows)
    {
        var (raw, own) = (record.Shots.Raw, rows.ToHashSet());
        var (metres, held, open, ends) = (new SortedDictionary<string, double>(StringComparer.Ordinal), new Dictionary<string, double>(), 0.0, ImmutableArray.CreateBuilder<OpenEnd>());
        foreach (var number in rows.Select(row => record.Site.Membership.Run[row]).Concat(RunsOf(record, own)).Where(run => run >= 0).Distinct().Order())
        {
            var run = record.Runs[number];
            AddEnds(record, run, own, ends);
            if (!run.Counts) continue;
            for (var member = 1; member < run.MemberCount; member++)
            {
                if (!own.Contains(Later(raw, run.Members[member - 1], run.Members[member]))) continue;
                var (from, to) = (run.Chainages[member - 1], run.Chainages[member]);
                metres[run.Code] = metres.GetValueOrDefault(run.Code) + to - from;
                foreach (var hold in record.HoldsOf(number))
                {
                    var shared = Math.Min(to, hold.To) - Math.Max(from, hold.From);
                    if (shared <= 0) continue;
                    if (hold.State == HoldState.Held || !hold.By.IsEmpty) held[run.Code] = held.GetValueOrDefault(run.Code) + shared;
                    else if (hold.State == HoldState.Open) open += shared;
                }
            }
        }

        var status = new AttributeValues(record.Site, "status");
        var points = record.Points.Where(row => own.Contains(record.Shots.Shot(row)) && RunFacts.IsNew(status, row)).GroupBy(record.Shots.CodeOf).ToImmutableSortedDictionary(code => code.Key, code => code.Count(), StringComparer.Ordinal);
        var times = rows.Select(row => raw[row].Time!.Value).ToArray();
        return new(crew, date, times.Min(), times.Max(), rows.Count, [.. metres.Select(code => new DayLength(code.Key, code.Value, held.GetValueOrDefault(code.Key)))], points,
            [.. record.Site.CheckShots.Where(check => own.Contains(check.Row)).Select(check => new DayCheck(check.Row, record.Inputs.Control[check.Point].Id, check.East, check.North, check.Height))],
            rows.Count(row => raw.Text("photo", row) is { } photo && photo.Trim().Length > 0), StopsAbout(record, own), ends.ToImmutable(), open);
    }

    private static IEnumerable<int> RunsOf(AsBuiltRecord record, HashSet<int> own)
    {
        for (var run = 0; run < record.Runs.Count; run++)
            foreach (var shot in record.Runs[run].Members.ToArray())
                if (own.Contains(shot))
                {
                    yield return run;
                    break;
                }
    }

    private static int Later(ShotTable raw, int a, int b) => raw.Time[a] > raw.Time[b] ? a : b;

    private static void AddEnds(AsBuiltRecord record, Run run, HashSet<int> own, ImmutableArray<OpenEnd>.Builder ends)
    {
        if (run.IsClosed || !run.Counts || run.Entry?.EndReach is null) return;
        foreach (var end in (RunEnd[])[RunEnd.Start, RunEnd.End])
        {
            var shot = end == RunEnd.Start ? run.Members[0] : run.Members[^1];
            if (!own.Contains(shot) || (end == RunEnd.Start ? run.Facts.Start : run.Facts.End) is not null) continue;
            if (record.Site.Nodes.Tied.Contains((run.Number, end)) || record.Site.Membership.IsShared(shot) || record.Shots.Entry(shot)?.Kind == CodeKind.Point) continue;
            ends.Add(new(run.Number, end, shot));
        }
    }

    private static ImmutableArray<int> StopsAbout(AsBuiltRecord record, HashSet<int> own)
    {
        var stops = ImmutableArray.CreateBuilder<int>();
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            if (!finding.Holds || finding.Under is not null) continue;
            foreach (var shot in finding.Shots)
            {
                if (!own.Contains(shot)) continue;
                stops.Add(number);
                break;
            }
        }

        return stops.ToImmutable();
    }
}
