using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class OffDesignTests
{
    private const string Check = "off-design";

    private const string Straight = "1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 {0} {1} PIPE P1\n4 30 0 5 PIPE P1\n5 40 0 5 PIPE P1";

    private static RecordInputs With(string north, string height = "5", string more = "") =>
        DesignOf.Lines(Straight.Replace("{0}", north, StringComparison.Ordinal).Replace("{1}", height, StringComparison.Ordinal).Replace("P1\n4", $"P1 straight {more}\n4", StringComparison.Ordinal)).WithDesign("PIPE W1 0 0 5; 40 0 5");

    [Fact]
    public void Look_LaidBeside_IsFoundAsAStop()
    {
        var finding = CheckAssert.Single(With("0.25"), Check, Severity.Stop, "3");
        Assert.Equal("P1 at 3 lies 0.250 m ± 0.022 m left of W1 of the design at station 20.00 m, tolerance 0.100 m.", finding.Message);
        Assert.Equal(10, finding.From!.Value, 1e-9);
        Assert.Equal(30, finding.To!.Value, 0.01);
    }

    [Fact]
    public void Look_LaidTooHigh_IsFoundAsAStop() =>
        Assert.Equal("P1 at 3 lies 0.120 m ± 0.042 m above W1 of the design at station 20.00 m, tolerance 0.050 m.", CheckAssert.Single(With("0", "5.12"), Check, Severity.Stop, "3").Message);

    [Fact]
    public void Look_JustBeyond_IsFoundAsALook() =>
        Assert.EndsWith("tolerance 0.100 m; it may still be within.", CheckAssert.Single(With("-0.11"), Check, Severity.Look, "3").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_NoAccuracyGiven_IsFoundAsALook() => CheckAssert.Single(With("0.25", more: "u_plan=-"), Check, Severity.Look, "3");

    [Fact]
    public void Look_PointElsewhere_IsFound() =>
        Assert.Equal("7 lies 0.300 m ± 0.027 m from L1 of the design, tolerance 0.100 m.", CheckAssert.Single(DesignOf.Lines("7 0 0.3 5 LAMP").WithDesign("point LAMP L1 0 0 5"), Check, Severity.Stop, "7").Message);

    [Fact]
    public void Look_WithinTolerance_IsSilent() => CheckAssert.Silent(With("0.09", "5.04"), Check);

    [Fact]
    public void Look_WithoutADesign_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1"), Check);

    [Fact]
    public void Look_ShotTheOtherWayRound_OffsetsTurn()
    {
        var there = Deviations.Of(Derivation.Derive(With("0.05"))).Select(one => one.Offset).ToArray();
        var back = Deviations.Of(Derivation.Derive(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 0.05 5 PIPE P1\n4 30 0 5 PIPE P1\n5 40 0 5 PIPE P1").WithDesign("PIPE W1 40 0 5; 0 0 5"))).Select(one => one.Offset).ToArray();
        for (var i = 0; i < there.Length; i++) Assert.Equal(there[i], -back[i], 1e-9);
    }
}
