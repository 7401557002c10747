using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class CoordinatesRoundedTests
{
    private const string Check = "coordinates-rounded";

    /// <summary>Shots on a kerb at figures that are multiples of just these steps.</summary>
    private static RecordInputs Kerb(double plan, double height, int count = 12, string code = "KERB K1") => ShotsOf.Lines(string.Join('\n', Enumerable.Range(1, count).Select(i =>
        string.Create(CultureInfo.InvariantCulture, $"{i} {plan * Math.Round((4.137 * i + 0.0031 * i * i) / plan):F3} {plan * Math.Round(0.217 * i / plan):F3} {height * Math.Round((5 + 0.0137 * i) / height):F3} {code}"))));

    [Fact]
    public void Look_DecimetreInPlan_IsFound()
    {
        var finding = Assert.Single(Kerb(0.1, 0.001).Find(Check));
        Assert.Equal(Severity.Stop, finding.Severity); // 2.448 × 28.9 mm is over 50 mm by itself
        Assert.Equal("East and north of batch 1 (shots-1.csv) are rounded to 0.1 m (100 % of 12 shots), 0.001 m expected: that alone is a standard uncertainty of 0.0289 m.", finding.Message);
        Assert.Equal(Reshoot.None, finding.Reshoot);
    }

    [Fact]
    public void Look_CentimetreWithinWideLimits_IsFoundAsANote()
    {
        var finding = Assert.Single(Kerb(0.01, 0.01).Find(Check));
        Assert.Equal(Severity.Note, finding.Severity);
        Assert.StartsWith("East and north of batch 1 (shots-1.csv) are rounded to 0.01 m, heights to 0.01 m (100 %", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_CentimetreHeightsUnderATightLimit_IsFoundAsALook()
    {
        var inputs = Kerb(0.001, 0.01);
        var tight = inputs with { Codes = new([new("KERB", CodeKind.Line) { Height95Max = 0.010 }]) };
        Assert.Equal(Severity.Look, Assert.Single(tight.Find(Check)).Severity); // 1.96 · 0.01/√12 is 0.0057 m
    }

    [Fact]
    public void Look_OneFinerValueOfMany_IsFound()
    {
        var lines = string.Join('\n', Enumerable.Range(1, 40).Select(i => FormattableString.Invariant($"{i} {4.1 * i:F1} {0.3 * i:F1} {5 + 0.0137 * i:F3} GROUND")));
        Assert.Equal(40 / 41.0, Assert.Single(ShotsOf.Lines(lines + "\n41 1.234 2.345 5.123 GROUND").Find(Check)).Figures[1], 1e-12);
    }

    [Fact]
    public void Look_MillimetresOrFewShots_IsSilent()
    {
        CheckAssert.Silent(Kerb(0.001, 0.001), Check);
        CheckAssert.Silent(Kerb(0.1, 0.1, count: 7), Check);
    }

    [Fact]
    public void Look_ReadOffRecords_IsSilent() => CheckAssert.Silent(Kerb(1, 1, code: "KERB K1 straight seen=records"), Check);
}
