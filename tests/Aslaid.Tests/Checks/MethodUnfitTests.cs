using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class MethodUnfitTests
{
    private const string Check = "method-unfit";

    /// <summary>A duct whose heights must be built within 20 mm, shot by a receiver that is good to 42 mm with its session.</summary>
    private static RecordInputs With(Func<CodeEntry, CodeEntry> change, string lines) =>
        ShotsOf.Lines(lines) is var inputs ? inputs with { Codes = new([.. inputs.Codes.Entries.Select(entry => entry.Code is "DUCT" or "LAMP-COLUMN" ? change(entry) : entry)]) } : inputs;

    private const string Three = "1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1\n3 10 0 5 DUCT D1 straight u_height=0.001";

    [Fact]
    public void Look_HeightsThatNothingCouldProve_IsFoundOnceWithItsShots()
    {
        var finding = CheckAssert.Single(With(entry => entry with { ToleranceHeight = 0.040 }, Three), Check, Severity.Stop, "1", "2");
        Assert.Equal("Heights of DUCT in shots-1.csv are good to 0.042 m at 95 %, tolerance 0.040 m: no height measured so can be proven (2 of 3 shots).", finding.Message);
        Assert.Equal(Normal.Within95 * double.Hypot(0.015, 0.015), finding.Measured!.Value, 1e-9);
    }

    [Fact]
    public void Look_ProofNotNeeded_IsFoundAsALook() =>
        CheckAssert.Single(With(entry => entry with { ToleranceHeight = 0.040, NeedsProof = false }, Three), Check, Severity.Look, "1", "2");

    [Fact]
    public void Look_UnequalTolerances_IsFoundByHalfTheirWidth()
    {
        CheckAssert.Single(With(entry => entry with { ToleranceHeight = null, ToleranceHigh = 0.010, ToleranceLow = 0.070 }, Three), Check, Severity.Stop, "1", "2");
        CheckAssert.Silent(With(entry => entry with { ToleranceHeight = null, ToleranceHigh = 0.010, ToleranceLow = 0.074 }, Three), Check);
    }

    [Fact]
    public void Look_OneSidedTolerance_IsSilent() =>
        CheckAssert.Silent(With(entry => entry with { ToleranceHeight = null, ToleranceLow = 0.001 }, Three), Check);

    [Theory] // 12 and 10 mm radial are 11.0 mm per axis: 21.6 mm as an offset, 27.0 mm as a place
    [InlineData("1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1", 0.0216, 2)]
    [InlineData("1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1", 0.0218, 0)]
    [InlineData("1 0 0 5 LAMP-COLUMN\n2 5 0 5 LAMP-COLUMN", 0.0269, 2)]
    [InlineData("1 0 0 5 LAMP-COLUMN\n2 5 0 5 LAMP-COLUMN", 0.0271, 0)]
    public void Look_PlanOfALineOrAPoint_IsByOffsetOrCircle(string lines, double tolerance, int shots)
    {
        var found = With(entry => entry with { TolerancePlan = tolerance }, lines).Find(Check);
        Assert.Equal(shots, found.Sum(finding => finding.ShotIds.Length));
        Assert.All(found, finding => Assert.StartsWith("Places in plan of", finding.Message, StringComparison.Ordinal));
    }

    [Fact]
    public void Look_BothInOneBatch_IsFoundOnceAndSaysBoth()
    {
        var finding = CheckAssert.Single(With(entry => entry with { TolerancePlan = 0.020, ToleranceHeight = 0.040 }, Three), Check, Severity.Stop, "1", "2", "3");
        Assert.Equal("Heights of DUCT in shots-1.csv are good to 0.042 m at 95 %, tolerance 0.040 m: no height measured so can be proven (2 of 3 shots)."
            + " In plan they are good to 0.022 m at 95 %, tolerance 0.020 m: no place measured so can be proven (3 of 3 shots).", finding.Message);
        Assert.Equal(0.020, finding.Allowed); // farther over its limit
    }

    [Fact]
    public void Look_TwoBatches_IsFoundInEach()
    {
        var found = With(entry => entry with { ToleranceHeight = 0.040 }, "--- North\n1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1\n--- South\n1 50 0 5 DUCT D1\n2 55 0 5 DUCT D1").Find(Check);
        Assert.Equal(["shots-1.csv", "shots-2.csv"], found.Select(finding => finding.Message.Split(' ')[4]));
    }

    [Fact]
    public void Look_StopOfALine_HoldsItsLengths()
    {
        var record = Derivation.Derive(With(entry => entry with { ToleranceHeight = 0.040 }, "1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1\n3 10 0 5 DUCT D1"));
        Assert.All(record.Holds, hold => Assert.Equal(HoldState.Held, hold.State));
    }

    [Fact]
    public void Look_NoAccuracyGiven_IsSilent() =>
        CheckAssert.Silent(With(entry => entry with { ToleranceHeight = 0.001, TolerancePlan = 0.001 }, "1 0 0 5 DUCT D1 straight u_plan=- u_height=-\n2 5 0 5 DUCT D1 straight u_plan=- u_height=-"), Check);

    [Fact]
    public void Look_ShotWorseThanItsLocationAccuracy_IsSilent() =>
        CheckAssert.Silent(With(entry => entry with { ToleranceHeight = 0.050 }, "1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1 straight u_height=0.09"), Check);

    [Fact]
    public void Look_AtTheTolerance_IsSilent() =>
        CheckAssert.Silent(With(entry => entry with { ToleranceHeight = Normal.Within95 * double.Hypot(0.015, 0.015) }, Three), Check);
}
