using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>The next visit as text for the pocket and as a table for the rover.</summary>
public static class VisitText
{
    /// <summary>Sentences with coordinates, in walking order.</summary>
    /// <param name="stamp">Project, journal position and head hash.</param>
    public static string Plain(ImmutableArray<VisitStop> stops, string stamp)
    {
        var text = new StringBuilder();
        text.Append("Next visit: ").Append(stamp).Append('\n');
        if (stops.IsEmpty) text.Append("Nothing to shoot again.\n");
        foreach (var stop in stops)
        {
            var height = stop.Height is { } h ? FormattableString.Invariant($"  H {h:0.000}") : "";
            var open = stop.IsCovered ? "COVERED  " : stop.Finding.Reshoot == Reshoot.Open ? "WHILE OPEN  " : "";
            text.Append(CultureInfo.InvariantCulture, $"{stop.Order,3}  {open}E {stop.Place.East:0.000}  N {stop.Place.North:0.000}{height}  {stop.Finding.Id}\n");
            text.Append("     ").Append(stop.Sentence).Append('\n');
        }

        text.Append("Do not enter an unprotected trench to measure. Keep poles clear of overhead lines. In live traffic measure only under approved traffic management.\n");
        return text.ToString();
    }

    /// <summary>One place a row: order, id for the rover, coordinates, what to do.</summary>
    public static string Csv(ImmutableArray<VisitStop> stops)
    {
        var text = new StringBuilder("order,id,east_m,north_m,height_m,finding,check,reshoot,walk_m,sentence\n");
        foreach (var stop in stops)
        {
            var height = stop.Height is { } h ? h.ToString("0.000", CultureInfo.InvariantCulture) : "";
            text.Append(CultureInfo.InvariantCulture, $"{stop.Order},V{stop.Order},{stop.Place.East:0.000},{stop.Place.North:0.000},{height},{stop.Finding.Id},{stop.Finding.Check.Name},{EnumWords.Of(stop.Finding.Reshoot)},{stop.Walk:0.0},");
            text.Append('"').Append(stop.Sentence.Replace("\"", "\"\"", StringComparison.Ordinal)).Append("\"\n");
        }

        return text.ToString();
    }
}
