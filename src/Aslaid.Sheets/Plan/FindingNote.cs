using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>A finding as the sheet tells it.</summary>
/// <param name="Number">The number on its plate, from 1.</param>
/// <param name="Subject">The run or shots it speaks of; empty where the message names them itself.</param>
internal sealed record FindingNote(int Number, Severity Severity, Point2 At, string Subject, string Message, string Cure, int AcceptedAt)
{
    /// <summary>No list on a sheet is longer; what comes after it is drawn without words.</summary>
    private const int MostTold = 200;

    /// <summary>All findings that lead (consequences fold under them): stops first, then looks, then notes; what somebody accepted comes after what stands.</summary>
    public static IReadOnlyList<FindingNote> Of(AsBuiltRecord record)
    {
        var findings = new List<Finding>(record.Findings.Count);
        for (var number = 0; number < record.Findings.Count; number++) if (record.Findings[number].Under is null) findings.Add(record.Findings[number]);
        return
        [
            .. findings.OrderBy(finding => finding.State == FindingState.Accepted).ThenByDescending(finding => finding.Severity)
                .Select((finding, place) => place < MostTold ? Told(finding, place + 1) : Untold(finding, place + 1)),
        ];
    }

    private static FindingNote Told(Finding finding, int number) => Untold(finding, number) with
    {
        Subject = SubjectOf(finding), Message = finding.Message, Cure = finding.Cure,
    };

    private static FindingNote Untold(Finding finding, int number) =>
        new(number, finding.Severity, finding.At, "", "", "", finding.State == FindingState.Accepted ? finding.AcceptedAt : 0);

    private static string SubjectOf(Finding finding)
    {
        var message = finding.Message;
        if (finding.Run is { } run) return message.Contains(Naming.Of(run), StringComparison.Ordinal) ? "" : Naming.Of(run);
        return finding.Shots.Length == 0 || message.Contains(finding.ShotIds[0], StringComparison.Ordinal) ? "" : "Shot " + finding.ShotIds[0];
    }
}
