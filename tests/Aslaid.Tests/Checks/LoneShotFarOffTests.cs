using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class LoneShotFarOffTests
{
    private const string Check = "lone-shot-far-off";

    private const string Far = """
        1 0 0 5 GROUND
        2 60 0 5 GROUND
        3 60 300 5 GROUND
        """;

    private const string Spike = """
        1 0 0 5 DUCT D1
        2 4 0 5 DUCT D1
        3 8 0 5 DUCT D1
        4 10 40 5 DUCT D1
        5 12 0 5 DUCT D1
        6 16 0 5 DUCT D1
        7 20 0 5 DUCT D1
        """;

    /// <summary>The search by cells finds what comparing all with all finds.</summary>
    [Fact]
    public void Look_AnyPoints_FindsTheLoneOnesThatComparingAllFinds() =>
        Gen.Select(Gen.Double[-400, 400], Gen.Double[-400, 400]).Array[2, 25].Sample(places =>
        {
            var inputs = ShotsOf.Lines(string.Join('\n', places.Select((p, i) => FormattableString.Invariant($"{i + 1} {p.Item1:F3} {p.Item2:F3} 5 GROUND"))));
            var raw = inputs.Shots;
            var expected = Enumerable.Range(0, raw.Count).Where(a => Enumerable.Range(0, raw.Count).All(b => a == b || raw[a].At.DistanceTo(raw[b].At) > 100)).Select(raw.Id);
            return inputs.Find(Check).Select(finding => finding.ShotIds[0]).SequenceEqual(expected);
        }, iter: 300);

    [Fact]
    public void Look_FarFromAll_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Far), Check, Severity.Stop, "3");
        Assert.Equal(300, finding.Measured!.Value, 1e-6);
        CheckAssert.CuredByItsCorrection(ShotsOf.Lines(Far), Check);
    }

    [Fact]
    public void Look_OnAnotherContinent_IsFound() => CheckAssert.Single(
        ShotsOf.Lines("1 0 0 5 GROUND\n2 9 0 5 GROUND\n3 5731000 -5731000 5 GROUND"), Check, Severity.Stop, "3");

    [Fact]
    public void Look_SticksOutOfItsRun_IsFoundWithItsRange()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Spike), Check, Severity.Stop, "4");
        Assert.Equal(8, finding.From!.Value, 1e-6);
        Assert.Equal("D1", finding.Run!.Value.Label);
        CheckAssert.CuredByItsCorrection(ShotsOf.Lines(Spike), Check);
    }

    [Fact]
    public void Look_ABendThatTurnsBack_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 2 0 5 DUCT D1\n3 4 0 5 DUCT D1\n4 8 8 5 DUCT D1\n5 6 0 5 DUCT D1\n6 4 -2 5 DUCT D1"), Check);

    [Fact]
    public void Look_NeighboursWithinReach_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND\n2 99 0 5 GROUND\n3 198 0 5 GROUND"), Check);

    [Fact]
    public void Look_OneShotAlone_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND"), Check);
}
