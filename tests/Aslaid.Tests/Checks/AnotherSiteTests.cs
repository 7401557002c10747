using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class AnotherSiteTests
{
    private const string Check = "another-site";

    [Fact]
    public void Look_FarFromControl_IsFound()
    {
        var finding = BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e + 61_000, n - 3_000, h)).WithMarks(), Check);
        Assert.StartsWith("Batch 2 (shots-2.csv) lies 60.", finding.Message, StringComparison.Ordinal);
        Assert.EndsWith("limit 5.0 km: it is of another site, or in another grid.", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_FarFromTheOtherFile_IsFoundForTheLater() => BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e - 999_000, n, h)), Check);

    [Fact]
    public void Look_SeveralSessions_IsFoundOnceAndHoldsEachOfThem()
    {
        var inputs = ShotsOf.Lines("""
            1 0 0 5 GROUND
            --- South
            1 90000 0 5 KERB K1 straight setup=A
            2 90005 0 5 KERB K1 straight setup=A
            3 90000 9 5 EDGE E1 straight setup=B
            4 90005 9 5 EDGE E1 straight setup=B
            """).WithControl(("M1", 0, 0, 5));
        CheckAssert.Single(inputs, Check, Severity.Stop, "1", "3");
        Assert.All(Derivation.Derive(inputs).Holds, hold => Assert.Equal(HoldState.Held, hold.State));
    }

    [Fact]
    public void Look_LongJobFromFileToFile_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines(string.Join("\n--- North\n", Enumerable.Range(0, 9).Select(i => $"{i}1 {4000 * i} 0 5 GROUND\n{i}2 {4000 * i + 9} 0 5 GROUND"))).WithControl(("M1", 0, 0, 5)), Check);

    [Fact]
    public void Look_OneFileAlone_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 900000 0 5 GROUND\n2 900005 0 5 GROUND"), Check);

    [Fact]
    public void Look_LoneShotFarOff_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND\n2 5 0 5 GROUND\n3 90000 0 5 GROUND").WithControl(("M1", 0, 0, 5)), Check);
}
