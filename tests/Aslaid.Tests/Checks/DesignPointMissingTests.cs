using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class DesignPointMissingTests
{
    private const string Check = "design-point-missing";

    private const string Lamps = "point LAMP L1 0 0 5\npoint LAMP L2 20 0 5\npoint LAMP L3 40 0 5";

    [Fact]
    public void Look_TwoNotShot_IsFoundOnce() => Assert.Equal("2 of 3 points of LAMP in the design have no shot: L2, L3.", CheckAssert.Single(DesignOf.Lines("1 0 0 5 LAMP").WithDesign(Lamps), Check, Severity.Look, "1").Message);

    [Fact]
    public void Look_AllShot_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 LAMP\n2 20 0 5 LAMP\n3 40 0.1 5 LAMP").WithDesign(Lamps), Check);
}
