using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class FeetForMetresTests
{
    private const string Check = "feet-for-metres";
    private const double Foot = 0.3048; // m, exact: international yard and pound agreement of 1959
    private const double SurveyFoot = 1200.0 / 3937; // m: US Coast and Geodetic Survey, Mendenhall order of 1893

    [Fact]
    public void Look_FeetAgainstControl_IsFound()
    {
        var finding = BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e / Foot, n / Foot, h / Foot)).WithMarks(), Check);
        Assert.StartsWith("Feet are given as metres in batch 2 (shots-2.csv): as given it lies ", finding.Message, StringComparison.Ordinal);
        Assert.Equal(Foot, finding.Figures[1]);
        Assert.Equal(
            "Feet are given as metres in batch 2 (shots-2.csv): as given it lies 14287.8 km off, times 0.3048 its 2 check shots meet control within 0.008 m.",
            Assert.Single(BatchSites.Of((e, n, h) => (e / Foot, n / Foot, h / Foot), checks: true).WithMarks().Find(Check)).Message);
    }

    [Fact]
    public void Look_LegsThatAreThreeTimesAsLong_FoldUnderIt() // 5 m are 16 ft, over the largest spacing of 10 m
    {
        var findings = Derivation.Derive(BatchSites.Of((e, n, h) => (e / Foot, n / Foot, h)).WithMarks()).Findings;
        var all = Enumerable.Range(0, findings.Count).Select(number => findings[number]).ToList();
        var leading = all.FindIndex(finding => finding.Check.Name == Check);
        Assert.Contains(all, finding => finding.Check.Name == "shots-too-far-apart");
        Assert.All(all.Where(finding => finding.Check.Name == "shots-too-far-apart"), finding => Assert.Equal(leading, findings.Under[finding.Number]));
    }

    [Fact]
    public void Look_FeetAgainstTheOtherFileAlone_IsFound() => BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e / Foot, n / Foot, h)), Check);

    [Fact]
    public void Look_SurveyFeetWithCheckShots_IsFoundByTheFootThatFits()
    {
        var finding = BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e / SurveyFoot, n / SurveyFoot, h), checks: true).WithMarks(), Check);
        Assert.Equal(SurveyFoot, finding.Figures[1]);
        Assert.EndsWith("its 2 check shots meet control within 0.008 m.", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_MetresTakenForFeet_IsFound() => BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e * Foot, n * Foot, h)).WithMarks(), Check);

    [Fact]
    public void Look_FeetAndExchanged_IsFound() =>
        Assert.Contains("with east and north exchanged", BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (n / Foot, e / Foot, h)).WithMarks(), Check).Message, StringComparison.Ordinal);

    [Fact]
    public void Look_TheOtherFoot_IsFoundByCheckShots() // 2 ppm of 6 243 000 m are 12.5 m
    {
        var finding = BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e * Foot / SurveyFoot, n * Foot / SurveyFoot, h), checks: true).WithMarks(), Check);
        Assert.StartsWith("International feet were used where US survey feet are meant (2 parts in a million) in batch 2", finding.Message, StringComparison.Ordinal);
        Assert.Contains("times 1.000002 ", finding.Message, StringComparison.Ordinal);
        Assert.Equal(12.528, finding.Measured!.Value, 2e-2);
    }

    [Fact]
    public void Look_HeightsInFeet_IsFoundByCheckShots()
    {
        var finding = BatchSites.OnlyFinding(BatchSites.Of((e, n, h) => (e, n, h / Foot), checks: true).WithMarks(), Check);
        Assert.StartsWith("Feet are given as metres in the heights of batch 2 (shots-2.csv)", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_ShiftedByAsMuch_IsSilent() // a shift that is no part of the coordinates is not a matter of units
    {
        CheckAssert.Silent(BatchSites.Of((e, n, h) => (e + 12.5, n + 1, h), checks: true).WithMarks(), Check);
        CheckAssert.Silent(BatchSites.Of((e, n, h) => (e, n, h + 11), checks: true).WithMarks(), Check);
        CheckAssert.Silent(BatchSites.Of((e, n, h) => (e, n, h), checks: true).WithMarks(), Check);
    }
}
