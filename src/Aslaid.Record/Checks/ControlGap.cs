using System.Globalization;

namespace Aslaid.Record;

/// <summary>Long stretches of a session between check shots, with details shot in them.</summary>
internal sealed class ControlGap : ICheck
{
    public string Name => "control-gap";

    public string Title => "Too long between check shots";

    public string Unit => "min";

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        var most = (long)(site.Settings.ControlGapMinutes * TimeSpan.TicksPerMinute);
        var ends = Ends(site);
        var gaps = new Dictionary<int, List<Gap>>();
        foreach (var checks in site.SessionChecks.All)
        {
            var session = site.Shots.SessionColumn[site.CheckShots[checks[0]].Row];
            var (first, last) = ends[session];
            if (first == long.MaxValue) continue; // nobody knows when
            var times = checks.Select(check => site.Shots.Raw.Time[site.CheckShots[check].Row]).Where(time => time != long.MinValue).Append(first).Append(last).Order().ToArray();
            for (var i = 1; i < times.Length; i++)
                if (times[i] - times[i - 1] > most) Gaps(gaps, session).Add(new(times[i - 1], times[i]));
        }

        if (gaps.Count == 0) return;
        Fill(site, gaps);
        foreach (var gap in gaps.Values.SelectMany(list => list))
        {
            if (gap.Shots == 0) continue;
            found.Add(Severity.Look, gap.First == gap.Last ? [gap.First] : [gap.First, gap.Last], site.Shots.At(gap.First), site.Shots.HeightOf(gap.First),
                measured: (gap.To - gap.From) / (double)TimeSpan.TicksPerMinute, allowed: site.Settings.ControlGapMinutes,
                word: When(site, gap.First, gap.From) + " to " + When(site, gap.First, gap.To), figures: [gap.Shots]);
        }
    }

    private sealed class Gap(long from, long to)
    {
        public long From => from;
        public long To => to;
        public int Shots { get; set; }
        public int First { get; set; }
        public int Last { get; set; }
    }

    /// <summary>First and last time of each session; no times at all where some measured shot of it lacks one.</summary>
    private static (long First, long Last)[] Ends(Site site)
    {
        var ends = new (long First, long Last)[site.Shots.SessionCount];
        ends.AsSpan().Fill((long.MaxValue, long.MinValue));
        var time = site.Shots.Raw.Time;
        var (records, sessions) = (new Records(site.Shots.Raw), site.Shots.SessionColumn);
        foreach (var row in site.ShotRows)
        {
            if (time[row] == long.MinValue || records.Has(row)) continue;
            ref var end = ref ends[sessions[row]];
            end = (Math.Min(end.First, time[row]), Math.Max(end.Last, time[row]));
        }

        foreach (var row in site.ShotRows)
            if (time[row] == long.MinValue && !records.Has(row)) ends[sessions[row]] = (long.MaxValue, long.MinValue);
        return ends;
    }

    private static void Fill(Site site, Dictionary<int, List<Gap>> gaps)
    {
        var time = site.Shots.Raw.Time;
        var (records, shots) = (new Records(site.Shots.Raw), site.Shots);
        foreach (var row in site.ShotRows)
        {
            if (!gaps.TryGetValue(shots.SessionColumn[row], out var list) || records.Has(row)) continue;
            if (shots.PlaceColumn[row] >= 0 && shots.Book.Entries[shots.PlaceColumn[row]].Kind == CodeKind.Control) continue;
            var (low, high) = (0, list.Count);
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (list[middle].To < time[row]) low = middle + 1;
                else high = middle;
            }

            if (low == list.Count || list[low].From > time[row]) continue;
            var gap = list[low];
            if (gap.Shots++ == 0 || time[row] < time[gap.First]) gap.First = row;
            if (gap.Shots == 1 || time[row] >= time[gap.Last]) gap.Last = row;
        }
    }

    private static List<Gap> Gaps(Dictionary<int, List<Gap>> gaps, int session)
    {
        if (!gaps.TryGetValue(session, out var list)) gaps[session] = list = [];
        return list;
    }

    /// <summary>Time of day as the file of a shot writes it.</summary>
    private static string When(Site site, int row, long ticks)
    {
        var zone = site.Shots.Raw.Zone[row];
        return new DateTime(ticks + (zone == short.MinValue ? 0 : zone * TimeSpan.TicksPerMinute)).ToString("HH:mm", CultureInfo.InvariantCulture);
    }

    public string Message(Finding finding) =>
        $"From {finding.Word} no check shot in the session of {finding.Session()}: {CheckText.Number(finding.Measured, "0")} minutes, limit {CheckText.Number(finding.Allowed, "0")},"
        + $" {CheckText.Count(finding.Figure(0), "shot")} between ({finding.Shot(0)}{(finding.Shots.Length > 1 ? " to " + finding.Shot(1) : "")}).";

    public string Cure(Finding finding) => "Shoot a control point at least that often; here shoot a few of the shots between again.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
