using System.Collections.Immutable;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ConstructedPointTests
{
    private const string Scene = """
        101 0 0 5 DUCT D1
        102 10 0 5.2 DUCT D1
        103 20 1 5.1 DUCT D1
        201 4 -8 5 GROUND
        202 6 9 6 GROUND
        """;

    private static Construction How(ConstructionKind kind, int[] lines, int side = 0, params ReadOnlySpan<double> readings)
    {
        var read = ImmutableArray.CreateBuilder<Reading>();
        foreach (var value in readings) read.Add(new(value, kind == ConstructionKind.BearingAndDistance && read.Count == 0 ? 0.002 : 0.005));
        return new(kind, [.. lines.Select(line => new ShotKey(line > 0 ? 1 : 0, Math.Abs(line)))], read.ToImmutable(), side, []);
    }

    private static Construction[] Kinds { get; } =
    [
        How(ConstructionKind.Tape, [2], 0, -0.45),
        How(ConstructionKind.Offset, [2, 3], 0, 4, 1.5, 0.3),
        How(ConstructionKind.TwoDistances, [2, 3], 1, 6.5, 7.5),
        How(ConstructionKind.LineWithLine, [2, 3, 5, 6]),
        How(ConstructionKind.BearingAndDistance, [5], 0, 1.1, 6, -0.2),
        How(ConstructionKind.Tape, [-1], 0, -1), // below the point that entry 1 made
    ];

    private static Place3 Made(Construction how, Func<int, Place3> at, Func<int, double> reading) => how.Kind switch
    {
        ConstructionKind.Tape => Of(Constructed.Tape(at(0), reading(0))),
        ConstructionKind.BearingAndDistance => Of(Constructed.ByBearing(at(0), reading(0), reading(1), reading(2))),
        ConstructionKind.Offset => Constructed.TryOffset(at(0), at(1), reading(0), reading(1), reading(2), out var place, out _) ? Of(place!) : default,
        ConstructionKind.TwoDistances => Constructed.TryTwoDistances(at(0), at(1), reading(0), reading(1), how.Side, out var place, out _) ? Of(place!) : default,
        _ => Constructed.TryLineWithLine(at(0), at(1), at(2), at(3), out var place, out _) ? Of(place!) : default,
    };

    private static Place3 Of(ConstructedPlace place) => new(place.At, place.Height);

    /// <summary>Shots, what their session has in common, and readings drawn 100 000 times: within 2 % of what is propagated.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Uncertainty_IsThatOfAMonteCarlo(int kind)
    {
        var inputs = ShotsOf.Lines(Scene).Then(new PointConstructed("P0", "GROUND", null, Kinds[kind == 5 ? 1 : kind]));
        if (kind == 5) inputs = inputs.Then(new PointConstructed("P1", "GROUND", null, Kinds[5]));
        var record = Derivation.Derive(inputs);
        Assert.Empty(record.Unresolved);
        var row = record.Shots.Count - 1;
        var draws = new MonteCarlo(Derivation.Derive(ShotsOf.Lines(Scene)), 11); // of measured shots only
        var random = new Random(5);
        draws.Still();
        var still = Draw(_ => 0);
        Assert.Equal(0, (still.At - record.Shots.At(row)).Size, 1e-8);
        Assert.Equal(record.Shots.HeightOf(row)!.Value, still.Height!.Value, 1e-9);
        var sums = new double[3];
        for (var draw = 0; draw < MonteCarlo.Draws; draw++)
        {
            draws.Draw();
            var off = Draw(u => u * Normal(random));
            double[] parts = [off.At.East - still.At.East, off.At.North - still.At.North, off.Height!.Value - still.Height.Value];
            for (var i = 0; i < 3; i++) sums[i] += parts[i] * parts[i];
        }

        double[] propagated = [U(new(row, 1, 0, 0)), U(new(row, 0, 1, 0)), U(new(row, 0, 0, 1))];
        for (var i = 0; i < 3; i++) Assert.Equal(1, Math.Sqrt(sums[i] / MonteCarlo.Draws) / propagated[i], 0.02);

        double U(ShotTerm term) => ShotMeasure.Of(0, [term]).U(record.Shots)!.Value;

        Place3 Draw(Func<double, double> noise)
        {
            var how = Kinds[kind == 5 ? 1 : kind];
            Place3 At(int parent) => record.Shots.Raw.Find(how.Parents[parent]) is var shot ? new(draws.At(shot), draws.Height[shot]) : default;
            var place = Made(how, At, reading => how.Readings[reading].Value + noise(how.Readings[reading].U));
            return kind == 5 ? new(place.At, place.Height + Kinds[5].Readings[0].Value + noise(0.005)) : place;
        }
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble());

    [Fact]
    public void OnARun_IsItsNextShot_AndItsLengthCarriesTheReadings()
    {
        var inputs = ShotsOf.Lines(Scene);
        var made = inputs.Then(new PointConstructed("104", "DUCT", "D1", How(ConstructionKind.Offset, [3, 4], 0, 15, 0, -0.2)));
        var (record, before) = (Derivation.Derive(made), Derivation.Derive(inputs));
        Assert.Equal("101 102 103 104", PathNotation.Write(record.Runs[0]));
        Assert.Equal("0:1", record.Shots.Raw.Key(record.Runs[0].Members[^1]).ToString());
        Assert.False(record.Shots.IsShot(record.Shots.Count - 1));
        Assert.True(record.Runs[0].UPlanLength > 0);
        Assert.Equal(before.Runs[0].PlanLength, Derivation.Derive(made.Then(new Withdrawn(1))).Runs[0].PlanLength);
        Assert.Equal(before.Runs[0].UPlanLength, Derivation.Derive(made.Then(new Withdrawn(1))).Runs[0].UPlanLength);
        Assert.Equal(before.Shots.Count, Derivation.Derive(made.Then(new Withdrawn(1))).Shots.Count);
    }

    [Fact]
    public void OnARunOfTwoBatches_IsNoLabelThatComesAgain()
    {
        var inputs = ShotsOf.Lines("--- N\n1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n--- N\n3 16 0 5 DUCT D1\n4 24 0 5 DUCT D1").Then(new PointConstructed("5", "DUCT", "D1@N", How(ConstructionKind.Offset, [2, 3], 0, 32, 0, 0)));
        Assert.Empty(Derivation.Derive(inputs).Unresolved);
        Assert.Equal("1 2 3 4 5", PathNotation.Write(Derivation.Derive(inputs).Runs[0]));
        Assert.Empty(inputs.Find("label-comes-again"));
        Assert.Empty(inputs.Find("shots-out-of-order"));
    }

    [Theory]
    [InlineData(ConstructionKind.TwoDistances, new[] { 2, 3 }, "the two distances do not meet")]
    [InlineData(ConstructionKind.Tape, new[] { 99 }, "there is no shot 1:99")]
    [InlineData(ConstructionKind.Tape, new[] { -1 }, "0:1 is constructed later")]
    [InlineData(ConstructionKind.Offset, new[] { 2 }, "it needs 2 shots and names 1")]
    [InlineData(ConstructionKind.LineWithLine, new[] { 2, 3, 2, 3 }, "nothing tells where they meet")]
    public void WhatCannotBeMade_IsUnresolvedAndCountsNowhere(ConstructionKind kind, int[] parents, string problem)
    {
        var record = Derivation.Derive(ShotsOf.Lines(Scene).Then(new PointConstructed("X", "DUCT", "D1", How(kind, parents, 1, 1, 1))));
        Assert.Contains(problem, Assert.Single(record.Unresolved), StringComparison.Ordinal);
        Assert.Equal("101 102 103", PathNotation.Write(record.Runs[0]));
    }

    [Fact]
    public void AParentSetAside_TakesThePointWithIt()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Scene).Then(new PointConstructed("X", "GROUND", null, Kinds[0])).Then(new SetAside([new(1, 2)])));
        Assert.Contains("1:2 is set aside", Assert.Single(record.Unresolved), StringComparison.Ordinal);
        Assert.DoesNotContain(record.Shots.Count - 1, record.Points);
    }

    [Fact]
    public void APoleHeightCorrected_MovesWhatHangsOnTheShot()
    {
        var inputs = ShotsOf.Lines(Scene).Then(new PointConstructed("X", "GROUND", null, Kinds[0])).Then(new PoleHeightCorrected([new(1, 2)], 2, 1.8));
        Assert.Equal(5.2 - 0.45, Derivation.Derive(inputs).Shots.HeightOf(5)!.Value, 1e-9);
    }

    /// <summary>Straight, arc and straight through 31 shots: the run goes by the tangent points, tangentially.</summary>
    [Fact]
    public void Tangents_OfAKerb_GiveItsTrueArc()
    {
        var lines = new List<string>();
        for (var i = 0; i < 10; i++) lines.Add(FormattableString.Invariant($"{i + 1} {-20 + 2 * i} 0.004 5 KERB K1"));
        for (var i = 1; i < 10; i++) lines.Add(FormattableString.Invariant($"{10 + i} {12 * Math.Sin(0.1 * i * Math.PI / 2):F4} {12 - 12 * Math.Cos(0.1 * i * Math.PI / 2):F4} 5 KERB K1"));
        for (var i = 1; i <= 10; i++) lines.Add(FormattableString.Invariant($"{20 + i} 12.003 {12 + 2 * i} 5 KERB K1"));
        var inputs = ShotsOf.Lines(string.Join('\n', lines));
        var run = Derivation.Derive(inputs).Runs[0];
        ImmutableArray<ShotKey> all = [.. run.Members.ToArray().Select(run.Table.Shots.Raw.Key)];
        foreach (var (id, kind) in new[] { ("TS", ConstructionKind.TangentStart), ("TM", ConstructionKind.TangentMiddle), ("TE", ConstructionKind.TangentEnd) })
            inputs = inputs.Then(new PointConstructed(id, "KERB", null, new(kind, all, [], 0, [10, 9, 10])));
        inputs = inputs.Then(new PathSet(run.Key, null, [new(all[0], false), new(new(0, 1), false), new(new(0, 2), true), new(new(0, 3), false), new(all[^1], false)]));
        var record = Derivation.Derive(inputs);
        Assert.Empty(record.Unresolved);
        Assert.Equal(1, record.Runs.Count); // the three points are no run by themselves
        Assert.Equal(3, record.Runs[0].PieceCount);
        Assert.Equal(12, record.Runs[0].Piece(1).Arc.Radius, 0.01);
        Assert.Equal(20 + 6 * Math.PI + 20, record.Runs[0].PlanLength, 0.02);
        Assert.InRange(record.Runs[0].Piece(1).URadius!.Value, 0.001, 0.05);
        Assert.Empty(Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number]).Where(finding => finding.Check.Name is "shot-on-no-path" or "tangent-break" or "shots-too-far-apart").Select(finding => finding.Message));
    }
}
