using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli;

/// <summary>The record in a few lines.</summary>
internal static class Summary
{
    private const int FoldedTold = 3;

    public static void Print(Shell shell, AsBuiltRecord record)
    {
        var (stops, looks, notes, accepted, folded) = (0, 0, 0, 0, 0);
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            if (finding.State == FindingState.Accepted) accepted++;
            else if (finding.Under is not null) folded++;
            else if (finding.Severity == Severity.Stop) stops++;
            else if (finding.Severity == Severity.Look) looks++;
            else notes++;
        }

        var length = HoldTotals.Of(record);
        var total = length.Sum();
        shell.Say($"{Figures.Count(Enumerable.Range(0, record.Shots.Count).Count(row => record.Shots.IsShot(row) && !record.Shots.Versions.IsOut(row)), "shot")}, {Figures.Count(record.Runs.Count, "run")}, {Figures.Count(record.Points.Length, "point")}; journal {record.Position}.");
        shell.Say($"{total:0.0} m of runs to be released: {length[(int)HoldState.Open]:0.0} open, {length[(int)HoldState.Held]:0.0} held, {length[(int)HoldState.Complete]:0.0} complete, {length[(int)HoldState.Covered]:0.0} covered.");
        if (HoldTotals.CoveredUnproven(record) is > 0 and var unproven) shell.Say($"{unproven:0.0} m were covered while something held them: the record there is not proven.");
        shell.Say($"{stops} stop, {looks} look, {notes} note{(accepted > 0 ? $", {accepted} accepted" : "")}{(folded > 0 ? $"; {Figures.Count(folded, "consequence")} folded under them" : "")}.");
        if (SettingsText.Different(record.Inputs.Settings) is { Length: > 0 } set) shell.Say($"Judged by settings of this project: {string.Join(", ", set)}.");
        if (record.Shots.Raw.Count > 0 && !record.Shots.Used.Contains(true)) shell.Say($"No shot is in force: there is nothing to judge.");
        if (Releases.Unproven(record) is > 0 and var refused)
            shell.Say($"{refused:0.0} m of codes that need proof cannot be released: their shots state no accuracy, or met no control point.");
        stops += record.Unresolved.Length;
        if (stops > 0) shell.Say($"Something holds: what is marked 'shoot while open' must be shot before it is covered.");
        else shell.Say($"Nothing holds. That speaks of the position record only: it is no permission to enter, backfill, load or energise.");
    }

    /// <summary>Those that lead, what must be shot while open first, then by severity, then as found; behind each its consequences are told by <see cref="Print(Shell, Finding)"/>.</summary>
    public static List<Finding> FindingsInOrder(AsBuiltRecord record) =>
    [
        .. Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number]).Where(finding => finding.Under is null)
            .OrderBy(finding => finding.State == FindingState.Accepted)
            .ThenByDescending(finding => finding.Severity)
            .ThenByDescending(finding => finding.Check.HoldsSession) // what speaks of a whole file or session comes before single shots
            .ThenBy(finding => finding.Reshoot != Reshoot.Open)
            .ThenBy(finding => finding.Number),
    ];

    public static void Print(Shell shell, Finding finding)
    {
        var state = finding.State == FindingState.Standing ? "" : $" [{EnumWords.Of(finding.State)}]";
        var open = finding.Reshoot == Reshoot.Open ? " (shoot while open)" : "";
        shell.Say($"{EnumWords.Of(finding.Severity),-4} {finding.Id}{state} {finding.Message}");
        shell.Say($"     {finding.Cure}{open}");
        var folded = finding.Folded.ToArray();
        foreach (var other in folded.Take(FoldedTold)) shell.Say($"     folded: {EnumWords.Of(other.Severity)} {other.Id} {other.Message}");
        if (folded.Length > FoldedTold) shell.Say($"     folded: {folded.Length - FoldedTold} more; `aslaid why PROJECT {finding.Id}` lists them.");
    }
}
