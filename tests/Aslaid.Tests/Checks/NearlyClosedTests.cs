using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class NearlyClosedTests
{
    private const string Check = "nearly-closed";

    private static string Ring(string end) => $"1 0 0 5 KERB K1\n2 6 0 5 KERB K1\n3 6 4 5 KERB K1\n4 0 4 5 KERB K1\n5 {end} 5 KERB K1";

    [Fact]
    public void Look_EndBesideStart_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines(Ring("0 0.03"));
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "1", "5");
        Assert.Equal("K1 ends 0.030 m beside its first shot 1; within 0.050 m they may be one place.", finding.Message);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        Assert.True(Derivation.Derive(inputs.Then(finding.Correction!)).Runs[0].IsClosed);
    }

    [Fact]
    public void Look_GoodShots_IsFoundOnlyWithinTheirUncertainty()
    {
        string Good(string end) => string.Join('\n', Ring(end).Split('\n').Select(line => line + " - u_plan=0.006"));
        CheckAssert.Single(ShotsOf.Lines(Good("0 0.025")), Check, Severity.Look, "1", "5"); // 3 × 0.006 × √2 = 0.0255
        CheckAssert.Silent(ShotsOf.Lines(Good("0 0.026")), Check);
    }

    [Fact]
    public void Look_ClosedOrPlainlyOpen_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines(Ring("0 0.06")), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 6 0 5 KERB K1\n3 6 4 5 KERB K1\n1 - - - KERB K1"), Check);
    }

    [Fact]
    public void Look_ThereAndBack_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 6 0 5 KERB K1\n3 0 0.02 5 KERB K1"), Check);
}
