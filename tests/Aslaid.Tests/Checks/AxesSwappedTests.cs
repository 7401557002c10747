using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class AxesSwappedTests
{
    private const string Check = "axes-swapped";

    private static (double East, double North, double Height) Swapped(double east, double north, double height) => (north, east, height);

    [Fact]
    public void Look_AgainstControl_IsFound()
    {
        var finding = BatchSites.OnlyFinding(BatchSites.Of(Swapped).WithMarks(), Check);
        Assert.StartsWith("East and north of batch 2 (shots-2.csv) are exchanged: as given it lies 8104.", finding.Message, StringComparison.Ordinal);
        Assert.Equal(Reshoot.None, finding.Reshoot);
    }

    [Fact]
    public void Look_AgainstTheOtherFileAlone_IsFound() => BatchSites.OnlyFinding(BatchSites.Of(Swapped), Check);

    [Fact]
    public void Look_CheckShots_IsFoundWithTheirResidual() => Assert.EndsWith(
        "exchanged its 2 check shots meet control within 0.008 m.", BatchSites.OnlyFinding(BatchSites.Of(Swapped, checks: true).WithMarks(), Check).Message, StringComparison.Ordinal);

    [Fact]
    public void Look_SmallLocalGrid_IsFoundByCheckShotsOnly()
    {
        const string shots = "1 -511000 -6240800 5 GROUND\n2 -511010 -6240810 5 GROUND\n3 -510800 -6241000 5 CONTROL - - note=M1"; // 1000/2200, 990/2190, 1200/2000
        var inputs = ShotsOf.Lines(shots).WithControl(("M1", -510000, -6241800, 5), ("M2", -509900, -6241800, 5)); // 2000/1200
        CheckAssert.Single(inputs, Check, Severity.Stop, "1");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Look_FiveHundredShots_IsFoundAndNothingElseIs(bool checks)
    {
        var before = Names(BatchSites.Of((e, n, h) => (e, n, h), checks, count: 500).WithMarks());
        var after = Names(BatchSites.Of(Swapped, checks, count: 500).WithMarks());
        Assert.Equal([Check], after.Except(before));
        Assert.InRange(after.Count, 1, before.Count + 1);

        static List<string> Names(RecordInputs inputs)
        {
            var findings = Derivation.Derive(inputs).Findings;
            return [.. Enumerable.Range(0, findings.Count).Where(number => findings[number].Under is null).Select(number => findings[number].Check.Name)];
        }
    }

    [Fact]
    public void Look_WithdrawnBatch_IsSilent()
    {
        var inputs = BatchSites.Of(Swapped).Then(new BatchTaken(2, "shots-2.csv", "", "", 40, "South", default)).WithMarks();
        Assert.Equal(new Withdrawn(1), Assert.Single(inputs.Find(Check)).Correction);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_RightOrNothingToCompare_IsSilent()
    {
        CheckAssert.Silent(BatchSites.Of((e, n, h) => (e, n, h), checks: true).WithMarks(), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 5730999 -5731001 5 GROUND\n2 5731005 -5731009 5 GROUND"), Check); // exchanged, and nobody can tell
    }
}
