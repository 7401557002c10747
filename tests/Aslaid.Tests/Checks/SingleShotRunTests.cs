using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class SingleShotRunTests
{
    private const string Check = "single-shot-run";

    [Fact]
    public void Look_OneShot_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 KERB K1\n2 5 0 5 KERB K1\n3 9 9 5 KERB K2"), Check, Severity.Stop, "3");
        Assert.Equal("K2 (KERB) has only shot 3.", finding.Message);
    }

    [Fact]
    public void Look_GivenTheRightLabel_IsCured()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 KERB K1\n2 5 0 5 KERB K1\n3 9 0 5 KERB K2");
        CheckAssert.Silent(inputs.Then(new Recoded([new(1, 4)], "KERB", "K1")), Check);
    }

    [Fact]
    public void Look_TwoShotsOrAPoint_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 5 0 5 KERB K1\n3 9 9 5 GROUND"), Check);

    [Fact]
    public void Look_UnknownCode_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERBB K1"), Check);
}
