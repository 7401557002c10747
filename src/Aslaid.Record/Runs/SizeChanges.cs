using System.Globalization;

namespace Aslaid.Record;

/// <summary>
/// Runs whose shots state another size or material from one of them on become two: the shot at which the new word first stands is
/// their common fitting. The parts are called <c>LABEL/2</c>, <c>LABEL/3</c> …
/// </summary>
internal static class SizeChanges
{
    private static readonly string[] Names = ["size", "material"];

    public static void Apply(List<RunMembers> runs, CurrentShots shots)
    {
        var columns = Names.Select(name => new AttributeValues(shots, name)).Where(values => values.HasColumn).ToArray();
        if (columns.Length == 0) return;
        for (var number = 0; number < runs.Count; number++) // parts are added behind, and looked at in their turn
            if (runs[number].Shots.Count > 2 && FirstChange(runs[number], shots, columns) is { } at) Cut(runs, number, at);
    }

    /// <summary>The member at which a new word first stands; null where none does, or only at an end.</summary>
    private static int? FirstChange(RunMembers run, CurrentShots shots, AttributeValues[] columns)
    {
        foreach (var values in columns)
        {
            string? before = null;
            for (var member = 0; member + 1 < run.Shots.Count; member++)
            {
                var shot = run.Shots[member];
                if (shots.CodeColumn[shot] != run.CodeWord || values.Of(shot) is not { } here) continue;
                if (before is not null && here != before && member > 0) return member;
                before = here;
            }
        }

        return null;
    }

    private static void Cut(List<RunMembers> runs, int number, int at)
    {
        var run = runs[number];
        var (stem, part) = (run.Label, 2);
        if (run.PartOf is { } whole) (stem, part) = (whole, run.Part + 1);
        string key;
        do key = RunShaping.KeyOfPart(run.Key, string.Create(CultureInfo.InvariantCulture, $"{stem}/{part++}"));
        while (runs.Exists(other => other.Key == key));
        var rest = RunShaping.Split(run, at, key, string.Create(CultureInfo.InvariantCulture, $"{stem}/{part - 1}"));
        (rest.PartOf, rest.Part) = (stem, part - 1);
        runs.Insert(number + 1, rest);
    }
}
