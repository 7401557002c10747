using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class SetupRotatedTests
{
    private const string Check = "setup-rotated";

    [Fact]
    public void Look_TurnedSetUp_IsFoundAndLeads()
    {
        var inputs = SessionOf.Inputs((mark, _) => SessionOf.Similar(mark, 0, -0.0008));
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "900", "901", "902", "903");
        Assert.Equal(165.0, finding.Measured!.Value, 0.1);
        Assert.Equal("Check shots of the session of shots-1.csv, crew North on 4 points fit the control turned 165\" clockwise (50.9 mgon, ± 13\" at 95 %): 0.099 m at the farthest shot, 124 m from the control met, limit 0.025 m.", finding.Message);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_SmallTurn_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, _) => SessionOf.Similar(mark, 0, 0.00008)), Check);

    [Fact]
    public void Look_OneMarkMissed_IsSilent() => Assert.All([0, 1, 2, 3], moved =>
        CheckAssert.Silent(SessionOf.Inputs((mark, number) => mark == moved ? (-0.05, 0.08, 0) : SessionOf.Noise(number)), Check));

    [Fact]
    public void Look_AccuracyNotStated_IsSilent() => CheckAssert.Silent(
        SessionOf.Inputs(SessionOf.Lines((mark, _) => SessionOf.Similar(mark, 0, -0.0008)).Replace("u_plan=0.010", "u_plan=-", StringComparison.Ordinal)), Check);
}
