using System.Globalization;

namespace Aslaid.Record;

/// <summary>Work of a session that goes on too long after a check shot: to its last detail before the next one, since the walk to control is no work.</summary>
internal sealed class ControlGap : ICheck
{
    /// <summary>A night, a day elsewhere: between two shots farther apart than 180 minutes nobody measured, ticks (DEFAULT).</summary>
    private const long Pause = 180 * TimeSpan.TicksPerMinute;

    public string Name => "control-gap";

    public string Title => "Too long between check shots";

    public string Unit => "min";

    public void Look(Site site, Findings found)
    {
        if (site.CheckShots.IsEmpty) return;
        var most = (long)(site.Settings.ControlGapMinutes * TimeSpan.TicksPerMinute);
        foreach (var (rows, checks) in Sessions(site))
        {
            var time = site.Shots.Raw.Time;
            var stretch = new Stretch(time[rows[0]]);
            for (var i = 0; i < rows.Count; i++)
            {
                var row = rows[i];
                if (i > 0 && time[row] - time[rows[i - 1]] > Pause) Begin(time[row]);
                if (checks.Contains(row)) Begin(time[row]);
                else if (!IsControl(site, row)) stretch = stretch.With(row, time[row]);
            }

            Begin(0);

            void Begin(long from)
            {
                if (stretch.Shots > 0 && stretch.To - stretch.From > most) Add(site, stretch, found);
                stretch = new(from);
            }
        }
    }

    /// <summary>Work since control was looked at, or since it began.</summary>
    private readonly record struct Stretch(long From, long To = 0, int Shots = 0, int First = -1, int Last = -1)
    {
        public Stretch With(int row, long time) => new(From, time, Shots + 1, Shots == 0 ? row : First, row);
    }

    private static void Add(Site site, Stretch stretch, Findings found)
    {
        found.Add(Severity.Look, stretch.First == stretch.Last ? [stretch.First] : [stretch.First, stretch.Last], site.Shots.At(stretch.First), site.Shots.HeightOf(stretch.First),
            measured: (stretch.To - stretch.From) / (double)TimeSpan.TicksPerMinute, allowed: site.Settings.ControlGapMinutes,
            word: When(site, stretch.First, stretch.From) + " to " + When(site, stretch.First, stretch.To), figures: [stretch.Shots]);
    }

    /// <summary>Rows in the order of time and check shots of each session that has any; none where some measured shot lacks a time.</summary>
    private static List<(List<int> Rows, HashSet<int> Checks)> Sessions(Site site)
    {
        var (records, shots) = (new Records(site.Shots.Raw), site.Shots);
        var rows = new List<int>?[shots.SessionCount];
        foreach (var checks in site.SessionChecks.All) rows[shots.SessionColumn[site.CheckShots[checks[0]].Row]] = [];
        foreach (var row in site.ShotRows)
        {
            ref var list = ref rows[shots.SessionColumn[row]];
            if (list is null || records.Has(row)) continue;
            if (shots.Raw.Time[row] == long.MinValue) list = null; // nobody knows when
            else list.Add(row);
        }

        var sessions = new List<(List<int> Rows, HashSet<int> Checks)>();
        foreach (var checks in site.SessionChecks.All)
        {
            if (rows[shots.SessionColumn[site.CheckShots[checks[0]].Row]] is not { Count: > 0 } list) continue;
            for (var i = 1; i < list.Count; i++)
            {
                if (shots.Raw.Time[list[i]] >= shots.Raw.Time[list[i - 1]]) continue;
                list.Sort((a, b) => (shots.Raw.Time[a], a).CompareTo((shots.Raw.Time[b], b)));
                break;
            }

            sessions.Add((list, [.. checks.Select(check => site.CheckShots[check].Row)]));
        }

        return sessions;
    }

    private static bool IsControl(Site site, int row) =>
        site.Shots.PlaceColumn[row] is >= 0 and var place && site.Shots.Book.Entries[place].Kind == CodeKind.Control;

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
