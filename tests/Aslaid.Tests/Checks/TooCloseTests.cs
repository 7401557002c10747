using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class TooCloseTests
{
    private const string Check = "too-close";

    private static RecordInputs Crossing(double height) => DesignOf.Lines(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n3 10 -10 {height:F3} CABLE C1\n4 10 10 {height:F3} CABLE C1"));

    [Fact]
    public void Look_CrossingTooNear_IsFound()
    {
        var finding = CheckAssert.Single(Crossing(5.2), Check, Severity.Stop, "3", "1"); // underside of the cable 5.1, top of the pipe 5.0
        Assert.Equal("C1 crosses over P1 at 10.0 m (there 10.0 m): 0.100 m ± 0.029 m clear, least 0.300 m (default: 12 in of a joint trench, damage-prevention practice 2.12).", finding.Message);
        Assert.True(finding.Check.NeedsAnother);
    }

    [Fact]
    public void Look_ClearCrossing_IsSilent() => CheckAssert.Silent(Crossing(5.6), Check);

    [Fact]
    public void Look_Alongside_IsFoundInSpace()
    {
        var finding = Assert.Single(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n3 0 0.3 5 CABLE C1\n4 20 0.3 5 CABLE C1").Find(Check));
        Assert.Equal(Math.Sqrt(0.3 * 0.3 + 0.05 * 0.05) - 0.15, finding.Measured!.Value, 1e-9); // centres 4.90 and 4.95
        Assert.StartsWith("P1 runs beside C1", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_OneInTheOther_IsSilent() => CheckAssert.Silent(Crossing(5.2).Then(new RelationSet("CABLE/C1", RunRelation.In, "PIPE/P1")), Check);

    [Fact]
    public void Look_NoRuleForThePair_IsSilent() => CheckAssert.Silent(Crossing(5.2) with { Separation = new([]) }, Check);

    [Fact]
    public void Look_HeightMissing_IsFoundAsALook() => Assert.Contains("a height or a size is missing", Assert.Single(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n3 10 -10 - CABLE C1\n4 10 10 - CABLE C1").Find(Check)).Message, StringComparison.Ordinal);
}
