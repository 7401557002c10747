namespace Aslaid.Record;

/// <summary>
/// One mistake, one leading finding: what other checks say of the same cause folds under it. A check names those whose findings
/// may be its consequences (<see cref="ICheck.Explains"/>); a finding of theirs folds where it shares a shot, where their lengths of
/// one run overlap, or, under a finding about whole sessions, where its shots are of those (of a pair, one).
/// </summary>
/// <remarks>A finding folds only under one as grave as itself, and never under an accepted one. It keeps its identity and still
/// holds its length: folding says what to read first, it cures nothing.</remarks>
internal sealed class Folding
{
    private readonly FindingTable table;
    private readonly Site site;
    private readonly bool[] explained;
    private readonly Dictionary<int, List<int>> byShot = [];
    private readonly Dictionary<int, List<int>> bySession = [];
    private readonly Dictionary<int, Stretches> byRun = [];

    private Folding(FindingTable table, Site site)
    {
        (this.table, this.site) = (table, site);
        explained = [.. table.Checks.Select(check => table.Checks.Any(other => other.Explains.Contains(check.Name)))];
    }

    public static void Fold(FindingTable table, Site site)
    {
        table.Under.AsSpan().Fill(-1);
        var folding = new Folding(table, site);
        folding.Gather();
        foreach (var severity in (Severity[])[Severity.Stop, Severity.Look, Severity.Note]) // the gravest lead
            for (var number = 0; number < table.Count; number++)
                if (table.Severities[number] == severity && table.States[number] != FindingState.Accepted && table[number].Check.Explains.Length > 0) folding.Lead(number);
        folding.Settle();
    }

    private void Gather()
    {
        for (var number = 0; number < table.Count; number++)
        {
            if (!explained[table.CheckOf[number]]) continue;
            var finding = table[number];
            foreach (var shot in finding.Shots) Of(byShot, shot).Add(number);
            foreach (var session in SessionsOf(finding)) Of(bySession, session).Add(number);
            if (finding.Run is not { } run) continue;
            if (!byRun.TryGetValue(run.Number, out var stretches)) byRun.Add(run.Number, stretches = new());
            stretches.Add(finding.From ?? 0, finding.To ?? run.PlanLength, number);
        }
    }

    private void Lead(int number)
    {
        var leader = table[number];
        if (table.Under[number] >= 0) return;
        foreach (var shot in leader.Shots)
            foreach (var other in Known(byShot, shot)) Take(number, other);
        if (leader.Check.HoldsSession)
        {
            var sessions = SessionsOf(leader);
            foreach (var session in sessions)
                foreach (var other in Known(bySession, session))
                    if (table[other].Shots.Length <= Pair || SessionsOf(table[other]).IsSubsetOf(sessions)) Take(number, other);
        }

        if (leader.Run is { } run && byRun.TryGetValue(run.Number, out var stretches))
            foreach (var other in stretches.Over(leader.From ?? 0, leader.To ?? run.PlanLength)) Take(number, other);
    }

    /// <summary>A pair of shots that disagree is explained by either's session; what speaks of more must lie in the sessions as a whole.</summary>
    private const int Pair = 2;

    private HashSet<int> SessionsOf(Finding finding)
    {
        var sessions = new HashSet<int>();
        foreach (var shot in finding.Shots) sessions.Add(site.Shots.Session[shot]);
        return sessions;
    }

    private void Take(int leader, int other)
    {
        if (other == leader || table.Under[other] >= 0 || table.Severities[other] > table.Severities[leader]) return;
        if (table.States[other] == FindingState.Accepted || !table[leader].Check.Explains.Contains(table[other].Check.Name)) return;
        if (!table[other].Check.MayFoldUnder(table[other], table[leader])) return;
        table.Under[other] = leader;
    }

    /// <summary>What had folded under a finding goes with it where that one folds later.</summary>
    private void Settle()
    {
        for (var number = 0; number < table.Count; number++)
            while (table.Under[number] is >= 0 and var leader && table.Under[leader] >= 0) table.Under[number] = table.Under[leader];
    }

    private static List<int> Of(Dictionary<int, List<int>> lists, int key)
    {
        if (!lists.TryGetValue(key, out var list)) lists[key] = list = [];
        return list;
    }

    private static List<int> Known(Dictionary<int, List<int>> lists, int key) => lists.GetValueOrDefault(key) ?? [];

    /// <summary>Findings along one run, by where they begin.</summary>
    private sealed class Stretches
    {
        private readonly List<(double From, double To, int Number)> all = [];
        private double[] reach = [];

        public void Add(double from, double to, int number) => all.Add((from, to, number));

        /// <summary>Those whose length overlaps or touches a length.</summary>
        public IEnumerable<int> Over(double from, double to)
        {
            if (reach.Length == 0) Order();
            var (low, high) = (0, all.Count);
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (all[middle].From <= to) low = middle + 1;
                else high = middle;
            }

            for (var at = low - 1; at >= 0 && reach[at] >= from; at--)
                if (all[at].To >= from) yield return all[at].Number;
        }

        private void Order()
        {
            all.Sort();
            reach = new double[all.Count];
            var farthest = double.NegativeInfinity;
            for (var at = 0; at < reach.Length; at++) reach[at] = farthest = Math.Max(farthest, all[at].To);
        }
    }
}
