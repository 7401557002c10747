using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class PhotoMissingTests
{
    private const string Check = "photo-missing";

    private static RecordInputs Lines(string lines) => ShotsOf.Lines(lines) with
    {
        Codes = new(
        [
            new("DUCT", CodeKind.Line) { PhotoEvery = 12, NeedsProof = true },
            new("KERB", CodeKind.Line) { PhotoEvery = 12 },
            new("EDGE", CodeKind.Line),
            new("CHAMBER", CodeKind.Point) { PhotoEvery = 1, NeedsProof = true },
        ]),
    };

    [Fact]
    public void Look_LongStretch_IsFoundWithIt()
    {
        var finding = CheckAssert.Single(Lines("""
            1 0 0 5 DUCT D1 straight photo=a.jpg
            2 8 0 5 DUCT D1
            3 16 0 5 DUCT D1 straight photo=b.jpg
            4 24 0 5 DUCT D1
            """), Check, Severity.Stop, "2");
        Assert.Equal("No photograph over 16.0 m of D1 from 0.0 m, limit 12.0 m (2).", finding.Message);
        Assert.Equal((0.0, 16.0, Reshoot.Open), (finding.From, finding.To!.Value, finding.Reshoot));
    }

    [Fact]
    public void Look_SeveralStretches_IsFoundOnceWithTheWorst()
    {
        var finding = CheckAssert.Single(Lines("1 0 0 5 KERB K1\n2 16 0 5 KERB K1 straight photo=a.jpg\n3 24 0 5 KERB K1\n4 36 0 5 KERB K1"), Check, Severity.Look, "1", "3", "4");
        Assert.Equal("No photograph over 20.0 m of K1 from 16.0 m, limit 12.0 m; 2 such lengths (1, 3, 4).", finding.Message);
    }

    [Fact]
    public void Look_NoneAtAllOnAShortRun_IsFound() => CheckAssert.Single(Lines("1 0 0 5 KERB K1\n2 3 0 5 KERB K1"), Check, Severity.Look, "1", "2");

    [Fact]
    public void Look_PointsWithoutOne_IsFoundOnceWhateverRunsGoThroughThem()
    {
        var finding = CheckAssert.Single(Lines("1 0 0 5 CHAMBER\n2 5 0 5 CHAMBER\n3 9 0 5 CHAMBER - - photo=a.jpg\n1 - - - EDGE E1\n4 3 3 5 EDGE E1"), Check, Severity.Stop, "1", "2");
        Assert.Equal("No photograph of 2 shots whose code asks for one each (1, 2).", finding.Message);
    }

    [Fact]
    public void Look_EnoughOrNotAskedFor_IsSilent()
    {
        CheckAssert.Silent(Lines("1 0 0 5 KERB K1\n2 10 0 5 KERB K1 straight photo=a.jpg\n3 16 0 5 KERB K1\n4 22 0 5 KERB K1 straight photo=b.jpg"), Check);
        CheckAssert.Silent(Lines("1 0 0 5 EDGE E1\n2 60 0 5 EDGE E1"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 60 0 5 DUCT D1"), Check);
    }
}
