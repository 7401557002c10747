using System.Globalization;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>The text that a person opens first: how far the record is, what stops stand, the cautions.</summary>
internal static class PackageReadMe
{
    /// <summary>As many stops are named; the rest is counted, and stands in findings.csv.</summary>
    private const int MostStops = 20;

    public static string Of(Handover handover)
    {
        var text = new StringBuilder();
        text.Append("As-built record of ").Append(handover.Project).Append('\n').Append(handover.Stamp).Append('\n');
        text.Append("Prepared by ").Append(handover.PreparedBy).Append(". The tool prepares; a surveyor signs the survey, an engineer signs conformity.\n\n");
        State(text, handover.Record);
        text.Append("manifest.json names every file with its SHA-256: aslaid verify proves the package unaltered.\n\nCautions\n");
        foreach (var caution in Cautions.All) text.Append("- ").Append(caution).Append('\n');
        return text.ToString();
    }

    private static void State(StringBuilder text, AsBuiltRecord record)
    {
        var lengths = HoldTotals.Of(record);
        var stops = Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number]).Where(finding => finding.Holds).ToList();
        if (stops.Count > 0 || lengths[(int)HoldState.Held] > 0 || !record.Unresolved.IsEmpty)
            text.Append("THIS RECORD IS NOT FINISHED: something holds.\n");
        text.Append(CultureInfo.InvariantCulture, $"Of {lengths.Sum():0.0} m of runs to be released: {lengths[(int)HoldState.Open]:0.0} m open, {lengths[(int)HoldState.Held]:0.0} m held, {lengths[(int)HoldState.Complete]:0.0} m complete, {lengths[(int)HoldState.Covered]:0.0} m covered.\n");
        if (HoldTotals.CoveredUnproven(record) is > 0 and var unproven)
            text.Append(CultureInfo.InvariantCulture, $"{unproven:0.0} m were covered while something held them: the record there is not proven.\n");
        if (SettingsText.Different(record.Inputs.Settings) is { Length: > 0 } set)
            text.Append("Judged by settings of this project instead of the program's own: ").Append(string.Join(", ", set)).Append(".\n");
        text.Append('\n');
        text.Append(CultureInfo.InvariantCulture, $"Standing stops: {stops.Count}\n");
        foreach (var stop in stops.Take(MostStops)) text.Append("- ").Append(stop.Id).Append("  ").Append(stop.Message).Append('\n');
        if (stops.Count > MostStops) text.Append(CultureInfo.InvariantCulture, $"- and {stops.Count - MostStops} more, in findings.csv\n");
        foreach (var line in record.Unresolved) text.Append("- ").Append(line).Append(" What it said no longer shows in this record.\n");
        text.Append('\n');
    }
}
