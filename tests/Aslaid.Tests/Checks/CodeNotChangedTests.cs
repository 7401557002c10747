using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class CodeNotChangedTests
{
    private const string Check = "code-not-changed";

    internal const string DuctThenKerb = """
        1 0 0 4 DUCT D1
        2 3 0 4 DUCT D1
        3 6 0 4 DUCT D1
        4 9 0 4 DUCT D1
        5 12 0 4 DUCT D1
        6 15 0 4 DUCT D1
        7 18 0 4 DUCT D1
        8 18 14 5.1 DUCT D1
        9 13 14 5.1 DUCT D1
        10 8 14 5.1 KERB K1
        11 3 14 5.1 KERB K1
        """;

    [Fact]
    public void Look_KerbUnderTheDuctsCode_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines(DuctThenKerb);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "8", "9");
        var recoded = Assert.IsType<Recoded>(finding.Correction);
        Assert.Equal(("KERB", "K1"), (recoded.Code, recoded.Run));
        Assert.Contains("KERB K1 goes on from there: wrong code on 2 shots (8, 9).", finding.Message, StringComparison.Ordinal);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        var runs = Derivation.Derive(inputs.Then(recoded)).Runs;
        Assert.Equal((7, 4), (runs.Find("DUCT/D1")!.Value.MemberCount, runs.Find("KERB/K1")!.Value.MemberCount));
    }

    [Fact]
    public void Look_ShotsThatLieOnAnotherRun_IsFound() => CheckAssert.Single(ShotsOf.Lines("""
        20 0 14.2 5 KERB K1
        21 9 14.2 5 KERB K1
        22 18 14.2 5 KERB K1
        1 0 0 5 DUCT D1
        2 3 0 5 DUCT D1
        3 6 0 5 DUCT D1
        4 9 0 5 DUCT D1
        5 9 14 5 DUCT D1
        6 12 14 5 DUCT D1
        """), Check, Severity.Stop, "5", "6");

    [Fact]
    public void Look_LongLegAlone_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("""
        1 0 0 4 DUCT D1
        2 3 0 4 DUCT D1
        3 6 0 4 DUCT D1
        4 9 0 4 DUCT D1
        5 9 14 4 DUCT D1
        6 6 14 4 DUCT D1
        """), Check);

    [Fact]
    public void Look_NextRunBeginsWhereThisOneEnds_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("""
        1 0 0 4 DUCT D1
        2 3 0 4 DUCT D1
        3 6 0 4 DUCT D1
        4 9 0 4 DUCT D1
        5 22 0 4 DUCT D1
        6 24 2 5 KERB K1
        7 28 2 5 KERB K1
        """), Check);

    [Fact]
    public void Look_TwoRunsInOneTrench_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("""
        20 0 0.4 4 EDGE E1
        21 30 0.4 4 EDGE E1
        1 0 0 4 DUCT D1
        2 3 0 4 DUCT D1
        3 6 0 4 DUCT D1
        4 9 0 4 DUCT D1
        5 23 0 4 DUCT D1
        6 26 0 4 DUCT D1
        """), Check);
}
