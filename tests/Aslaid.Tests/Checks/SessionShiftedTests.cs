using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class SessionShiftedTests
{
    private const string Check = "session-shifted";

    private static (double, double, double) Shifted(int number, double east, double north, double height)
    {
        var (e, n, h) = SessionOf.Noise(number);
        return (e + east, n + north, h + height);
    }

    [Fact]
    public void Look_AllMissByOneVector_IsFoundWithItsVectorAndLeads()
    {
        var inputs = SessionOf.Inputs((_, number) => Shifted(number, 0.120, -0.045, 0.004));
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "900", "901", "902", "903");
        Assert.Equal("All check shots of the session of shots-1.csv, crew North miss by one vector: E +0.119, N -0.044 (± 0.010 m), H +0.004 (± 0.012 m) at 95 %, 4 shots on 4 points; 0.127 m in plan, limit 0.025 m.", finding.Message);
        Assert.Null(finding.Correction);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_HeightAlone_IsFoundAndNamesSetUpAndPole()
    {
        var inputs = SessionOf.Inputs((_, number) => Shifted(number, 0, 0, 0.200));
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "900", "901", "902", "903");
        Assert.EndsWith("Plan fits: the height of the set-up or base, or the length of the pole.", finding.Message, StringComparison.Ordinal);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_SetUpOnAnotherPoint_IsFoundAndSaysWhichForWhich()
    {
        var (taken, meant) = (SessionOf.Marks[2], SessionOf.Marks[1]); // M3 taken for M2
        var inputs = SessionOf.Inputs((_, number) => Shifted(number, meant.East - taken.East, meant.North - taken.North, meant.Height - taken.Height));
        var finding = Assert.Single(inputs.Find(Check));
        Assert.EndsWith("That is the step from M3 to M2: set up on M3 as if it were M2.", finding.Message, StringComparison.Ordinal);
        Assert.StartsWith("Confirm that the set-up stood on M3", finding.Cure, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_NoAccuracyStated_IsFound() => Assert.Single(SessionOf.Inputs(SessionOf.Lines((_, number) => Shifted(number, 0.1, 0, 0)).Replace("u_plan=0.010 u_height=0.012", "u_plan=- u_height=-", StringComparison.Ordinal)).Find(Check));

    [Fact]
    public void Look_OneMarkMissed_IsSilentAndControlMissedLeads()
    {
        var inputs = SessionOf.Inputs((mark, number) => Shifted(number, mark == 3 ? 0.09 : 0, 0, 0));
        CheckAssert.Silent(inputs, Check);
        Assert.Equal(["control-missed"], SessionOf.Leading(inputs));
        Assert.Equal(Severity.Look, Assert.Single(inputs.Find("control-missed")).Severity);
    }

    [Fact]
    public void Look_OneOfTwoMarksMissed_IsSilentAlsoForAnUnprovenInstrument() =>
        CheckAssert.Silent(SessionOf.Inputs((mark, number) => Shifted(number, mark == 3 ? 0.09 : 0, 0, 0), [0], [3]) with { Settings = Settings.Default }, Check);

    [Fact]
    public void Look_OnePointOnly_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, number) => Shifted(number, 0.12, 0, 0), [0, 0], [0]), Check);

    [Fact]
    public void Look_WithinItsLimit_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, number) => Shifted(number, 0.012, 0.008, 0.015)), Check);
}
