using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A control point to check before work, and when the crew last stood on it.</summary>
/// <param name="Distance">Metres from the crew's last shot.</param>
/// <param name="Last">Day of the last check shot of any crew; null for never.</param>
public readonly record struct ControlToCheck(string Point, double Distance, DateOnly? Last);

/// <summary>A pole height that an instrument was last told.</summary>
public readonly record struct PoleToCheck(string? Instrument, double Metres, int Shot);

/// <summary>A release that lapsed, and why.</summary>
public readonly record struct LapsedRelease(int Run, int Entry, string Reason);

/// <summary>What a crew should look at before it begins.</summary>
/// <param name="Since">The last day on which the crew shot anything.</param>
/// <param name="Control">The two control points nearest to where it stopped.</param>
/// <param name="Poles">Pole heights last entered, to be measured with a tape.</param>
/// <param name="OpenEnds">Ends that it left open that day.</param>
public sealed record CrewMorning(string? Crew, DateOnly Since, ImmutableArray<ControlToCheck> Control, ImmutableArray<PoleToCheck> Poles, ImmutableArray<OpenEnd> OpenEnds);

/// <summary>What a site should look at before the day begins.</summary>
/// <param name="Visits">Places that only another visit can cure, those to be shot while open first.</param>
/// <param name="ToDecide">Numbers of findings that wait for a person's word: values, labels, crews that met.</param>
public sealed record MorningList(ImmutableArray<CrewMorning> Crews, ImmutableArray<VisitStop> Visits, ImmutableArray<LapsedRelease> Lapsed, ImmutableArray<int> ToDecide)
{
    private static readonly string[] Decisions = ["values-changed", "label-comes-again", "label-of-two-crews"];

    /// <summary>The list for a day: each crew's last day is the latest before it.</summary>
    public static MorningList Of(AsBuiltRecord record, DateOnly today)
    {
        var lapsed = ImmutableArray.CreateBuilder<LapsedRelease>();
        foreach (var hold in record.Holds)
            foreach (var entry in hold.Lapsed)
                if (!lapsed.Any(known => known.Entry == entry)) lapsed.Add(new(hold.Run, entry, LapseReason.Of(record, record.Runs[hold.Run], entry) ?? "it is not known why"));
        return new(ByCrew(record, today), NextVisit.Plan(record), lapsed.ToImmutable(),
            [.. Enumerable.Range(0, record.Findings.Count).Where(number => record.Findings[number] is { State: not FindingState.Accepted, Under: null } finding && Decisions.Contains(finding.Check.Name))]);
    }

    private static ImmutableArray<CrewMorning> ByCrew(AsBuiltRecord record, DateOnly today)
    {
        var raw = record.Shots.Raw;
        var last = new SortedDictionary<string, (DateOnly Day, int Row)>(StringComparer.Ordinal);
        foreach (var row in record.Site.ShotRows)
        {
            if (ShotDay.Of(raw, row) is not { } day || day >= today) continue;
            var crew = raw.Crew(row) ?? "";
            if (!last.TryGetValue(crew, out var known) || raw.Time[row] >= raw.Time[known.Row]) last[crew] = (day, row);
        }

        var checks = record.Site.CheckShots.Where(check => ShotDay.Of(raw, check.Row) < today).ToLookup(check => check.Point, check => ShotDay.Of(raw, check.Row));
        return
        [
            .. last.Select(crew => new CrewMorning(
                crew.Key.Length == 0 ? null : crew.Key, crew.Value.Day,
                [.. record.Inputs.Control.Select((point, place) => new ControlToCheck(point.Id, point.At.DistanceTo(record.Shots.At(crew.Value.Row)), checks[place].Max())).OrderBy(point => point.Distance).Take(2)],
                Poles(record, crew.Key, crew.Value.Day),
                DaySheet.Of(record, crew.Value.Day).FirstOrDefault(sheet => (sheet.Crew ?? "") == crew.Key)?.OpenEnds ?? [])),
        ];
    }

    private static ImmutableArray<PoleToCheck> Poles(AsBuiltRecord record, string crew, DateOnly day)
    {
        var (raw, latest) = (record.Shots.Raw, new SortedDictionary<string, PoleToCheck>(StringComparer.Ordinal));
        foreach (var row in record.Site.ShotRows)
            if ((raw.Crew(row) ?? "") == crew && ShotDay.Of(raw, row) == day && raw.Number("pole", row) is { } pole)
                latest[raw.Text("instrument", row) ?? raw.Text("method", row) ?? ""] = new(raw.Text("instrument", row) ?? raw.Text("method", row), pole, row);
        return [.. latest.Values];
    }
}
