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

    /// <summary>A size for each shot, and whether it lies on an arc; the words may change anywhere, often or never.</summary>
    private static readonly Gen<(int Size, int Material, bool Through)[]> Sized = Gen.Select(Gen.Int[0, 2], Gen.Int[0, 2], Gen.Bool, (size, material, through) => (size, material, through)).Array[3, 24];

    [Fact]
    public void Parts_WhereverWordsChange_AddUpToTheWholeAndShareTheirFittings() => Sized.Sample(shots =>
    {
        string Drawn(Func<int, string> words) => string.Join('\n', shots.Select((shot, i) => FormattableString.Invariant(
            $"{i + 1} {8 * i} {3 * Math.Sin(i)} {5 + 0.1 * i} DUCT PD-1 {(shot.Through && i > 0 && i < shots.Length - 1 ? "through" : "straight")} {words(i)}")));
        var whole = Derivation.Derive(ShotsOf.Lines(Drawn(_ => ""))).Runs[0];
        var record = Derivation.Derive(ShotsOf.Lines(Drawn(i => $"size={shots[i].Size} material=m{shots[i].Material}")));
        var runs = Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run]).ToArray();
        Assert.Equal(whole.PlanLength, runs.Sum(run => run.PlanLength), 1e-9);
        Assert.Equal(whole.SlopeLength!.Value, runs.Sum(run => run.SlopeLength!.Value), 1e-9);
        Assert.Equal(whole.PieceCount, runs.Sum(run => run.PieceCount));
        for (var run = 1; run < runs.Length; run++)
        {
            Assert.Equal(runs[run - 1].Members[^1], runs[run].Members[0]);
            Assert.Equal($"DUCT/PD-1/{run + 1}", runs[run].Key);
        }

        Assert.Equal(whole.Members.ToArray(), runs.SelectMany((run, number) => run.Members.ToArray().Skip(number == 0 ? 0 : 1)));
    }, iter: 300);

    [Fact]
    public void AnotherMaterial_BeforeAnotherSize_IsFoundToo()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Line(7, i => $"size={(i < 4 ? 110 : 90)} material={(i < 2 ? "PE" : "PVC")}")));
        Assert.Equal(["1 2 3", "3 4 5", "5 6 7"], Enumerable.Range(0, record.Runs.Count).Select(run => PathNotation.Write(record.Runs[run])));
    }

    [Fact]
    public void AnotherSize_OnAnArc_LeavesTheArcWhole()
    {
        const string Bend = "1 0 0 5 DUCT PD-1 - size=a\n2 8 0 5 DUCT PD-1 - size=a\n3 11 1 5 DUCT PD-1 through size=b\n4 12 4 5 DUCT PD-1 - size=b\n5 12 12 5 DUCT PD-1 - size=b";
        var record = Derivation.Derive(ShotsOf.Lines(Bend));
        Assert.Equal(["1 2", "2 ~3 4 5"], Enumerable.Range(0, record.Runs.Count).Select(run => PathNotation.Write(record.Runs[run])));
        var one = ShotsOf.Lines(Bend.Replace("size=b", "size=a", StringComparison.Ordinal)).Then(new RunSplit("DUCT/PD-1", new(1, 4), "PD-2"));
        Assert.Equal("Journal 1: shot 1:4 lies on an arc of DUCT/PD-1, which is cut where an arc begins or ends.", Assert.Single(Derivation.Derive(one).Unresolved));
    }

    [Fact]
    public void OutlineOfAnArea_IsNeverParted() =>
        Assert.Equal(1, Derivation.Derive(ShotsOf.Lines("1 0 0 5 ISLAND I-1 - material=a\n2 8 0 5 ISLAND I-1 - material=b\n3 8 8 5 ISLAND I-1 - material=b\n1 - - - ISLAND I-1")).Runs.Count);

    [Fact]
    public void Sizes_ChangingAtEachOfManyShots_MakeAPartEach()
    {
        var text = Line(20_000, i => $"size={i % 2}");
        var inputs = ShotsOf.Lines(text);
        Assert.Equal(19_999, Derivation.Derive(inputs).Runs.Count);
    }

    [Fact]
    public void Split_PassesOnWhatWasSaidOfTheWhole()
    {
        const string Key = "DUCT/PD-1";
        var inputs = ShotsOf.Lines(Line(5, _ => "")).Then(new AttributeSet(Key, "status", "existing")).Then(new AttributeSet(Key, "start", "cap")).Then(new AttributeSet(Key, "end", "stub"));
        var record = Derivation.Derive(inputs.Then(new RunSplit(Key, new(1, 4), "PD-2")).Then(new AttributeSet(Key, "flow", "along")));
        Assert.Equal(new RunFacts(RunStatus.Existing, FlowSense.Along, "cap", null), record.Runs[0].Facts);
        Assert.Equal(new RunFacts(RunStatus.Existing, FlowSense.Unknown, null, "stub"), record.Runs[1].Facts);
        Assert.Empty(record.Quantities);
        var refused = Derivation.Derive(inputs.Then(new RunSplit(Key, new(1, 99), "PD-2")));
        Assert.Equal("stub", refused.Runs[0].Facts.End);
    }

    [Theory]
    [InlineData("new", true)]
    [InlineData("existing", true)]
    [InlineData("abandoned", true)]
    [InlineData("removed", false)]
    [InlineData("superseded", false)]
    public void Status_OfWhatNoLongerLiesThere_StopsNothing(string status, bool stops)
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT PD-1\n2 30 0 5 DUCT PD-1\n3 60 0 5 DUCT PD-1\n4 68 0 5 DUCT PD-1").Then(new AttributeSet("DUCT/PD-1", "status", status));
        var record = Derivation.Derive(inputs);
        var found = Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number]).Where(finding => finding.Run is not null).ToArray();
        Assert.Contains(found, finding => finding.Check.Name == "shots-too-far-apart");
        Assert.Equal(stops, found.Any(finding => finding.Severity == Severity.Stop));
        Assert.Equal(stops, record.Holds.Any(hold => hold.State == HoldState.Held));
    }

    [Theory]
    [InlineData("size")]
    [InlineData("material")]
    public void Parts_OfRightWork_GiveNoFindingThatTheWholeDoesNot(string column)
    {
        string Drawn(Func<int, string> words) => "90 -0.1 0 5 CHAMBER\n" + Line(9, words) + "\n91 64.1 2 5.8 CHAMBER";
        var (whole, parts) = (Derivation.Derive(ShotsOf.Lines(Drawn(_ => ""))), Derivation.Derive(ShotsOf.Lines(Drawn(i => $"{column}={i / 3}"))));
        Assert.Equal(3, parts.Runs.Count);
        Assert.Empty(Checks(parts).Except(Checks(whole)));
        Assert.Equal(whole.Quantities.Select(quantity => (quantity.Code, quantity.Kind)), parts.Quantities.Select(quantity => (quantity.Code, quantity.Kind)));
        foreach (var (one, other) in whole.Quantities.Zip(parts.Quantities)) Assert.Equal(one.Value, other.Value, 1e-9);

        static IEnumerable<string> Checks(AsBuiltRecord record) => Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number].Check.Name).Distinct();
    }

    [Fact]
    public void Join_KeepsWhatWasSaidOfBoth_AndNamesWhatNoLongerFits()
    {
        const string Two = "1 0 0 5 DUCT A\n2 8 0 5 DUCT A\n3 8 0.5 5 DUCT B\n4 16 0 5 DUCT B";
        var said = ShotsOf.Lines(Two).Then(new AttributeSet("DUCT/B", "material", "PE")).Then(new AttributeSet("DUCT/B", "status", "existing")).Then(new RunJoined("DUCT/B", "DUCT/A"));
        var record = Derivation.Derive(said);
        Assert.Empty(record.Unresolved);
        Assert.Equal(("PE", RunStatus.Existing), (record.Runs.AttributesOf(0)["material"], record.Runs[0].Facts.Status));
        var differing = Derivation.Derive(said.Then(new AttributeSet("DUCT/A", "material", "PVC")).Then(new AttributeSet("DUCT/B", "end", "cap")));
        Assert.Equal("PVC", differing.Runs.AttributesOf(0)["material"]);
        Assert.Equal(
            ["Journal 1: DUCT/B is part of DUCT/A now, whose material is PVC, not PE.", "Journal 5: DUCT/B is part of DUCT/A now; say the end of that run."],
            differing.Unresolved);
        var withdrawn = Derivation.Derive(said.Then(new Withdrawn(3)));
        Assert.Equal((2, "existing", "new"), (withdrawn.Runs.Count, withdrawn.Runs[1].Facts.StatusWord, withdrawn.Runs[0].Facts.StatusWord));
    }
}
