using Aslaid.Record;
using Aslaid.Testing;
using CsCheck;

namespace Aslaid.Tests;

public class RunShapingTests
{
    private static string Line(int count, Func<int, string> more) => string.Join('\n', Enumerable.Range(0, count).Select(i =>
        FormattableString.Invariant($"{i + 1} {8 * i} {i % 3} {5 + 0.1 * i} DUCT PD-1 - {more(i)}")));

    [Fact]
    public void Split_AnywhereBetweenItsEnds_LosesAndCountsTwiceNothing() => Gen.Int[3, 20].SelectMany(count => Gen.Int[2, count - 1], (count, at) => (count, at)).Sample(where =>
    {
        var inputs = ShotsOf.Lines(Line(where.count, _ => ""));
        var whole = Derivation.Derive(inputs);
        var cut = Derivation.Derive(inputs.Then(new RunSplit(whole.Runs[0].Key, new(1, where.at + 1), "PD-2")));
        Assert.Equal(2, cut.Runs.Count);
        Assert.Equal("DUCT/PD-2", cut.Runs[1].Key);
        Assert.Equal(cut.Runs[0].Members[^1], cut.Runs[1].Members[0]);
        Assert.Equal(whole.Runs[0].PlanLength, cut.Runs[0].PlanLength + cut.Runs[1].PlanLength, 1e-9);
        var (before, after) = (whole.Quantities.First(), cut.Quantities.First());
        Assert.Equal(before.Value, after.Value, 1e-9);
        Assert.Equal(before.U!.Value, after.U!.Value, 1e-9); // the fitting counts once in the uncertainty
    }, iter: 60);

    [Fact]
    public void Split_AtAnEndOrElsewhere_IsUnresolved()
    {
        var inputs = ShotsOf.Lines(Line(5, _ => ""));
        foreach (var line in (int[])[2, 6, 99])
            Assert.Contains("is not between the ends of DUCT/PD-1", Assert.Single(Derivation.Derive(inputs.Then(new RunSplit("DUCT/PD-1", new(1, line), "X"))).Unresolved), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("size")]
    [InlineData("material")]
    public void AnotherSizeOrMaterial_FromAShotOn_IsAnotherRunFromThatFitting(string column)
    {
        var record = Derivation.Derive(ShotsOf.Lines(Line(7, i => $"{column}={(i < 3 ? "A" : i < 5 ? "B" : "C")}")));
        Assert.Equal(["DUCT/PD-1", "DUCT/PD-1/2", "DUCT/PD-1/3"], Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run].Key));
        Assert.Equal(["1 2 3 4", "4 5 6", "6 7"], Enumerable.Range(0, record.Runs.Count).Select(run => PathNotation.Write(record.Runs[run])));
    }

    [Fact]
    public void OneSize_OrOneThatChangesAtTheLastShot_IsOneRun()
    {
        Assert.Equal(1, Derivation.Derive(ShotsOf.Lines(Line(5, _ => "size=110"))).Runs.Count);
        Assert.Equal(1, Derivation.Derive(ShotsOf.Lines(Line(5, i => i == 4 ? "size=90" : "size=110"))).Runs.Count);
    }

    [Theory]
    [InlineData("existing")]
    [InlineData("abandoned")]
    [InlineData("removed")]
    [InlineData("superseded")]
    public void Status_OtherThanNew_CountsInNoQuantity(string status)
    {
        var byColumn = Derivation.Derive(ShotsOf.Lines(Line(4, _ => $"status={status}")));
        Assert.Empty(byColumn.Quantities);
        Assert.Equal(status, byColumn.Runs[0].Facts.StatusWord);
        Assert.Equal(0, HoldTotals.Of(byColumn).Sum());
        var inputs = ShotsOf.Lines(Line(4, _ => ""));
        Assert.Empty(Derivation.Derive(inputs.Then(new AttributeSet("DUCT/PD-1", "status", status))).Quantities);
        Assert.NotEmpty(Derivation.Derive(inputs.Then(new AttributeSet("DUCT/PD-1", "status", status)).Then(new AttributeSet("DUCT/PD-1", "status", "new"))).Quantities);
    }

    [Fact]
    public void Facts_OfColumnsAndJournal_TheJournalPrevails()
    {
        var inputs = ShotsOf.Lines(Line(4, i => $"flow=along start=cap end={(i == 3 ? "stub" : "continues")}"));
        Assert.Equal(new RunFacts(RunStatus.New, FlowSense.Along, "cap", "stub"), Derivation.Derive(inputs).Runs[0].Facts);
        Assert.Equal(FlowSense.Against, Derivation.Derive(inputs.Then(new AttributeSet("DUCT/PD-1", "flow", "against"))).Runs[0].Facts.Flow);
    }

    [Fact]
    public void ClosedWords_OtherThanTheirOwn_AreFound_UnlessTheColumnMeansSomethingElse()
    {
        const string Check = "attribute-not-allowed";
        Assert.Single(ShotsOf.Lines(Line(4, i => i == 0 ? "status=new" : "status=older")).Find(Check));
        Assert.Empty(ShotsOf.Lines(Line(4, _ => "status=tracking")).Find(Check)); // of the receiver
        Assert.Single(ShotsOf.Lines(Line(4, _ => "")).Then(new AttributeSet("DUCT/PD-1", "flow", "down")).Find(Check));
    }
}
