namespace Aslaid.Record;

/// <summary>Different shots of one code at one place: one of them is too many, or, in another session, a repeat that agrees.</summary>
internal sealed class TwoShotsOnePlace : ICheck
{
    /// <summary>Cells this much larger than the reach: a search seldom looks into a second one.</summary>
    private const double CellsOfReach = 100;

    /// <summary>Later shots that one is compared with: a place at which thousands lie is another mistake.</summary>
    private const int Compared = 64;

    /// <summary>Shots of one file this far apart in time are of two days (DEFAULT): longer than a shift.</summary>
    private const double HoursOfADay = 12;

    public string Name => "two-shots-one-place";

    public string Title => "Two shots of one thing";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var said = new HashSet<(int, int)>();
        for (var number = 0; number < site.Runs.Count; number++) LookAlong(site, site.Runs[number], said, found);

        var (shots, reach) = (site.Shots, site.Settings.SamePlace);
        var (grid, near) = (new PlaceGrid(shots, site.ShotRows, CellsOfReach * reach), new List<int>());
        for (var place = 0; place < site.ShotRows.Length; place++)
        {
            var row = site.ShotRows[place];
            near.Clear();
            grid.Near(shots.At(row), reach, near, after: place, most: Compared);
            near.Sort();
            var repeated = false;
            foreach (var other in near)
            {
                var again = Again(shots, row, other);
                if (again && repeated) continue;
                if (!Alike(site, row, other) || !Apart(site, row, other)) continue;
                if (site.Membership.Run[row] != site.Membership.Run[other] || said.Contains((row, other))) continue; // ends of two runs may meet
                var (run, member, later) = (site.Membership.Run[row], site.Membership.Member[row], site.Membership.Member[other]);
                Add(site, row, other, run, Math.Min(member, later), Math.Max(member, later), found);
                if (!again) break; // one look and one note a shot, also where many were taken
                repeated = true;
            }
        }
    }

    /// <summary>Neighbours of a run in one place are one shot too many, however soon the second followed.</summary>
    private static void LookAlong(Site site, Run run, HashSet<(int, int)> said, Findings found)
    {
        var (shots, reach) = (site.Shots, site.Settings.SamePlace);
        var members = run.Members;
        if (members.Length > 2 && RunEnds.Gap(run) <= reach) said.Add(Pair(members[0], members[^1])); // the checks of closing see to these
        for (var member = 1; member < members.Length; member++)
        {
            var (a, b) = (members[member - 1], members[member]);
            if (a == b || (shots.At(a) - shots.At(b)).SizeSquared > reach * reach || !Alike(site, a, b) || !said.Add(Pair(a, b))) continue;
            Add(site, Math.Min(a, b), Math.Max(a, b), run.Number, member - 1, member, found);
        }
    }

    private static (int, int) Pair(int a, int b) => a < b ? (a, b) : (b, a);

    /// <summary>Same code, not control, other id, and one height.</summary>
    private static bool Alike(Site site, int a, int b)
    {
        var shots = site.Shots;
        return shots.CodeColumn[a] == shots.CodeColumn[b]
            && !(shots.PlaceColumn[a] >= 0 && shots.Book.Entries[shots.PlaceColumn[a]].Kind == CodeKind.Control)
            && !(Math.Abs(shots.Heights[a] - shots.Heights[b]) > site.Settings.SamePlace)
            && double.IsNaN(shots.Heights[a]) == double.IsNaN(shots.Heights[b])
            && !shots.Raw.IdBytes(a).SequenceEqual(shots.Raw.IdBytes(b));
    }

    /// <summary>Whether the later was taken in another session or on another day: a repeat on purpose, and proof of the earlier.</summary>
    private static bool Again(CurrentShots shots, int a, int b)
    {
        if (shots.SessionColumn[a] != shots.SessionColumn[b]) return true;
        var (first, second) = (shots.Raw.Time[a], shots.Raw.Time[b]);
        return first != long.MinValue && second != long.MinValue && Math.Abs(second - first) > HoursOfADay * TimeSpan.TicksPerHour;
    }

    /// <summary>Repeats soon after each other are statistics of one place; later ones, and those without a time, are not.</summary>
    private static bool Apart(Site site, int a, int b)
    {
        var (first, second) = (site.Shots.Raw.Time[a], site.Shots.Raw.Time[b]);
        return first == long.MinValue || second == long.MinValue || Again(site.Shots, a, b)
            || Math.Abs(second - first) > site.Settings.RepeatMinutes * TimeSpan.TicksPerMinute;
    }

    /// <param name="fromMember">Member of the run at which the earlier along it stands; −1 without a run, likewise the later.</param>
    private static void Add(Site site, int first, int second, int run, int fromMember, int toMember, Findings found)
    {
        var (from, to) = run < 0 ? ((double?)null, (double?)null) : (site.Runs[run].Chainages[fromMember], site.Runs[run].Chainages[toMember]);
        var again = Again(site.Shots, first, second);
        found.Add(again ? Severity.Note : Severity.Look, [first, second], site.Shots.At(second), site.Shots.HeightOf(second), run, from, to,
            site.Shots.At(first).DistanceTo(site.Shots.At(second)), site.Settings.SamePlace,
            figures: [Math.Abs(site.Shots.Heights[first] - site.Shots.Heights[second]), again ? 1 : 0]);
    }

    public string Message(Finding finding)
    {
        var (plan, allowed) = (CheckText.Metres(finding.Measured), CheckText.Metres(finding.Allowed));
        var height = double.IsNaN(finding.Figure(0)) ? "" : $" and {CheckText.Metres(finding.Figure(0))} in height";
        return IsAgain(finding)
            ? $"{finding.Shot(1)} is {finding.Shot(0)} measured again, and agrees within {plan} in plan{height}; limit {allowed}."
            : $"{finding.Shot(0)} and {finding.Shot(1)} lie {plan} apart in plan{height}; within {allowed} they are one place.";
    }

    public string Cure(Finding finding) => IsAgain(finding)
        ? $"Nothing is wrong: {finding.Shot(1)} proves {finding.Shot(0)}. If both count in a quantity, set one aside; it stays on file."
        : $"Set {finding.Shot(1)} aside if it is {finding.Shot(0)} shot again; accept it if these are two things, or a check.";

    public Change? Correction(Finding finding) => IsAgain(finding) ? null : new SetAside([finding.Key(1)]);

    private static bool IsAgain(Finding finding) => finding.Figure(1) > 0;

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
