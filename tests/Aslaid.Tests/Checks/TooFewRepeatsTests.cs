using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class TooFewRepeatsTests
{
    private const string Check = "too-few-repeats";

    private static RecordInputs Asked(string lines, double share = 0.3) => ShotsOf.Lines(lines) with { Settings = ShotsOf.Settings with { RepeatShareMin = share } };

    private const string Work = "--- North\n1 0 0 5 GROUND - - time=08:00\n2 10 0 5 GROUND - - time=08:01\n3 20 0 5 GROUND - - time=08:02\n";

    [Fact]
    public void Look_NoRepeats_IsFoundOnce()
    {
        var finding = CheckAssert.Single(Asked(Work), Check, Severity.Look, "1");
        Assert.Equal("0 of 3 shots have an independent second fix: 0.0 %, asked for 30.0 %.", finding.Message);
    }

    [Fact]
    public void Look_QuickRepeats_IsFoundAndSaysSo() => Assert.Equal(
        "0 of 4 shots have an independent second fix: 0.0 %, asked for 30.0 %. 2 more were repeated within 20 minutes, in the same session or without a time, which proves nothing (1, 4).",
        Assert.Single(Asked(Work + "4 0.005 0 5 GROUND - - time=08:05").Find(Check)).Message);

    [Fact]
    public void Look_RepeatedFromAnotherSetUp_IsSilent() => CheckAssert.Silent(Asked(Work + "--- South\n1 0.005 0 5 GROUND - - time=09:00"), Check);

    [Fact]
    public void Look_TheSameFileOnceMore_IsFound() => Assert.Single(Asked(Work + Work).Find(Check));

    [Fact]
    public void Look_NothingAsked_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Work), Check);
}
