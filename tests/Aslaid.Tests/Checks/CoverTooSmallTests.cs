using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class CoverTooSmallTests
{
    private const string Check = "cover-too-small";

    private static RecordInputs Under(double ground, string more = "") => DesignOf.Lines($"1 0 0 5 PIPE P1 straight {more}\n2 15 0 5 PIPE P1 straight {more}\n3 30 0 5 PIPE P1 straight {more}").WithDesign("PIPE W1 0 0 5; 30 0 5", ground);

    [Fact]
    public void Look_TooShallow_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(Under(5.6), Check, Severity.Stop, "1");
        Assert.Equal("P1 has 0.600 m ± 0.042 m of cover at 0.0 m below ground (designed), least 0.750 m; short from 0.0 m to 30.0 m.", finding.Message);
        Assert.True(finding.Check.NeedsAnother); // nobody accepts his own
    }

    [Fact]
    public void Look_JustShort_IsFoundAsALook() => Assert.EndsWith("; not proven.", CheckAssert.Single(Under(5.74), Check, Severity.Look, "1").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_EnoughButNotBeyondDoubt_IsFoundAsOneLook() => Assert.EndsWith("; enough as measured, not proven.", CheckAssert.Single(Under(5.76), Check, Severity.Look, "1").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() => CheckAssert.Single(Under(5.8, "u_height=-"), Check, Severity.Look, "1");

    [Fact]
    public void Look_DeepEnough_IsSilent() => CheckAssert.Silent(Under(5.9), Check);

    [Fact]
    public void Look_InvertShot_CountsToItsTop() => // top 0.19 m above the invert: 0.71 m of cover
        Assert.Equal(0.71, Assert.Single(Under(5.9).Then(new AttributeSet("PIPE/P1", "measured_at", "invert")).Find(Check)).Measured!.Value, 1e-9);
}
