using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class DerivationTests
{
    private const string Ring = """
        101 0 0 5 ISLAND IS-1
        102 10 0 5 ISLAND IS-1
        103 12 2 5 ISLAND IS-1 through
        104 10 4 5 ISLAND IS-1
        105 0 4 5 ISLAND IS-1
        106 -2 2 5 ISLAND IS-1 through
        101 - - - ISLAND IS-1
        """;

    [Fact]
    public void Derive_RingOfStraightsAndArcs_MeasuresTrueArcs()
    {
        var run = Derivation.Derive(ShotsOf.Lines(Ring)).Runs[0];
        Assert.True(run.IsClosed);
        Assert.Equal(4, run.PieceCount);
        Assert.Equal(20 + 4 * Math.PI, run.PlanLength, 1e-9);
        Assert.Equal(40 + 4 * Math.PI, run.Area!.Value, 1e-8);
    }

    [Fact]
    public void Derive_FullCircle_IsOneArc()
    {
        var run = Derivation.Derive(ShotsOf.Lines("""
            1 5 0 5 ISLAND TP-1
            2 0 5 5 ISLAND TP-1 through
            3 -5 0 5 ISLAND TP-1 through
            1 - - - ISLAND TP-1
            """)).Runs[0];
        Assert.Equal(1, run.PieceCount);
        Assert.Equal(10 * Math.PI, run.PlanLength, 1e-9);
        Assert.Equal(25 * Math.PI, run.Area!.Value, 1e-8);
    }

    [Fact]
    public void Derive_InterleavedCodesWithoutLabels_ClosesNothing()
    {
        var record = Derivation.Derive(ShotsOf.Lines("""
            1 0 0 5 KERB
            2 0 1 5 EDGE
            3 5 0 5 KERB
            4 5 1 5 EDGE
            5 10 0 5 KERB - last
            6 15 0 5 KERB
            7 20 0 5 KERB - home
            """));
        Assert.Equal(["from 1/1", "from 1/2", "from 1/6"], Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run].Label));
        Assert.Equal([3, 2, 3], Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run].MemberCount));
    }

    [Fact]
    public void Derive_TwoCrewsNumberingFromOne_KeepsRunsApart()
    {
        var record = Derivation.Derive(ShotsOf.Lines("""
            --- North
            1 0 0 5 KERB KF-1
            2 5 0 5 KERB KF-1
            --- South
            1 100 0 5 KERB KF-1
            2 105 0 5 KERB KF-1
            """));
        Assert.Equal(["KERB/KF-1@North", "KERB/KF-1@South"], Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run].Key));
    }

    [Fact]
    public void Derive_SetAsideAndRestored_IsAsBefore()
    {
        var inputs = ShotsOf.Lines(Ring);
        var shot = new ShotKey(1, 4);
        var without = inputs.Then(new SetAside([shot]));
        Assert.Equal(5, Derivation.Derive(without).Runs[0].MemberCount - 1);
        Assert.Equal(Derivation.Derive(inputs).Runs[0].PlanLength, Derivation.Derive(without.Then(new Restored([shot]))).Runs[0].PlanLength);
        Assert.Equal(Derivation.Derive(inputs).Runs[0].PlanLength, Derivation.Derive(without.Then(new Withdrawn(1))).Runs[0].PlanLength);
    }

    [Fact]
    public void Derive_PathSet_GoesThroughJustTheseShots()
    {
        var inputs = ShotsOf.Lines(Ring);
        PathStep[] steps = [new(new(1, 2), false), new(new(1, 3), false), new(new(1, 5), false)];
        var run = Derivation.Derive(inputs.Then(new PathSet("ISLAND/IS-1", null, [.. steps]))).Runs[0];
        Assert.Equal("101 102 104", PathNotation.Write(run));
        Assert.False(run.IsClosed);
    }

    [Fact]
    public void Derive_PathOfNewRun_MakesIt()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Ring).Then(new PathSet("EDGE/E-9", "EDGE", [new(new(1, 2), false), new(new(1, 5), false)])));
        var run = record.Runs.Find("EDGE/E-9")!.Value;
        Assert.Equal(("E-9", "EDGE", 2), (run.Label, run.Code, run.MemberCount));
    }

    [Fact]
    public void Derive_EndTiedInstead_ClosesOnTheOtherShotAndMovesNothing()
    {
        var inputs = ShotsOf.Lines("""
            1 0 0 5 ISLAND IS-2
            2 8 0 5 ISLAND IS-2
            3 8 8 5 ISLAND IS-2
            4 0.01 0.01 5 ISLAND IS-2
            """);
        var run = Derivation.Derive(inputs.Then(new EndTied("ISLAND/IS-2", RunEnd.End, new(1, 2), Instead: true))).Runs[0];
        Assert.True(run.IsClosed);
        Assert.Equal("1 2 3 1", PathNotation.Write(run));
        Assert.Equal(0.01, run.Table.Shots.Raw.East[3] - ShotsOf.East, 1e-9);
    }

    [Fact]
    public void Derive_PoleHeightCorrected_MovesHeightsByEnteredMinusTrue()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Ring).Then(new PoleHeightCorrected([new(1, 2)], 2.0, 1.8)));
        Assert.Equal(5.2, record.Shots.HeightOf(0)!.Value, 1e-12);
        Assert.Equal([1], record.Shots.BecauseOf(0));
    }

    [Fact]
    public void Derive_RecodedToAnotherRun_LeavesItsOldOne()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Ring).Then(new Recoded([new(1, 5), new(1, 6)], "KERB", "KF-3")));
        Assert.Equal("104 105", PathNotation.Write(record.Runs.Find("KERB/KF-3")!.Value));
    }

    [Fact]
    public void Derive_RingRecoded_StaysClosed()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Ring).Then(new Recoded([.. Enumerable.Range(2, 6).Select(line => new ShotKey(1, line))], "KERB", "KF-4")));
        var run = Assert.Single(Enumerable.Range(0, record.Runs.Count).Select(number => record.Runs[number]));
        Assert.Equal(("KERB/KF-4", true), (run.Key, run.IsClosed));
    }

    [Fact]
    public void Derive_PoleHeightOfAShotNamedTwice_IsCorrectedOnce() =>
        Assert.Equal(5.2, Derivation.Derive(ShotsOf.Lines(Ring).Then(new PoleHeightCorrected([new(1, 2), new(1, 2), new(1, 8)], 2.0, 1.8))).Shots.HeightOf(0)!.Value, 1e-12);

    [Fact]
    public void Derive_EndOfARunThatIsAlsoAChamber_IsAPointToo()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 DUCT D\n2 8 0 5.5 DUCT D\n2 - - - CHAMBER"));
        var point = Assert.Single(record.Points);
        Assert.Equal(("CHAMBER", ShotsOf.East + 8, 5.5), (record.Shots.CodeOf(point), record.Shots.At(point).East, record.Shots.HeightOf(point)!.Value));
        Assert.Equal(1, record.Quantities.Single(quantity => quantity.Code == "CHAMBER").Value);
    }

    [Fact]
    public void Derive_RunOfOneShotAndHome_IsARunOfOneShot()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 KERB - home\n2 50 0 5 EDGE\n3 58 0 5 EDGE"));
        Assert.Equal(1, record.Runs[0].MemberCount);
        Assert.Contains(Enumerable.Range(0, record.Findings.Count), number => record.Findings[number].Check.Name == "single-shot-run");
    }

    [Fact]
    public void Derive_EntryThatNamesNothing_IsSaid()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Ring).Then(new SetAside([new(9, 9)])).Then(new AttributeSet("NO/RUN", "size", "1")));
        Assert.Equal(["Journal 1: there is no shot 9:9.", "Journal 2: there is no run NO/RUN."], record.Unresolved);
    }

    [Fact]
    public void Derive_HeightMissing_LeavesSlopeLengthUnknown()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 KERB K\n2 5 0 - KERB K\n3 10 0 5 KERB K")).Runs[0];
        Assert.Null(run.SlopeLength);
        Assert.Equal(10, run.PlanLength, 1e-9);
    }

    [Fact]
    public void Derive_NoAccuracy_ProvesNothing()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 KERB K u_plan=-\n2 5 0 5 KERB K")).Runs[0];
        Assert.Null(run.UPlanLength);
    }

    // Straight of two independent shots: u² = u1² + u2² per axis along it (JCGM 100:2008, 5.1.2); radial 12 mm is 8.485 mm per axis.
    [Fact]
    public void Derive_StraightOfTwoShots_HasTheirAccuracyInQuadrature()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 KERB K\n2 3 4 5 KERB K")).Runs[0];
        Assert.Equal(0.012, run.UPlanLength!.Value, 1e-12);
    }

    [Fact]
    public void Derive_ThroughShotOnTheChord_IsNoArcAndSaysSo()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 KERB K\n2 5 0.01 5 KERB K through\n3 10 0 5 KERB K"));
        Assert.Equal(2, record.Runs[0].PieceCount);
        Assert.Equal(ArcDoubtKind.NotProven, Assert.Single(record.Runs.Doubts).Kind);
    }

    [Fact]
    public void Derive_AnyNumberOfWorkers_GivesTheSameBits()
    {
        var inputs = SampleInputs.Of(SampleSites.OfSize(20_000, 3));
        var (one, many) = (Derivation.Derive(inputs), Derivation.Derive(inputs, ParallelWorkers.Instance));
        Assert.Equal(Bits(one), Bits(many));
        Assert.NotEmpty(Bits(one));
    }

    [Fact]
    public void Derive_DecimalCommaCulture_GivesTheSameBits()
    {
        var inputs = SampleInputs.Of(SampleSites.WithMistakes(2));
        var expected = Bits(Derivation.Derive(inputs));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            Assert.Equal(expected, Bits(Derivation.Derive(inputs)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    /// <summary>Every number of the record to the bit, and every text.</summary>
    private static List<string> Bits(AsBuiltRecord record)
    {
        var bits = new List<string>();
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            bits.Add($"{run.Key} {Hex(run.PlanLength)} {Hex(run.UPlanLength)} {Hex(run.SlopeLength)} {Hex(run.Area)} {Hex(run.UArea)}");
            for (var piece = 0; piece < run.PieceCount; piece++) bits.Add(Hex(run.Piece(piece).URadius));
        }

        for (var number = 0; number < record.Findings.Count; number++)
            bits.Add($"{record.Findings[number].Id} {Hex(record.Findings[number].Measured)} {record.Findings[number].Message} {record.Findings[number].Cure}");
        bits.AddRange(record.Quantities.Select(q => $"{q.Code} {q.Kind} {Hex(q.Value)} {Hex(q.U)}"));
        bits.AddRange(record.Holds.Select(h => $"{h.Run} {Hex(h.From)} {Hex(h.To)} {h.State} {string.Join(',', h.By)}"));
        return bits;
    }

    private static string Hex(double? value) => value is { } known ? BitConverter.DoubleToInt64Bits(known).ToString("x16", CultureInfo.InvariantCulture) : "null";
}
