using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class HeightDatumOffTests
{
    private const string Check = "height-datum-off";

    [Fact]
    public void Look_EllipsoidalHeights_IsFoundAndLeads()
    {
        var inputs = SessionOf.Inputs((_, number) => (0, 0, 46.2 + SessionOf.Noise(number).Height));
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "900", "901", "902", "903");
        Assert.StartsWith("Heights of all 4 check shots of the session of shots-1.csv, crew North miss by +46.2", finding.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("slopes", finding.Message, StringComparison.Ordinal);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_TiltedGeoid_IsFoundWithItsSlope()
    {
        var finding = Assert.Single(SessionOf.Inputs((mark, _) => (0, 0, 46.2 + 0.0006 * SessionOf.Marks[mark].East)).Find(Check));
        Assert.Equal("Heights of all 4 check shots of the session of shots-1.csv, crew North miss by +46.260 m, alike within 0.060 m on 4 points, and plan fits; from 1.000 m on that is another height datum. The misfit slopes by 600 mm/km (± 130 at 95 %), as a geoid does.", finding.Message);
    }

    [Fact]
    public void Look_HalfAMetre_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, _) => (0, 0, 0.5)), Check);

    [Fact]
    public void Look_HeightsThatDiffer_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, _) => (0, 0, mark == 0 ? 2 : 4)), Check);

    [Fact]
    public void Look_ShiftedInPlanToo_IsSilentAndTheShiftLeads()
    {
        var inputs = SessionOf.Inputs((_, _) => (3, 1, 2));
        CheckAssert.Silent(inputs, Check);
        Assert.Equal(["session-shifted"], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_OnePointOnly_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, _) => (0, 0, 46), [0, 0], []), Check);
}
