using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class RunRequirementsTests
{
    private static readonly CodeBook Codes = new(
    [
        new("DRAIN", CodeKind.Line) { FallMinPercent = 0.5 },
        new("KERB", CodeKind.Line) { TangentBreakMaxDegrees = 10 },
    ]);

    private static Judged[] Of(string lines, string requirement) =>
        [.. Judgements.Of(Derivation.Derive(ShotsOf.Lines(lines) with { Codes = Codes })).Where(judged => judged.Requirement.Name == requirement)];

    [Fact]
    public void Fall_OfADrainShotUpstream_IsReadAlongTheFlow()
    {
        var judged = Of("1 0 0 4.80 DRAIN D straight u_height=0.002\n2 10 0 4.91 DRAIN D straight u_height=0.002\n3 20 0 - DRAIN D\n4 30 0 5 DRAIN D straight u_height=0.002", "fall");
        Assert.Equal([1.1, 0.45], judged.Select(one => Math.Round(one.Judgement.Value!.Value, 6)));
        Assert.Equal([true, false], judged.Select(one => one.Judgement.Within));
        Assert.Equal(Verdict.Conforms, judged[0].Judgement.Verdict);
        Assert.Equal((10, 30), (judged[1].From, judged[1].To));
    }

    [Fact]
    public void Fall_OfLevelEnds_IsNotProven() => Assert.Equal(
        [Verdict.NotProven], Of("1 0 0 5 DRAIN D\n2 10 0 5.001 DRAIN D", "fall").Select(one => one.Judgement.Verdict));

    [Fact]
    public void TangentBreak_OfASharpJoin_DoesNotConform()
    {
        var judged = Of("1 -10 0 5 KERB K\n2 0 0 5 KERB K\n3 10 0 5 KERB K\n4 10 8 5 KERB K through\n5 2 8 5 KERB K", "tangent-break");
        Assert.Equal([Verdict.DoesNotConform], judged.Select(one => one.Judgement.Verdict)); // the corner of straights is not asked
        Assert.Equal(20, judged[0].From);
    }
}
