using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class RunMeasuresTests
{
    private static string Arcs(int arcs, int from, string label) => string.Join('\n', Enumerable.Range(0, 2 * arcs + 1).Select(i =>
        string.Create(CultureInfo.InvariantCulture, $"{label}{i} {(from + i) * 4} {(i % 2 == 1 ? 1 + 0.1 * (from + i) : 0)} 5 KERB {label} {(i % 2 == 1 ? "through" : "straight")}")));

    [Fact]
    public void URadius_ArcWithinARun_IsThatOfTheArcAlone()
    {
        var together = Derivation.Derive(ShotsOf.Lines(Arcs(5, 0, "A"))).Runs[0];
        Assert.Equal(5, together.PieceCount);
        for (var arc = 0; arc < 5; arc++)
        {
            var alone = Derivation.Derive(ShotsOf.Lines(Arcs(1, 2 * arc, "A"))).Runs[0];
            Assert.NotNull(alone.Piece(0).URadius);
            Assert.Equal(alone.Piece(0).URadius, together.Piece(arc).URadius);
        }
    }

    [Fact]
    public void MemberAt_AnyChainage_IsTheSameAsWalkingThere()
    {
        var run = Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE E\n2 4 0 5 EDGE E\n3 4 0 5 EDGE E\n4 4 0 5 EDGE E\n5 9 0 5 EDGE E")).Runs[0];
        Gen.OneOf(Gen.Double[-2, 12], Gen.Int[-1, 10].Select(i => (double)i)).Sample(chainage =>
        {
            var member = 0;
            while (member + 1 < run.MemberCount && run.Chainages[member + 1] <= chainage) member++;
            return run.MemberAt(chainage) == member;
        });
    }
}
