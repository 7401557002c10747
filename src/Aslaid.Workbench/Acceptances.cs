using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>What an acceptance needs before it is written.</summary>
public static class Acceptances
{
    /// <summary>A finding accepted as it stands.</summary>
    /// <param name="by">Who accepts it.</param>
    /// <exception cref="ProjectException">It is of a kind that nobody accepts of what he took in himself.</exception>
    public static FindingAccepted Of(AsBuiltRecord record, Finding finding, Actor by)
    {
        if (finding.Check.NeedsAnother && TookIn(record, finding, by.Name) is { } file)
            throw new ProjectException($"{finding.Id} is about shots of {file}, which {by.Name} took in: {finding.Check.Name} must be accepted by another person.");
        return new(finding.Id, finding.Check.Name, finding.Severity, finding.Measured, finding.Allowed);
    }

    /// <summary>The file among those of the finding's shots that a person took in; null where it was somebody else.</summary>
    private static string? TookIn(AsBuiltRecord record, Finding finding, string name)
    {
        foreach (var shot in finding.Shots)
        {
            var batch = record.Shots.Raw.BatchOf(shot);
            if (record.Inputs.Journal.Any(entry => entry.What is BatchTaken taken && taken.Batch == batch.Number
                && string.Equals(entry.By.Name.Trim(), name.Trim(), StringComparison.OrdinalIgnoreCase))) return batch.FileName;
        }

        return null;
    }
}
