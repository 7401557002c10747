namespace Aslaid.Record;

/// <summary>
/// Sessions: one crew, instrument, set-up and initialisation, as far as columns tell, and no pause longer than a setting. Files do
/// not bound them: a file may hold several, several files may share one. Where no column tells anything each batch is its own.
/// </summary>
internal static class SessionsOf
{
    private readonly record struct Who(int Crew, int Instrument, int Setup, int Initialisation, int Batch);

    /// <summary>Number of each row's session, from 0 in order of appearance.</summary>
    /// <param name="gapMinutes">Longest pause within a session.</param>
    public static int[] Rows(ShotTable raw, double gapMinutes, out int count)
    {
        var part = new int[raw.Count];
        var groups = Groups(raw, part);
        var most = (long)(gapMinutes * TimeSpan.TicksPerMinute);
        var after = groups.Count;
        foreach (var rows in groups)
        {
            if (rows.Count == 0) continue;
            var number = part[rows[0]];
            var before = long.MinValue;
            foreach (var row in InTime(raw, rows))
            {
                if (before != long.MinValue && raw.Time[row] - before > most) number = after++;
                (part[row], before) = (number, raw.Time[row]);
            }
        }

        return Renumbered(raw, part, after, out count);
    }

    /// <summary>Puts each row into the group of those who took it, and hands back the rows with a time by group.</summary>
    private static List<List<int>> Groups(ShotTable raw, int[] part)
    {
        var known = new Dictionary<Who, int>();
        var groups = new List<List<int>>();
        var words = new Words();
        var (crew, instrument, setup, initialisation) = (Column("crew"), Column("instrument"), Column("setup"), Column("initialisation"));
        foreach (var batch in raw.Batches)
        {
            var (last, number, batchCrew) = (new Who(-2, -2, -2, -2, -2), -1, words.Keep(batch.Crew));
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                if (raw.Again[row] >= 0) continue;
                var who = new Who(Of(crew, row) is >= 0 and var own ? own : batchCrew, Of(instrument, row), Of(setup, row), Of(initialisation, row), 0);
                if (who is { Crew: < 0, Instrument: < 0, Setup: < 0 } || raw.Time[row] == long.MinValue) who = who with { Batch = batch.Number };
                if (who != last)
                {
                    if (!known.TryGetValue(who, out number))
                    {
                        known.Add(who, number = groups.Count);
                        groups.Add([]);
                    }

                    last = who;
                }

                part[row] = number;
                if (raw.Time[row] != long.MinValue) groups[number].Add(row);
            }
        }

        return groups;

        int[]? Column(string name)
        {
            if (!raw.TextColumns.TryGetValue(name, out var column)) return null;
            var kept = new int[raw.Texts.Count];
            for (var text = 0; text < kept.Length; text++) kept[text] = words.Keep(raw.Texts[text]);
            return Array.ConvertAll(column, text => text < 0 ? Words.None : kept[text]);
        }

        static int Of(int[]? column, int row) => column is null ? Words.None : column[row];
    }

    private static List<int> InTime(ShotTable raw, List<int> rows)
    {
        for (var i = 1; i < rows.Count; i++)
        {
            if (raw.Time[rows[i]] >= raw.Time[rows[i - 1]]) continue;
            return [.. rows.OrderBy(row => raw.Time[row])]; // stable
        }

        return rows;
    }

    private static int[] Renumbered(ShotTable raw, int[] part, int parts, out int count)
    {
        var number = new int[parts];
        number.AsSpan().Fill(-1);
        count = 0;
        for (var row = 0; row < part.Length; row++)
        {
            if (raw.IsConstructed(row)) continue; // that of what it is made from
            if (raw.Again[row] >= 0) part[row] = part[raw.Again[row]]; // a shot used again was taken once
            else part[row] = number[part[row]] < 0 ? number[part[row]] = count++ : number[part[row]];
        }

        return part;
    }
}
