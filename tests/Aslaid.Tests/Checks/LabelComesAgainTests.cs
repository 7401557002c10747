using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using CsCheck;

namespace Aslaid.Tests;

public class LabelComesAgainTests
{
    private const string Check = "label-comes-again";

    private const string Key = "DUCT/PD-1@North";

    /// <summary>A duct of 32 m, east, in one batch; the next begins.</summary>
    private const string Main = """
        --- North
        1 0 0 5 DUCT PD-1
        2 8 0 5 DUCT PD-1
        3 16 0 5 DUCT PD-1
        4 24 0 5 DUCT PD-1
        5 32 0 5 DUCT PD-1
        --- North

        """;

    /// <summary>The whole of it, and a stretch of it, a metre to the north.</summary>
    private const string Relaid = "11 0 1 5 DUCT PD-1\n12 8 1 5 DUCT PD-1\n13 16 1 5 DUCT PD-1\n14 24 1 5 DUCT PD-1\n15 32 1 5 DUCT PD-1";

    private const string Stretch = "11 8 0 5 DUCT PD-1\n12 12 1 5 DUCT PD-1\n13 20 1 5 DUCT PD-1\n14 24 0 5 DUCT PD-1";

    private static AsBuiltRecord After(string lines, params (int Batch, LabelAgain As)[] decided) => Derivation.Derive(decided.Aggregate(
        ShotsOf.Lines(Main + lines), (inputs, next) => inputs.Then(new LabelDecided(Key, next.Batch, next.As))));

    private static string[] Paths(AsBuiltRecord record) => [.. Enumerable.Range(0, record.Runs.Count).Select(run => PathNotation.Write(record.Runs[run]))];

    [Fact]
    public void Look_RelaidBesideItself_IsFoundAndSupersedes()
    {
        var inputs = ShotsOf.Lines(Main + Relaid);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "11", "12", "13", "14", "15");
        Assert.Equal("PD-1 comes again in batch 2 with 5 shots from 11: they lie along it, up to 1.000 m off. It lies anew or was measured anew, and its length counts twice.", finding.Message);
        Assert.Equal(new LabelDecided(Key, 2, LabelAgain.Supersedes), finding.Correction);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_MeasuredAgainBeforeItWentOn_IsFoundAndChecksIt()
    {
        var inputs = ShotsOf.Lines(Main + "11 0 0.01 5 DUCT PD-1\n12 8 0 5 DUCT PD-1\n13 16 0 5 DUCT PD-1\n--- North\n21 40 0 5 DUCT PD-1\n22 48 0 5 DUCT PD-1");
        var finding = Assert.Single(inputs.Find(Check), finding => finding.Figures[1] == 2);
        Assert.Equal(new LabelDecided(Key, 2, LabelAgain.Checks), finding.Correction);
        Assert.Equal(48, Derivation.Derive(inputs.Then(finding.Correction!)).Runs[0].PlanLength, 1e-6);
    }

    [Fact]
    public void Look_FarFromWhereItEnded_IsFoundWithoutACorrection() =>
        Assert.Null(CheckAssert.Single(ShotsOf.Lines(Main + "11 32 160 5 DUCT PD-1\n12 32 168 5 DUCT PD-1"), Check, Severity.Stop, "11", "12").Correction);

    [Theory]
    [InlineData("11 40 0 5 DUCT PD-1\n12 48 0 5 DUCT PD-1")] // it goes on
    [InlineData("11 32 0.01 5 DUCT PD-1\n12 40 0 5 DUCT PD-1")] // from its last shot, taken again
    [InlineData("11 33 1.5 5 DUCT PD-1\n12 24 2 5 DUCT PD-1\n13 16 2 5 DUCT PD-1\n14 8 2 5 DUCT PD-1")] // it turns back beside itself
    public void Look_GoesOnWhereItEnded_IsSilent(string lines) => CheckAssert.Silent(ShotsOf.Lines(Main + lines), Check);

    [Fact]
    public void Decided_Supersedes_TakesThePlaceOfWhatItRunsAlong()
    {
        var record = After(Relaid, (2, LabelAgain.Supersedes));
        Assert.Equal(["11 12 13 14 15"], Paths(record));
        Assert.Equal("1 2 3 4 5", PathNotation.Write(record.Former.All[0].Run));
        Assert.Equal(FormerAs.Superseded, record.Former.All[0].As);
        Assert.False(record.Shots.Used[0]);
        Assert.Equal(32, record.Quantities.Single(quantity => quantity.Kind == QuantityKind.PlanLength).Value, 1e-6);
    }

    [Theory]
    [InlineData(Stretch)]
    [InlineData("11 24 0 5 DUCT PD-1\n12 20 1 5 DUCT PD-1\n13 12 1 5 DUCT PD-1\n14 8 0 5 DUCT PD-1")]
    public void Decided_ReplacesAStretch_EitherWayRound_LeavesTheRest(string lines)
    {
        var record = After(lines, (2, LabelAgain.Replaces));
        var path = Assert.Single(Paths(record));
        Assert.StartsWith("1 ", path, StringComparison.Ordinal);
        Assert.EndsWith(" 5", path, StringComparison.Ordinal);
        Assert.Equal("2 3 4", PathNotation.Write(record.Former.All[0].Run));
        Assert.Equal(FormerAs.Removed, record.Former.All[0].As);
        Assert.Equal(8 + Math.Sqrt(17) + 8 + Math.Sqrt(17) + 8, record.Runs[0].PlanLength, 1e-6);
    }

    /// <summary>The crew goes on and, the same day, measures a stretch anew or again: only that stretch is asked about and taken.</summary>
    [Theory]
    [InlineData("11 40 0 5 DUCT PD-1\n12 48 0 5 DUCT PD-1\n13 56 0 5 DUCT PD-1\n21 8 0 5 DUCT PD-1\n22 12 1 5 DUCT PD-1\n23 20 1 5 DUCT PD-1\n24 24 0 5 DUCT PD-1")]
    [InlineData("21 8 0 5 DUCT PD-1\n22 12 1 5 DUCT PD-1\n23 20 1 5 DUCT PD-1\n24 24 0 5 DUCT PD-1\n11 40 0 5 DUCT PD-1\n12 48 0 5 DUCT PD-1\n13 56 0 5 DUCT PD-1")]
    public void Decided_WhereTheBatchGoesOnToo_TakesOnlyTheStretch(string lines)
    {
        var inputs = ShotsOf.Lines(Main + lines);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "21", "22", "23", "24");
        Assert.Equal(new LabelDecided(Key, 2, LabelAgain.Supersedes), finding.Correction);
        var record = Derivation.Derive(inputs.Then(finding.Correction!));
        Assert.Equal(["1 21 22 23 24 5 11 12 13"], Paths(record));
        Assert.Equal("2 3 4", PathNotation.Write(record.Former.All[0].Run));
        CheckAssert.Silent(inputs.Then(finding.Correction!), Check);
        Assert.Equal(["1 2 3 4 5 11 12 13"], Paths(Derivation.Derive(inputs.Then(new LabelDecided(Key, 2, LabelAgain.Checks)))));
    }

    [Fact]
    public void Decided_BatchByBatch_EachInItsTurn()
    {
        var record = After(Relaid + "\n--- North\n21 40 1 5 DUCT PD-1\n--- North\n31 8 1.01 5 DUCT PD-1\n32 16 1 5 DUCT PD-1",
            (2, LabelAgain.Supersedes), (3, LabelAgain.Continues), (4, LabelAgain.Checks));
        Assert.Equal(["11 12 13 14 15 21"], Paths(record));
        Assert.Equal([FormerAs.Superseded, FormerAs.Check], record.Former.All.Select(former => former.As));
        Assert.Empty(record.Unresolved);
    }

    [Fact]
    public void Decided_AndWithdrawn_RestoresTheRecord()
    {
        var inputs = ShotsOf.Lines(Main + Relaid);
        var before = Derivation.Derive(inputs);
        var decided = inputs.Then(new LabelDecided(Key, 2, LabelAgain.Replaces));
        var after = Derivation.Derive(decided.Then(new Withdrawn(decided.Journal[^1].Position)));
        Assert.Equal(Paths(before), Paths(after));
        Assert.Equal(before.Quantities, after.Quantities);
        Assert.Equal(before.Holds.Select(hold => (hold.From, hold.To, hold.State)), after.Holds.Select(hold => (hold.From, hold.To, hold.State)));
        Assert.Empty(after.Former.All);
    }

    [Fact]
    public void Decided_OfARunOrBatchThatIsNotThere_IsUnresolved()
    {
        Assert.Contains("there is no run DUCT/X", Assert.Single(Derivation.Derive(ShotsOf.Lines(Main).Then(new LabelDecided("DUCT/X", 2, LabelAgain.Checks))).Unresolved), StringComparison.Ordinal);
        Assert.Contains("batch 7 has no shots of", Assert.Single(After(Relaid, (7, LabelAgain.Checks)).Unresolved), StringComparison.Ordinal);
    }

    /// <summary>A later batch may use a shot of the first again, so that its own shots come in two stretches.</summary>
    [Theory]
    [InlineData(LabelAgain.Continues)]
    [InlineData(LabelAgain.Checks)]
    [InlineData(LabelAgain.Supersedes)]
    [InlineData(LabelAgain.Replaces)]
    public void Decided_OfABatchThatUsesAnEarlierShotAgain_KeepsEveryKeyApart(LabelAgain how)
    {
        const string Header = "id,east,north,height,code,run,u_plan,u_height\n";
        var shots = ShotTable.Empty;
        foreach (var (name, rows) in (ReadOnlySpan<(string, string)>)[
            ("one.csv", "1,512000,6243000,5,DUCT,PD-1,0.01,0.01\n2,512008,6243000,5,DUCT,PD-1,0.01,0.01\n3,512016,6243000,5,DUCT,PD-1,0.01,0.01\n"),
            ("two.csv", "11,512000,6243001,5,DUCT,PD-1,0.01,0.01\n12,512004,6243001,5,DUCT,PD-1,0.01,0.01\n2,,,,DUCT,PD-1,,\n13,512012,6243001,5,DUCT,PD-1,0.01,0.01\n14,512016,6243001,5,DUCT,PD-1,0.01,0.01\n")])
        {
            var intake = new ShotsCsvReader().Read(System.Text.Encoding.UTF8.GetBytes(Header + rows), new(name, "North", default), shots);
            Assert.Empty(intake.Rejected);
            shots = intake.Shots!;
        }

        var record = Derivation.Derive(new RecordInputs(shots, [], ShotsOf.Codes, [], ShotsOf.Settings).Then(new LabelDecided(Key, 2, how)));
        Assert.Empty(record.Unresolved);
        var keys = Enumerable.Range(0, record.Former.Table.Count).Select(run => record.Former.Table[run].Key).ToArray();
        Assert.Equal(keys.Distinct(), keys);
        Assert.Equal(1, record.Runs.Count);
    }

    /// <summary>What a superseded run loses may be a thing of its own, which stays.</summary>
    [Fact]
    public void Decided_Supersedes_LeavesAChamberThatWasShotAsItsEnd()
    {
        const string Lines = "1 0 0 5 DUCT PD-1\n2 8 0 5 DUCT PD-1\n3 16 0 5 DUCT PD-1\n3 - - - CHAMBER\n--- North\n11 0 1 5 DUCT PD-1\n12 8 1 5 DUCT PD-1\n13 16 1 5 DUCT PD-1";
        var inputs = ShotsOf.Lines("--- North\n" + Lines);
        var record = Derivation.Derive(inputs.Then(new LabelDecided(Key, 2, LabelAgain.Supersedes)));
        Assert.Equal(["11 12 13"], Paths(record));
        var chamber = Assert.Single(record.Points);
        Assert.Equal("CHAMBER", record.Shots.CodeOf(chamber));
        Assert.True(record.Shots.Used[chamber]);
        Assert.True(record.Shots.Used[record.Shots.Raw.Origin(chamber)]); // where it stands
        Assert.False(record.Shots.Used[0]);
        Assert.Equal(1, record.Quantities.Single(quantity => quantity.Code == "CHAMBER").Value);
    }

    /// <summary>Whatever is decided of whatever was shot: every shot stands in the run or in a former one, none in both, none twice.</summary>
    [Fact]
    public void Decided_AnyWay_LosesNoShotAndCountsNoneTwice() => Gen.Select(
        Gen.Select(Gen.Double[-10, 45], Gen.Double[-3, 3]).Array[1, 6], Gen.Select(Gen.Double[-10, 45], Gen.Double[-3, 3]).Array[1, 4], Gen.Enum<LabelAgain>(), Gen.Enum<LabelAgain>()).Sample((second, third, how, then) =>
    {
        string Rows((double East, double North)[] places, int from) => string.Join('\n', places.Select((place, i) => FormattableString.Invariant($"{from + i} {place.East:F3} {place.North:F3} 5 DUCT PD-1")));
        var record = After(Rows(second, 11) + "\n--- North\n" + Rows(third, 21), (2, how), (3, then));
        var standing = Enumerable.Range(0, record.Runs.Count).SelectMany(run => record.Runs[run].Members.ToArray());
        var gone = record.Former.All.SelectMany(former => former.Run.Members.ToArray()).ToArray();
        Assert.Equal(Enumerable.Range(0, 5 + second.Length + third.Length), standing.Concat(gone).Order());
        Assert.All(gone, shot => Assert.False(record.Shots.Used[shot]));
        Assert.Empty(record.Unresolved);
        if ((how, then) == (LabelAgain.Checks, LabelAgain.Checks)) Assert.StartsWith("1 2 3 4 5", Assert.Single(Paths(record)), StringComparison.Ordinal); // what goes on beside a check goes on behind it
    }, iter: 300);
}
