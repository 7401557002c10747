using Aslaid.Testing;

namespace Aslaid.Tests;

public class SharesTests
{
    /// <summary>No hit in n tries: (1 − p)ⁿ = 0.05, in closed form.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(200)]
    [InlineData(1000)]
    public void UpperBound_NoHit_IsTheClosedForm(int tries) => Assert.Equal(1 - Math.Pow(0.05, 1.0 / tries), Shares.UpperBound(0, tries), 1e-7);

    [Fact]
    public void UpperBound_AsManyHitsAsTries_IsOne() => Assert.Equal(1, Shares.UpperBound(5, 5));

    /// <summary>All but one: 1 − pⁿ = 0.05.</summary>
    [Fact]
    public void UpperBound_AllButOne_IsTheClosedForm() => Assert.Equal(Math.Pow(0.95, 1.0 / 20), Shares.UpperBound(19, 20), 1e-7);

    [Fact]
    public void UpperBound_MoreHits_IsHigher() => Gen.Select(Gen.Int[1, 300], Gen.Int[0, 299]).Where(g => g.Item2 < g.Item1).Sample(g =>
        Shares.UpperBound(g.Item2 + 1, g.Item1) > Shares.UpperBound(g.Item2, g.Item1) && Shares.UpperBound(g.Item2, g.Item1) > (double)g.Item2 / g.Item1);

    [Fact]
    public void SizeFound_BetweenTwoSizes_IsInterpolated() =>
        Assert.Equal(1.4, Shares.SizeFound([(1, 0.5), (1.25, 0.9), (1.5, 0.9 + (0.05 / 0.6)), (2, 1)])!.Value, 1e-9);

    [Fact]
    public void SizeFound_LostAgainAbove_IsNone() => Assert.Null(Shares.SizeFound([(1, 0.5), (2, 1), (3, 0.8)]));

    [Fact]
    public void SizeFound_FoundAtEverySize_IsNone() => Assert.Null(Shares.SizeFound([(1, 1), (2, 1)]));
}
