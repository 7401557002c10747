using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ControlDriftTests
{
    private const string Check = "control-drift";

    private static (double, double, double) After(int number, int from, double east, double height = 0) => number < from ? SessionOf.Noise(number) : (east, 0, height);

    [Fact]
    public void Look_SamePointLater_IsFoundAndLeads()
    {
        var inputs = SessionOf.Inputs((_, number) => After(number, 2, 0.09), [0, 1], [1, 0]);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "901", "902");
        Assert.Equal("From check shot 901 to 902 (both on M2) the misfit changes by 0.091 m in plan (E +0.091, N -0.002, H -0.001 m) in 5 minutes, limit 0.044 m: one of both moments is wrong, and nobody knows which.", finding.Message);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_InHeight_IsFound() => Assert.Contains("in height", Assert.Single(SessionOf.Inputs((_, number) => After(number, 2, 0, -0.1), [0, 1], [1, 0]).Find(Check)).Message, StringComparison.Ordinal);

    [Fact]
    public void Look_WithinHalfTheTolerance_IsFoundAsALook()
    {
        var lines = SessionOf.Lines((_, number) => (number < 2 ? 0 : 0.021, 0, 0), [0, 1], [1, 0]).Replace("u_plan=0.010", "u_plan=0.004", StringComparison.Ordinal);
        Assert.Equal(Severity.Look, Assert.Single(SessionOf.Inputs(lines).Find(Check)).Severity);
    }

    [Fact]
    public void Look_OneMarkMissed_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, _) => (mark == 3 ? 0.12 : 0, 0, 0)), Check);

    [Fact]
    public void Look_ShiftedAlike_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, number) => (0.2 + SessionOf.Noise(number).East, 0, 0), [0, 1], [1, 0]), Check);

    [Fact]
    public void Look_NoTimes_IsSilent() => CheckAssert.Silent(SessionOf.Inputs(SessionOf.Lines((_, number) => After(number, 2, 0.09), [0, 1], [1, 0], more: "time=-")), Check);
}
