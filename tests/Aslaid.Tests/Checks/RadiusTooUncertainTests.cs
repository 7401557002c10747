using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class RadiusTooUncertainTests
{
    private const string Check = "radius-too-uncertain";

    private static string Arc(string ordinate, string more = "") =>
        $"1 0 0 5 KERB K1 straight {more}\n2 3 {ordinate} 5 KERB K1 through {more}\n3 6 0 5 KERB K1 straight {more}";

    [Fact]
    public void Look_FlatButProven_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Arc("0.05")), Check, Severity.Look, "1", "2", "3");
        Assert.Equal(0.0104 / 0.05, finding.Measured!.Value, 0.01); // u of the ordinate over the ordinate, for a flat arc
        Assert.Null(finding.Correction);
    }

    [Fact]
    public void Look_DoubtOfPlaceOverTheLimit_IsFoundAsAStop() =>
        CheckAssert.Single(ShotsOf.Lines(Arc("0.2", "u_plan=0.05")), Check, Severity.Stop, "1", "2", "3");

    [Fact]
    public void Look_WellShotArc_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Arc("0.5")), Check);

    [Fact]
    public void Look_NoAccuracyGiven_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Arc("0.2", "u_plan=-")), Check);
}
