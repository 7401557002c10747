using System.Collections.Immutable;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class OddJournalTests
{
    private const string Five = "--- North\n1 0 0 5 DUCT D1 - time=08:01\n2 8 0 5 DUCT D1 - time=08:02\n3 16 0 5 DUCT D1 - time=08:03\n4 24 0 5 DUCT D1 - time=08:04\n5 32 0 5 DUCT D1 - time=08:05\n";
    private const string Again = Five + "--- North\n3 16 0.02 5 DUCT D1 - time=08:03\n21 0 0.2 5 DUCT D1 - time=09:01\n22 8 0.2 5 DUCT D1 - time=09:02\n23 16 0.2 5 DUCT D1 - time=09:03\n24 24 0.2 5 DUCT D1 - time=09:04\n25 32 0.2 5 DUCT D1 - time=09:05\n";

    private static Construction Tape(int line, params ReadOnlySpan<int> parts) => new(ConstructionKind.Tape, [new(1, line)], [new(-1, 0.005)], 0, [.. parts]);

    [Fact]
    public void AnAdoptedVersion_IsOfTheBatchInWhichTheShotWasTaken()
    {
        var decided = ShotsOf.Lines(Again).Then(new LabelDecided("DUCT/D1@North", 2, LabelAgain.Checks));
        Assert.Equal("1 2 3 4 5", PathNotation.Write(Derivation.Derive(decided).Runs[0]));
        var adopted = Derivation.Derive(decided.Then(new ValuesDecided([new(2, 2)], Adopt: true)));
        Assert.Empty(adopted.Unresolved);
        Assert.Equal(5, adopted.Runs[0].MemberCount);
        Assert.Equal(["1", "2", "3", "4", "5"], adopted.Runs[0].Members.ToArray().Select(adopted.Shots.Raw.Id));
        Assert.Equal(["21", "22", "23", "24", "25"], adopted.Former.All[0].Run.Members.ToArray().Select(adopted.Shots.Raw.Id));
    }

    [Fact]
    public void AnAdoptedVersionOfTheFirstShot_LeavesTheDecisionResolved()
    {
        var inputs = ShotsOf.Lines(Again.Replace("3 16 0.02 5 DUCT D1 - time=08:03", "1 0 0.02 5 DUCT D1 - time=08:01", StringComparison.Ordinal))
            .Then(new LabelDecided("DUCT/D1@North", 2, LabelAgain.Checks)).Then(new ValuesDecided([new(2, 2)], Adopt: true));
        Assert.Empty(Derivation.Derive(inputs).Unresolved);
        Assert.Equal(5, Derivation.Derive(inputs).Runs[0].MemberCount);
    }

    [Fact]
    public void AnAdoptedVersion_IsOfTheSessionInWhichTheShotWasTaken()
    {
        var shots = Derivation.Derive(ShotsOf.Lines(string.Join('\n', (Five + "--- North\n3 16 0.02 5 DUCT D1 - time=0").Split('\n').Select(line => line.Split("time=")[0] + (line[0] == '-' ? "" : "time=-")))).Then(new ValuesDecided([new(2, 2)], Adopt: true))).Shots;
        Assert.True(shots.Versions.IsAdopted(5));
        Assert.Equal(shots.Session[2], shots.Session[5]);
    }

    [Fact]
    public void AShotSetAside_StaysAside_WhenItsLaterValuesAreAdopted()
    {
        var inputs = ShotsOf.Lines(Again).Then(new SetAside([new(1, 4)])).Then(new ValuesDecided([new(2, 2)], Adopt: true));
        Assert.False(Derivation.Derive(inputs).Shots.Used[5]);
        var kept = ShotsOf.Lines(Again).Then(new ValuesDecided([new(2, 2)], Adopt: true)).Then(new SetAside([new(2, 2)])).Then(new ValuesDecided([new(2, 2)], Adopt: false));
        Assert.False(Derivation.Derive(kept).Shots.Used[2]);
    }

    [Fact]
    public void ARecodedShot_StaysRecoded_WhenItsLaterValuesAreAdopted()
    {
        var inputs = ShotsOf.Lines(Again).Then(new Recoded([new(1, 4)], "KERB", "K9")).Then(new ValuesDecided([new(2, 2)], Adopt: true));
        Assert.Equal("KERB", Derivation.Derive(inputs).Shots.CodeOf(5));
    }

    [Fact]
    public void AShotOfAWithdrawnIntake_IsNotRestored_AndTheEntrySaysSo()
    {
        var inputs = ShotsOf.Lines(Again).Then(new BatchTaken(1, "a", "", "", 5, "North", default)).Then(new BatchTaken(2, "b", "", "", 6, "North", default))
            .Then(new SetAside([new(2, 4)])).Then(new Restored([new(2, 4)])).Then(new Withdrawn(2));
        var record = Derivation.Derive(inputs);
        Assert.False(record.Shots.Used[7]);
        Assert.NotEmpty(record.Unresolved);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void ValuesOfAShotWithoutVersions_AreUnresolved(bool adopt) =>
        Assert.Single(Derivation.Derive(ShotsOf.Lines(Again).Then(new ValuesDecided([new(1, 3)], adopt))).Unresolved);

    [Fact]
    public void AChamberOnASupersededRun_StaysWithItsAdoptedValues()
    {
        var inputs = ShotsOf.Lines(Again.Replace("--- North\n3 16", "3 - - - CHAMBER - -\n--- North\n3 16", StringComparison.Ordinal))
            .Then(new LabelDecided("DUCT/D1@North", 2, LabelAgain.Supersedes)).Then(new ValuesDecided([new(2, 2)], Adopt: true));
        var record = Derivation.Derive(inputs);
        Assert.Empty(record.Unresolved);
        var point = Assert.Single(record.Points);
        Assert.True(record.Shots.Used[record.Shots.Shot(point)]);
        Assert.DoesNotContain(record.Shots.Shot(point), record.Runs[0].Members.ToArray());
    }

    private const string Two = "1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D2\n4 24 0 5 DUCT D2\n5 30 4 5 GROUND";

    [Fact]
    public void AnEntryAboutARunThatWasJoined_IsUnresolved()
    {
        var joined = ShotsOf.Lines(Two).Then(new RunJoined("DUCT/D2", "DUCT/D1"));
        foreach (var change in (Change[])[new EndTied("DUCT/D2", RunEnd.End, new(1, 6), false), new PathSet("DUCT/D2", null, [new(new(1, 4), false), new(new(1, 5), false), new(new(1, 6), false)])])
        {
            var record = Derivation.Derive(joined.Then(change));
            Assert.Equal(1, record.Runs.Count);
            Assert.Equal("Journal 2: there is no run DUCT/D2.", Assert.Single(record.Unresolved));
        }
    }

    [Fact]
    public void APointConstructedWhereThereAreNoShots_IsUnresolved() =>
        Assert.Single(Derivation.Derive(new RecordInputs(ShotTable.Empty, [], ShotsOf.Codes, [], ShotsOf.Settings).Then(new PointConstructed("P", "GROUND", null, Tape(2)))).Unresolved);

    [Fact]
    public void PartsOfAnythingButAFit_MeanNothing() =>
        Assert.Empty(Derivation.Derive(ShotsOf.Lines(Two).Then(new PointConstructed("P", "GROUND", null, Tape(2, 2, 1, 2)))).Unresolved);

    [Theory]
    [InlineData("CONTROL")]
    [InlineData("NOT-KNOWN")]
    [InlineData("GROUND")]
    [InlineData("ISLAND")]
    public void AConstructedPoint_WithTheIdOfAControlPoint_ProvesNothing(string code)
    {
        var inputs = ShotsOf.Lines(Two + "\nC1 50 50 5 CONTROL\n--- South\n9 60 60 5 GROUND").WithControl(("C1", 50, 50, 5), ("C2", 0, 0, 4));
        var before = Derivation.Derive(inputs);
        foreach (var id in (string[])["C1", "C2"])
        {
            var made = inputs.Then(new PointConstructed(id, code, null, Tape(2)));
            Assert.Equal(before.Site.CheckShots.Length, Derivation.Derive(made).Site.CheckShots.Length);
            var aside = Derivation.Derive(made.Then(new SetAside([new(0, 1)])));
            Assert.Equal(before.Shots.Used[..7].ToArray(), aside.Shots.Used[..7].ToArray());
            Assert.Equal(before.Findings.Count, aside.Findings.Count);
        }
    }

    [Fact]
    public void LabelOfAPart_ThatComesAgain_IsDecidedByItsCorrection()
    {
        var inputs = ShotsOf.Lines("--- North\n" + string.Join('\n', Enumerable.Range(0, 7).Select(i => FormattableString.Invariant($"{i + 1} {8 * i} 0 5 DUCT D1 - size={(i < 3 ? "A" : "B")}")))
            + "\n--- North\n21 32 0.2 5 DUCT D1 - size=B\n22 40 0.2 5 DUCT D1 - size=B\n23 48 0.2 5 DUCT D1 - size=B");
        var finding = Assert.Single(inputs.Find("label-comes-again"));
        Assert.Empty(inputs.Then(finding.Check.Correction(finding)!).Find("label-comes-again"));
    }

    [Fact]
    public void RoleGivenAfterAllWereTaken_IsThatRole_WhateverItsCapitals()
    {
        var inputs = ShotsOf.Lines(Two).Then(new RoleGiven("Ada", "engineer")).Then(new RoleGiven("Ada", "")).Then(new RoleGiven("Ada", "Engineer"));
        Assert.Contains("engineer", Roles.Of(inputs.Journal)["Ada"]);
    }

    [Fact]
    public void AnEndWithinAWideNode_IsAtIt()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 CHAMBER\n2 1.8 0 5 DUCT D1\n3 10 0 5 DUCT D1");
        inputs = inputs with { Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "CHAMBER" ? entry with { Width = 4 } : entry)]) };
        Assert.Single(Assert.Single(Derivation.Derive(inputs).Site.Nodes.All).Ends);
    }

    [Fact]
    public void ARing_IsClaimedOnOneLine()
    {
        var random = new Random(3);
        for (var ring = 0; ring < 40; ring++)
        {
            var lines = Enumerable.Range(0, 23).Select(i => FormattableString.Invariant($"{i + 1} {20 * Math.Sin(i * 0.27) + random.NextDouble()} {20 * Math.Cos(i * 0.27) + random.NextDouble()} 5 ISLAND I1 - trench_depth_m=1"));
            var record = Derivation.Derive(ShotsOf.Lines(string.Join('\n', lines) + "\n1 - - - ISLAND I1"));
            Assert.True(record.Runs[0].IsClosed);
            Assert.Single(ClaimTake.Of(record), line => line.Key.Kind == QuantityKind.PlanLength);
        }
    }

    [Fact]
    public void OneIdForEveryShot_StaysLinear()
    {
        var (builder, rows) = (new ShotTableBuilder(), 0);
        for (var batch = 0; batch < 20; batch++)
        {
            var first = builder.Count;
            for (var i = 0; i < 5000; i++, rows++)
                builder.Add(Encoding.UTF8.GetBytes("P"), ShotsOf.East + rows % 300 * 7, ShotsOf.North + rows / 300 * 7, 5, builder.Codes.Keep("GROUND"), -1, Leg.Straight, i + 2, -1, 638_000_000_000_000_000 + rows * 600_000_000L, 0, 0.012, 0.015);
            builder.EndBatch("f", "", first, "North", default);
        }

        var table = builder.Build();
        var used = new bool[table.Count];
        used.AsSpan().Fill(true);
        Assert.Empty(ShotVersions.Of(table, used).All);
    }
}
