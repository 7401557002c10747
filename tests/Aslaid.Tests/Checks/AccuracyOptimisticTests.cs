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
        Assert.Equal("Check shots of crew North scatter 2.4 times as much as stated in plan (12 shots), limit 1.5: stated accuracy counts 2.6 times.", finding.Message);
    }

    [Fact]
    public void Look_InHeight_IsFound() => Assert.Contains("in height", Assert.Single(Scattering(0.04, height: true).Find(Check)).Message, StringComparison.Ordinal);

    [Fact]
    public void Look_ScatterAsStated_IsSilent() => CheckAssert.Silent(Scattering(0.007), Check);

    [Fact]
    public void Look_OneStruckMark_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, number) => mark == 3 ? (0.1, 0.1, 0) : SessionOf.Noise(number)), Check);
}
