using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ScaleOffTests
{
    private const string Check = "scale-off";

    private static (double, double, double) Scaled(int mark, int number, double scale, double noise = 0.3)
    {
        var ((e, n, h), (a, b, _)) = (SessionOf.Similar(mark, scale, 0), SessionOf.Noise(number));
        return (e + noise * a, n + noise * b, h);
    }

    [Fact]
    public void Look_GroundForGrid_IsFoundAndLeads()
    {
        var inputs = SessionOf.Inputs((mark, number) => Scaled(mark, number, 0.0008));
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "900", "901", "902", "903");
        Assert.InRange(finding.Measured!.Value, 780, 820);
        Assert.Equal("Check shots of the session of shots-1.csv, crew North on 4 points fit the control with distances 795 ppm too long (± 65 ppm at 95 %): 0.098 m at the farthest shot, 124 m from the control met, limit 0.025 m.", finding.Message);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_TwoPointsBothMissed_IsFoundAsAStop()
    {
        var inputs = SessionOf.Inputs((mark, number) => Scaled(mark, number, 0.0015, 0), [0], [2]);
        Assert.EndsWith("Two points only, and both are missed.", CheckAssert.Single(inputs, Check, Severity.Stop, "900", "901").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_OneOfTwoMarksMissed_FoldsUnderIt() =>
        Assert.Equal(["control-missed"], SessionOf.Leading(SessionOf.Inputs((mark, number) => mark == 2 ? (0.2, 0.1, 0) : SessionOf.Noise(number), [0], [2])));

    [Fact]
    public void Look_SmallEffect_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, number) => Scaled(mark, number, 0.0001)), Check);

    [Fact]
    public void Look_OneMarkMissed_IsSilent() => Assert.All([0, 1, 2, 3], moved =>
        CheckAssert.Silent(SessionOf.Inputs((mark, number) => mark == moved ? (0.07, 0.05, 0) : SessionOf.Noise(number)), Check));

    [Fact]
    public void Look_ShiftedAlone_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, _) => (0.3, 0.2, 0)), Check);
}
