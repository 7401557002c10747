using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class UnknownCodeTests
{
    private const string Misspelt = """
        1 0 0 5 LAMP-COLUMM
        2 9 0 5 LAMP-COLUMN
        3 18 0 5 LAMP-COLUMM
        """;

    [Fact]
    public void Look_WordsNotInTheBook_IsFoundOnceWithAllShots()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines(Misspelt), "unknown-code", Severity.Stop, "1", "3");
        Assert.Equal("Code LAMP-COLUMM is not in the code book: 2 shots (1, 3).", finding.Message);
        Assert.Contains("LAMP-COLUMN", finding.Cure, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_EachBatch_IsFoundByItself() =>
        Assert.Equal(2, ShotsOf.Lines(Misspelt + "\n--- South\n" + Misspelt).Find("unknown-code").Length);

    [Fact]
    public void Look_KnownCodes_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND"), "unknown-code");

    [Fact]
    public void Look_AHundredShots_NamesFiftyAndCorrectsAll()
    {
        var many = ShotsOf.Lines(string.Join('\n', Enumerable.Range(1, 100).Select(i => $"{i} {i} 0 5 GRUOND")));
        Assert.Equal(50, Assert.Single(many.Find("unknown-code")).Shots.Length);
        CheckAssert.CuredByItsCorrection(many, "unknown-code");
    }

    [Fact]
    public void Correction_OfASlip_Cures() => CheckAssert.CuredByItsCorrection(ShotsOf.Lines(Misspelt), "unknown-code");

    [Fact]
    public void Correction_OfAWordLikeNone_IsNotOffered() =>
        Assert.Null(Assert.Single(ShotsOf.Lines("1 0 0 5 QQQQQQ").Find("unknown-code")).Correction);
}
