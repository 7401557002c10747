using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class FaceForBackTests
{
    private const string Check = "face-for-back";

    private const string Kerb = "FACE K1 0 0 5; 30 0 5\nBACK K2 0 0.15 5; 30 0.15 5";

    [Fact]
    public void Look_BackShotAsFace_IsFoundAndCured()
    {
        var inputs = DesignOf.Lines("1 0 0.15 5 FACE F1\n2 10 0.15 5 FACE F1\n3 20 0.15 5 FACE F1\n4 30 0.15 5 FACE F1").WithDesign(Kerb);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "1", "2", "3", "4");
        Assert.Equal("F1 lies steadily 0.150 m left of its design (4 shots, spread 0.000 m), on that of BACK: another edge was shot than the face.", finding.Message);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_FaceShotAsFace_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 FACE F1\n2 10 0.01 5 FACE F1\n3 20 0 5 FACE F1").WithDesign(Kerb), Check);

    [Fact]
    public void Look_OneShotBeside_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 FACE F1\n2 10 0.15 5 FACE F1\n3 20 0 5 FACE F1\n4 30 0 5 FACE F1").WithDesign(Kerb), Check);
}
