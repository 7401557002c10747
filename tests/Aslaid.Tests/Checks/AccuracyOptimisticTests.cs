using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class AccuracyOptimisticTests
{
    private const string Check = "accuracy-optimistic";

    /// <summary>Every other check shot to the other side.</summary>
    private static RecordInputs Scattering(double by, bool height = false) => SessionOf.Inputs(
        (_, number) => height ? (0, 0, number % 2 == 0 ? by : -by) : (number % 2 == 0 ? by : -by, number % 4 < 2 ? by : -by, 0), [0, 1, 0, 1, 2, 3], [2, 3, 0, 1, 2, 3]);

    [Fact]
    public void Look_ScatterMoreThanStated_IsFoundWithItsFactor()
    {
        var finding = Assert.Single(Scattering(0.018).Find(Check));
        Assert.Equal(Severity.Look, finding.Severity);
        Assert.Equal(12, finding.Shots.Length);
        Assert.Equal("Check shots of crew North scatter 2.3 times as much as stated in plan (12 shots), limit 1.5: stated accuracy counts 2.6 times.", finding.Message);
    }

    [Fact]
    public void Look_InHeight_IsFound() => Assert.Contains("in height", Assert.Single(Scattering(0.04, height: true).Find(Check)).Message, StringComparison.Ordinal);

    /// <summary>One instrument is one finding. Once its stated accuracy counts as often as it must, no miss is beyond doubt.</summary>
    [Fact]
    public void Look_InPlanAndInHeight_IsFoundOnce()
    {
        var inputs = SessionOf.Inputs((_, number) => (number % 2 == 0 ? 0.15 : -0.15, number % 4 < 2 ? 0.15 : -0.15, number % 2 == 0 ? 0.14 : -0.14), [0, 1, 0, 1, 2, 3], [2, 3, 0, 1, 2, 3]);
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal(Severity.Look, finding.Severity);
        Assert.Matches(@"scatter \d+\.\d times as much as stated in plan and \d+\.\d times in height \(12 shots\), limits 1\.5 and \d\.\d: stated accuracy counts \d+\.\d and \d+\.\d times\.$", finding.Message);
        Assert.Null(finding.Under);
    }

    [Fact]
    public void Look_ScatterAsStated_IsSilent() => CheckAssert.Silent(Scattering(0.007), Check);

    [Fact]
    public void Look_OneStruckMark_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, number) => mark == 3 ? (0.1, 0.1, 0) : SessionOf.Noise(number)), Check);
}
