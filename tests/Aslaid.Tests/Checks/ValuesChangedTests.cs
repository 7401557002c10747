using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ValuesChangedTests
{
    private const string Check = "values-changed";

    private const string First = """
        --- North
        1 0 0 5 DUCT PD-1 - time=08:00
        2 8 0 5 DUCT PD-1 - time=08:01
        3 16 0 5 DUCT PD-1 - time=08:02
        4 24 0 5 DUCT PD-1 - time=08:03
        --- North

        """;

    private const string Raised = First + "2 8 0 5.2 DUCT PD-1 - time=08:01\n3 16 0 5.2 DUCT PD-1 - time=08:02\n5 32 0 5 DUCT PD-1 - time=09:00";

    private static ValuesDecided Decide(bool adopt, params int[] lines) => new([.. lines.Select(line => new ShotKey(2, line))], adopt);

    private static string Path(AsBuiltRecord record) => string.Join(' ', record.Runs[0].Members.ToArray().Select(row => record.Shots.Raw.Key(row)));

    [Fact]
    public void Look_KnownShotsWithOtherHeights_IsFoundOnceAndTheEarlierCount()
    {
        var inputs = ShotsOf.Lines(Raised);
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "2", "3");
        Assert.Equal("Batch 2 (shots-2.csv) brings 2 known shots with other values: 2, 3; 0 in plan, 2 in height, 0 in code, run or leg, by 0.200 m at most. "
            + "The earlier values count until somebody decides.", finding.Message);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        Assert.Equal("1:2 1:3 1:4 1:5 2:4", Path(Derivation.Derive(inputs)));
    }

    [Fact]
    public void Decided_Later_StandsInTheEarliersPlace()
    {
        var inputs = ShotsOf.Lines(Raised);
        var record = Derivation.Derive(inputs.Then(Decide(true, 2, 3)));
        Assert.Equal("1:2 2:2 2:3 1:5 2:4", Path(record));
        Assert.Equal(5.2, record.Shots.HeightOf(record.Runs[0].Members[1]));
        Assert.False(record.Shots.Used[1]);
        Assert.Equal("1:2 1:3 1:4 1:5 2:4", Path(Derivation.Derive(inputs.Then(Decide(false, 2, 3)))));
        CheckAssert.Silent(inputs.Then(Decide(false, 2, 3)), Check);
    }

    [Fact]
    public void Decided_AndWithdrawnOrDecidedAgain_IsAsBefore()
    {
        var inputs = ShotsOf.Lines(Raised);
        var adopted = inputs.Then(Decide(true, 2, 3));
        Assert.Equal(Path(Derivation.Derive(inputs)), Path(Derivation.Derive(adopted.Then(new Withdrawn(adopted.Journal[^1].Position)))));
        Assert.Equal(Path(Derivation.Derive(inputs)), Path(Derivation.Derive(adopted.Then(Decide(false, 2, 3)))));
        Assert.Equal("1:2 1:3 2:3 1:5 2:4", Path(Derivation.Derive(adopted.Then(Decide(false, 2)))));
    }

    [Fact]
    public void Decided_WhereAShotIsUsedAgain_MovesThereToo()
    {
        const string ring = """
            --- North
            1 0 0 5 ISLAND IS-1 - time=08:00
            2 10 0 5 ISLAND IS-1 - time=08:01
            3 10 10 5 ISLAND IS-1 - time=08:02
            1 - - - ISLAND IS-1
            --- North
            1 1 0 5 ISLAND IS-1 - time=08:00
            1 - - - ISLAND IS-1
            """;
        var record = Derivation.Derive(ShotsOf.Lines(ring).Then(Decide(true, 2)));
        Assert.True(record.Runs[0].IsClosed);
        Assert.Equal("2:2 1:3 1:4 2:2", Path(record));
        Assert.Equal(45, record.Runs[0].Area!.Value, 1e-6);
        Assert.Equal(50, Derivation.Derive(ShotsOf.Lines(ring)).Runs[0].Area!.Value, 1e-6);
    }

    /// <summary>The batch that changes a shot also uses it for a branch: the branch is there, whatever is decided.</summary>
    [Fact]
    public void Decided_OrNot_WhatTheLaterFileUsesAnew_IsThere()
    {
        const string branch = First + "2 8 0 5.2 DUCT PD-1 - time=08:01\n2 - - - DUCT PD-2\n9 8 8 5 DUCT PD-2 - time=09:00";
        var inputs = ShotsOf.Lines(branch);
        string Branch(RecordInputs of) => Derivation.Derive(of) is var record ? string.Join(' ', record.Runs[1].Members.ToArray().Select(row => record.Shots.Raw.Key(row))) : "";
        Assert.Equal("1:3 2:4", Branch(inputs));
        Assert.Equal("2:2 2:4", Branch(inputs.Then(Decide(true, 2))));
        Assert.Equal("1:3 2:4", Branch(inputs.Then(Decide(false, 2))));
    }

    [Fact]
    public void Decided_ACorrectionOfTheEarlierRow_HoldsForTheLater()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Raised).Then(Decide(true, 2, 3)).Then(new Recoded([new(1, 3)], "KERB", "K-1")));
        Assert.Equal("KERB", record.Shots.CodeOf(record.Shots.Raw.Find(new(2, 2))));
    }

    [Theory]
    [InlineData("2 80 0 5 DUCT PD-2 - time=10:00\n3 88 0 5 DUCT PD-2 - time=10:01")] // the crew counts from 1 again
    [InlineData("12 8 0 5.2 DUCT PD-2 - time=08:01")] // another id
    public void Look_OtherShots_IsSilent(string later) => CheckAssert.Silent(ShotsOf.Lines(First + later), Check);

    [Fact]
    public void Look_AnotherCrewWithTheSameIds_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Raised.Replace("--- North\n2", "--- South\n2", StringComparison.Ordinal)), Check);

    [Fact]
    public void Look_WithoutTimes_TellsByPlace()
    {
        var lines = Raised.Replace("time=08:01", "time=-", StringComparison.Ordinal).Replace("time=08:02", "time=-", StringComparison.Ordinal);
        Assert.Single(ShotsOf.Lines(lines).Find(Check));
        CheckAssert.Silent(ShotsOf.Lines(lines.Replace("2 8 0 5.2", "2 8 60 5.2", StringComparison.Ordinal).Replace("3 16 0 5.2", "3 16 60 5.2", StringComparison.Ordinal)), Check);
    }
}
