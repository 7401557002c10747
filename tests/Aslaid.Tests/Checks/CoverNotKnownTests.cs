using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class CoverNotKnownTests
{
    private const string Check = "cover-not-known";

    [Fact]
    public void Look_NothingTellsTheTop_IsFound() => Assert.Equal(
        "CABLE: the cover of 30.0 m of 30.0 m is not known (of 30.0 m nothing tells the top; elsewhere no surface reaches there).",
        CheckAssert.Single(DesignOf.Lines("1 0 0 5 CABLE C1\n2 30 0 5 CABLE C1").WithDesign("CABLE W1 0 0 5; 30 0 5", 6).Then(new AttributeSet("CABLE/C1", "measured_at", "ground")), Check, Severity.Look, "1").Message);

    [Fact]
    public void Look_SurfaceEverywhere_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 CABLE C1\n2 30 0 5 CABLE C1").WithDesign("CABLE W1 0 0 5; 30 0 5", 6), Check);

    [Fact]
    public void Look_NoSurfaceAtAll_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 CABLE C1\n2 30 0 5 CABLE C1").WithDesign("CABLE W1 0 0 5; 30 0 5"), Check);

    [Fact]
    public void Look_BeyondTheSurface_IsFoundToItsRim() =>
        Assert.Equal(100, Assert.Single(DesignOf.Lines("1 400 0 5 CABLE C1\n2 600 0 5 CABLE C1").WithDesign("CABLE W1 400 0 5; 600 0 5", 6).Find(Check)).Measured!.Value, 0.01);
}
