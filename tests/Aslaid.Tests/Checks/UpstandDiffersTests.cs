using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class UpstandDiffersTests
{
    private const string Check = "upstand-differs";

    /// <summary>A kerb's channel and, shot too, its edge 0.15 m to the left.</summary>
    private static RecordInputs Kerb(double up, double side = 0.15) => ShotsOf.Lines(FormattableString.Invariant($"""
        1 0 0 5 KERB K1 - u_plan=0.003 u_height=0.002
        2 8 0 5 KERB K1 - u_plan=0.003 u_height=0.002
        3 16 0 5 KERB K1 - u_plan=0.003 u_height=0.002
        4 2 {side} {5 + up} EDGE E1 - u_plan=0.003 u_height=0.002
        5 8 {side} {5.125} EDGE E1 - u_plan=0.003 u_height=0.002
        6 14 {side} {5.125} EDGE E1 - u_plan=0.003 u_height=0.002
        """)) with { Sections = new([new("KERB", "top edge", -0.15, 0.125, "EDGE")]) };

    [Fact]
    public void Look_AnUpstandTooLow_IsFound() => Assert.StartsWith(
        "E1 lies -0.065 m at 4 from the height that the section of KERB/K1 gives its top edge; limit ",
        CheckAssert.Single(Kerb(0.06), Check, Severity.Look, "4").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_TooWide_IsFound() => Assert.Contains("m to the right at 4 of where the section of KERB/K1 puts its top edge", CheckAssert.Single(Kerb(0.125, 0.25), Check, Severity.Look, "4").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_AsTheSectionSays_IsSilent() => CheckAssert.Silent(Kerb(0.125), Check);

    [Fact]
    public void Look_WithoutSections_IsSilent() => CheckAssert.Silent(Kerb(0.06) with { Sections = SectionTable.Empty }, Check);
}
