using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class FoldingTests
{
    /// <summary>A session of four check shots shifted by 0.2 m: each is missed, and the shift leads them.</summary>
    private static readonly RecordInputs Shifted = SessionOf.Inputs((_, number) => (0.2 + SessionOf.Noise(number).East, SessionOf.Noise(number).North, SessionOf.Noise(number).Height));

    private static Finding[] All(RecordInputs inputs)
    {
        var table = Derivation.Derive(inputs).Findings;
        return [.. Enumerable.Range(0, table.Count).Select(number => table[number])];
    }

    [Fact]
    public void Fold_ShiftedSession_LeadsItsMissedCheckShots()
    {
        var all = All(Shifted);
        var leader = all.Single(finding => finding.Check.Name == "session-shifted");
        Assert.Null(leader.Under);
        Assert.Equal(4, leader.Folded.Count(finding => finding.Check.Name == "control-missed"));
        Assert.All(leader.Folded, finding => Assert.Equal(leader.Id, finding.Under!.Value.Id));
    }

    [Fact]
    public void Fold_LeaderAccepted_SetsItsConsequencesFree()
    {
        var leader = All(Shifted).Single(finding => finding.Check.Name == "session-shifted");
        var after = All(Shifted.Then(new FindingAccepted(leader.Id, leader.Check.Name, leader.Severity, leader.Measured, leader.Allowed)));
        Assert.Empty(after.Single(finding => finding.Id == leader.Id).Folded);
        Assert.Equal(4, after.Count(finding => finding.Check.Name == "control-missed" && finding.Under is null));
    }

    [Fact]
    public void Fold_KeepsIdentityAndHolds()
    {
        var record = Derivation.Derive(Shifted);
        var holding = record.Holds.SelectMany(hold => hold.By).Select(number => record.Findings[number]).ToArray();
        Assert.Contains(holding, finding => finding.Under is not null); // folding says what to read first, it cures nothing
        Assert.All(NextVisit.Plan(record), stop => Assert.Null(stop.Finding.Under)); // here the leader sends the crew out itself
    }

    /// <summary>A sign post shot under a tree is no consequence of a mark that was struck.</summary>
    [Fact]
    public void Fold_ShotTooCoarseByItself_StandsBesideASessionsFinding()
    {
        var all = All(SampleInputs.Of(SampleSites.WithMistakes(1)));
        Assert.Contains(all, finding => finding.Check.Name == "control-missed");
        Assert.Null(all.Single(finding => finding.Check.Name == "accuracy-over-limit" && finding.Shots.Length == 1).Under);
    }

    /// <summary>Laws on sites with every mistake: a leader folds under nothing, is at least as grave, and knows what it may lead.</summary>
    [Fact]
    public void Fold_AnyMistake_LeadersLead()
    {
        foreach (var check in SampleSites.AllMistakes)
        {
            foreach (var finding in All(SampleInputs.Of(SampleSites.Lot(7, check, 3))).Where(finding => finding.Under is not null))
            {
                var leader = finding.Under!.Value;
                Assert.Null(leader.Under);
                Assert.True(leader.Severity >= finding.Severity, $"{leader.Check.Name} over {finding.Check.Name}");
                Assert.NotEqual(FindingState.Accepted, leader.State);
            }
        }
    }

    /// <summary>Shots of another thing, taken later, change no name of what was found before.</summary>
    [Fact]
    public void Id_UnrelatedShotsJoin_StaysTheSame()
    {
        var lines = "1 0 0 5.001 KERB A\n2 9 0 5.002 KERB A\n3 30.001 0 5.001 KERB A\n4 39.002 0 5.003 KERB A";
        var more = lines + "\n--- South\n51 0.001 60.002 5.002 DUCT D\n52 8.003 60.001 5.001 DUCT D\n53 16.002 60.003 5.003 DUCT D";
        var before = All(ShotsOf.Lines(lines)).Select(finding => finding.Id).ToHashSet();
        Assert.NotEmpty(before);
        Assert.Subset(All(ShotsOf.Lines(more)).Select(finding => finding.Id).ToHashSet(), before);
    }
}
