using System.Globalization;

namespace Aslaid.Record;

/// <summary>
/// Runs whose shots state another size or material from one of them on become several: the shot at which the new word first stands
/// is their common fitting. Arcs stay whole: where that shot lies on one, the fitting is where the arc begins, or else where it ends.
/// The parts are called <c>LABEL/2</c>, <c>LABEL/3</c> … Areas have one outline and are not parted.
/// </summary>
internal static class SizeChanges
{
    private static readonly string[] Names = ["size", "material"];

    public static void Apply(List<RunMembers> runs, CurrentShots shots)
    {
        var columns = Names.Select(name => new AttributeValues(shots, name)).Where(values => values.HasColumn).ToArray();
        if (columns.Length == 0) return;
        var keys = runs.Select(run => run.Key).ToHashSet(StringComparer.Ordinal);
        var parted = new List<RunMembers>(runs.Count);
        foreach (var run in runs)
        {
            parted.Add(run);
            if (run.Shots.Count > 2 && !IsArea(run, shots) && Fittings(run, shots, columns) is { Count: > 0 } fittings) parted.AddRange(Parts(run, fittings, keys));
        }

        runs.Clear();
        runs.AddRange(parted);
    }

    private static bool IsArea(RunMembers run, CurrentShots shots) =>
        shots.Book.Find(shots.Codes[run.CodeWord] ?? "") is >= 0 and var place && shots.Book.Entries[place].Kind == CodeKind.Area;

    /// <summary>The members at which parts meet, rising; the ends of the run are none.</summary>
    private static List<int> Fittings(RunMembers run, CurrentShots shots, AttributeValues[] columns)
    {
        var fittings = new List<int>();
        var before = new string?[columns.Length];
        for (var member = 0; member + 1 < run.Shots.Count; member++)
        {
            var shot = run.Shots[member];
            if (shots.CodeColumn[shot] != run.CodeWord) continue;
            var changes = false;
            for (var column = 0; column < columns.Length; column++)
            {
                if (columns[column].Of(shot) is not { } here) continue;
                changes |= before[column] is { } word && word != here;
                before[column] = here;
            }

            var last = fittings.Count > 0 ? fittings[^1] : 0;
            if (changes && Fitting(run, member) is var at && at > last && at < run.Shots.Count - 1) fittings.Add(at);
        }

        return fittings;
    }

    private static int Fitting(RunMembers run, int member)
    {
        var at = member;
        while (run.Through[at] && at > 0) at--;
        if (at > 0) return at;
        at = member;
        while (at < run.Shots.Count - 1 && run.Through[at]) at++;
        return at;
    }

    private static List<RunMembers> Parts(RunMembers run, List<int> fittings, HashSet<string> keys)
    {
        var all = run.Shots.Zip(run.Through).ToList();
        var (parts, number) = (new List<RunMembers>(), 2);
        for (var place = 0; place < fittings.Count; place++)
        {
            var (from, to) = (fittings[place], place + 1 < fittings.Count ? fittings[place + 1] : all.Count - 1);
            string label, key;
            do
            {
                label = string.Create(CultureInfo.InvariantCulture, $"{run.Label}/{number++}");
                key = RunShaping.KeyOfPart(run.Key, label);
            }
            while (!keys.Add(key));
            var part = new RunMembers { Key = key, Label = label, CodeWord = run.CodeWord, Whole = run.Whole ?? run.Key };
            part.Replace(all[from..(to + 1)]);
            parts.Add(part);
        }

        run.Replace(all[..(fittings[0] + 1)]);
        return parts;
    }
}
