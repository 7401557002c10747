using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ShotsTooFarApartTests
{
    private const string Check = "shots-too-far-apart";

    private static RecordInputs Duct(string gap, string code = "DUCT") => ShotsOf.Lines($"1 0 0 5 {code} D1\n2 8 0 5 {code} D1\n3 {gap} 0 5 {code} D1");

    [Fact]
    public void Look_PlainlyTooFar_IsFoundWithRange()
    {
        var finding = CheckAssert.Single(Duct("28"), Check, Severity.Stop, "2", "3");
        Assert.Equal("No shot for 20.000 m on D1 from 8.0 m to 28.0 m (2 to 3), limit 10.000 m.", finding.Message);
        Assert.Equal("Shoot 1 more between 2 and 3.", finding.Cure);
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_ALittleTooFar_IsFoundAsALook() => CheckAssert.Single(Duct("19"), Check, Severity.Look, "2", "3");

    [Fact]
    public void Look_WithoutNeedOfProof_IsFoundAsALook() => CheckAssert.Single(Duct("28", "KERB"), Check, Severity.Look, "2", "3");

    [Fact]
    public void Look_LongArcBetweenMembers_IsFound() => CheckAssert.Single(
        ShotsOf.Lines("1 0 0 5 DUCT D1\n2 5.7063 7.8541 5 DUCT D1 through\n3 0 12 5 DUCT D1"), Check, Severity.Look, "1", "2");

    [Fact]
    public void Look_AtTheLimit_IsSilent() => CheckAssert.Silent(Duct("18"), Check);

    [Fact]
    public void Look_CodeWithoutSpacing_IsSilent() => CheckAssert.Silent(Duct("58", "EDGE"), Check);

    [Fact]
    public void Look_LegOfAWrongCode_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(CodeNotChangedTests.DuctThenKerb), Check);
}
