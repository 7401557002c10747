using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class PoleHeightByDesignTests
{
    private const string Check = "pole-height-by-design";

    private static RecordInputs Runs(double off, string pole = "pole=2.0") => DesignOf.Lines(string.Join('\n', Enumerable.Range(0, 18).Select(i =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{i + 1} {6 * (i % 6)} {10 * (i / 6)} {5 + (i is >= 9 and < 16 ? off : 0):F3} PIPE P{i / 6} straight {pole}"))))
        .WithDesign("PIPE W0 0 0 5; 30 0 5\nPIPE W1 0 10 5; 30 10 5\nPIPE W2 0 20 5; 30 20 5");

    [Fact]
    public void Look_ABlockOverTwoRuns_IsFoundWithACorrection()
    {
        var finding = CheckAssert.Single(Runs(0.2), Check, Severity.Stop, "10", "11", "12", "13", "14", "15", "16");
        Assert.Equal("7 shots one after the other (10, 11, 12, 13, 14, 15 and 1 more) lie 0.200 m above the design, each alike, while 11 others of the session are right: was the pole height another?", finding.Message);
        var pole = Assert.IsType<PoleHeightCorrected>(finding.Correction);
        Assert.Equal((2.0, 2.2), (pole.Entered, Math.Round(pole.True, 6)));
        CheckAssert.CuredByItsCorrection(Runs(0.2), Check);
    }

    [Fact]
    public void Look_NoPoleRecorded_IsFoundWithoutACorrection() => Assert.Null(CheckAssert.Single(Runs(-0.2, ""), Check, Severity.Stop, "10", "11", "12", "13", "14", "15", "16").Correction);

    [Fact]
    public void Look_LaidAsDesigned_IsSilent() => CheckAssert.Silent(Runs(0), Check);

    [Fact]
    public void Look_OneWholeRunOff_IsSilent() => CheckAssert.Silent(DesignOf.Lines(string.Join('\n', Enumerable.Range(0, 12).Select(i =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{i + 1} {6 * (i % 6)} {10 * (i / 6)} {5 + (i >= 6 ? 0.3 : 0):F3} PIPE P{i / 6}")))).WithDesign("PIPE W0 0 0 5; 30 0 5\nPIPE W1 0 10 5; 30 10 5"), Check);
}
