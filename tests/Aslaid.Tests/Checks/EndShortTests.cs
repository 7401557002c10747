using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class EndShortTests
{
    private const string Check = "end-short";

    private static string Branch(double north) => FormattableString.Invariant($"""
        1 0 0 5 DUCT D1
        2 8 0 5 DUCT D1
        3 16 0 5 DUCT D1
        4 4 -9 5 DUCT D2
        5 4 {north} 5 DUCT D2
        """);

    [Fact]
    public void Look_ShortOfARun_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Branch(-0.3)), Check, Severity.Stop, "5");
        Assert.Equal("D2 ends at 5, 0.300 m short of D1.", finding.Message);
        Assert.Null(finding.Correction); // its nearest shot is 4 m away
    }

    [Fact]
    public void Look_ShortOfAShotWithinReach_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1\n4 8 -9 5 DUCT D2\n5 8 -0.4 5 DUCT D2");
        CheckAssert.Single(inputs, Check, Severity.Stop, "5", "2");
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    private static RecordInputs WithChamber(RecordInputs inputs, double width) => inputs with
    {
        Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "CHAMBER" ? entry with { Width = width } : entry)]),
    };

    private static RecordInputs FromAChamber(double east) =>
        ShotsOf.Lines(FormattableString.Invariant($"1 0 0 5 CHAMBER\n2 {east} 0 5 DUCT D1\n3 8 0 5 DUCT D1"));

    [Fact]
    public void Look_BeginsBeyondTheSizeOfAChamber_IsFoundAsALook()
    {
        var finding = CheckAssert.Single(FromAChamber(0.8), Check, Severity.Look, "2", "1");
        Assert.Equal("D1 begins at 2, 0.800 m from 1; a node's size explains 0.600 m.", finding.Message);
        Assert.Null(finding.Correction); // it would count the chamber as duct
        CheckAssert.Single(WithChamber(FromAChamber(0.45), 0.6), Check, Severity.Look, "2", "1");
    }

    [Fact]
    public void Look_BesideASmallNode_IsFoundAndCured()
    {
        var inputs = WithChamber(FromAChamber(0.09), 0.05);
        inputs = inputs with { Codes = new([.. inputs.Codes.Entries.Select(entry => entry.Code == "DUCT" ? entry with { TolerancePlan = 0.03 } : entry)]) };
        CheckAssert.Single(inputs, Check, Severity.Look, "2", "1");
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_AtTheWallOfAChamber_IsSilent()
    {
        CheckAssert.Silent(FromAChamber(0.4), Check);
        CheckAssert.Silent(FromAChamber(0.03), Check);
        CheckAssert.Silent(WithChamber(FromAChamber(0.85), 1.5), Check); // half of it and the tolerance of the duct, 0.1 m
    }

    [Fact]
    public void Look_DuctsInParallelWithTheirChamberBeside_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines("1 0 0.05 5 CHAMBER\n2 0 0 5 DUCT D1\n3 8 0 5 DUCT D1\n4 0.02 0.1 5 DUCT D2\n5 8 0.1 5 DUCT D2\n6 0.01 0.2 5 DUCT D3\n7 8 0.2 5 DUCT D3"), Check);

    [Fact]
    public void Look_PastAChamber_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 1 0.9 5 CHAMBER\n2 1 0 5 DUCT D1\n3 8 0 5 DUCT D1"), Check);

    /// <summary>One drain goes through the chamber, the other ends at its wall: nearer to the path of the first than to the chamber's shot.</summary>
    [Fact]
    public void Look_AtTheWallOfAChamberThatARunGoesThrough_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("2 -8 0 5 DUCT D1\n1 0 0 5 CHAMBER\n1 - - - DUCT D1\n3 8 0 5 DUCT D1\n4 0.3 0.4 5 DUCT D2\n5 6 8 5 DUCT D2"), Check);

    [Fact]
    public void Look_MainsOfTwoCrewsThatMeet_IsSilent() => CheckAssert.Silent(
        ShotsOf.Lines("--- North\n1 -8 0 5 DUCT D1\n2 0 0 5 DUCT D1\n--- South\n1 0.03 0.025 5 DUCT D2\n2 8 0 5 DUCT D2"), Check);

    [Fact]
    public void Look_BranchWithItsOwnTeeShot_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Branch(-0.03)), Check);

    [Fact]
    public void Look_SaidToBeACap_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines(Branch(-0.3)).Then(new AttributeSet("DUCT/D2", "end", "cap")), Check);

    [Fact]
    public void Look_OnTheRunOrBeyondReach_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines(Branch(-0.015)), Check);
        CheckAssert.Silent(ShotsOf.Lines(Branch(-1.1)), Check);
    }

    [Fact]
    public void Look_TiedToAChamberOrARun_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 CHAMBER\n9 0.5 0 5 CHAMBER\n1 - - - DUCT D1\n3 8 0 5 DUCT D1"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n4 8 -9 5 DUCT D2\n2 - - - DUCT D2"), Check);
    }

    [Fact]
    public void Look_ObliqueBranch_IsFound() =>
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1\n4 -5 -4 5 DUCT D2\n5 4 -0.3 5 DUCT D2"), Check, Severity.Stop, "5");

    [Fact]
    public void Look_EndsSideBySideInOneTrench_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n4 0.1 0.3 5 DUCT D2\n5 7.9 0.31 5 DUCT D2"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n4 2 0.05 5 DUCT D2\n5 6 0.05 5 DUCT D2"), Check);
    }

    [Fact]
    public void Look_NearAThingItCannotEndOn_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 KERB K1\n2 8 0 5 KERB K1\n4 4 -9 4 DUCT D2\n5 4 -0.3 4 DUCT D2"), Check);
}
