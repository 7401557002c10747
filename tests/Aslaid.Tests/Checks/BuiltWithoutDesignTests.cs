using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class BuiltWithoutDesignTests
{
    private const string Check = "built-without-design";

    [Fact]
    public void Look_NoDesignNear_IsFoundAsALook() => Assert.Equal("PIPE: 1 run (20.0 m) and 0 points have no design within 3.0 m: 3.",
        CheckAssert.Single(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n3 0 30 5 PIPE P2\n4 20 30 5 PIPE P2").WithDesign("PIPE W1 0 0 5; 20 0 5"), Check, Severity.Look, "3").Message);

    [Fact]
    public void Look_NoDesignOfTheCode_IsFoundAsANote() => CheckAssert.Single(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1\n3 0 30 5 CABLE C1\n4 20 30 5 CABLE C1").WithDesign("PIPE W1 0 0 5; 20 0 5"), Check, Severity.Note, "3");

    [Fact]
    public void Look_EverythingDesigned_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5"), Check);
}
