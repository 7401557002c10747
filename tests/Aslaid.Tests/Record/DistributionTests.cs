using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Against tables: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1 (normal) and 1.3.6.7.4 (χ²), digits from memory and recomputed.</summary>
public sealed class DistributionTests
{
    [Theory]
    [InlineData(1, 0.841344746068543)]
    [InlineData(1.959963984540054, 0.975)]
    [InlineData(2.5, 0.993790334674224)]
    [InlineData(3, 0.998650101968370)]
    [InlineData(-4.5, 3.39767312473006e-6)]
    public void Normal_Below_IsAsTheTable(double z, double p) => Assert.Equal(1, Normal.Below(z) / p, 1e-12);

    [Theory]
    [InlineData(3.841458820694124, 1, 0.05)]
    [InlineData(5.991464547107979, 2, 0.05)]
    [InlineData(13.815510557964274, 2, 0.001)]
    [InlineData(22.457744484825323, 6, 0.001)]
    [InlineData(124.342113404004, 100, 0.05)]
    public void ChiSquared_Limit_IsAsTheTable(double sum, int freedom, double p)
    {
        Assert.Equal(p, ChiSquared.Above(sum, freedom), 1e-9);
        Assert.Equal(sum, ChiSquared.Limit(p, freedom), 1e-6);
    }

    [Fact]
    public void Normal_Quantile_TurnsBelowRound() => Gen.Double[-8, 8].Sample(z => Assert.Equal(z, z > 0 ? -Normal.Quantile(Normal.Above(z)) : Normal.Quantile(Normal.Below(z)), 1e-9));

    [Fact]
    public void Normal_BothTails_AreOne() => Gen.Double[-10, 10].Sample(z => Assert.Equal(1, Normal.Below(z) + Normal.Above(z), 1e-14));

    [Fact]
    public void AlarmBudget_OfDesign_IsMet()
    {
        Assert.Equal(4.9, AlarmBudget.Sigmas(600), 0.1);
        Assert.Equal(3, AlarmBudget.Sigmas(0) is var few && few >= 3 ? 3 : few);
    }
}
