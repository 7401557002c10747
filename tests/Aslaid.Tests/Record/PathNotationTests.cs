using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class PathNotationTests
{
    private static (ShotKey?, string?) Find(string name) =>
        int.TryParse(name, out var id) && id is >= 101 and <= 106 ? (new ShotKey(1, id), null) : (null, $"there is no shot {name}");

    [Theory]
    [InlineData("101 102", "1:101 1:102")]
    [InlineData("101 ~102 103 104 ~105 106 101", "1:101 ~1:102 1:103 1:104 ~1:105 1:106 1:101")]
    [InlineData("101 ~102 ~103 101", "1:101 ~1:102 ~1:103 1:101")]
    [InlineData("  101,~ 102 ,103\n104 ", "1:101 ~1:102 1:103 1:104")]
    public void TryParse_Path_GivesSteps(string text, string expected)
    {
        Assert.True(PathNotation.TryParse(text, Find, out var steps, out var fault), fault?.Message);
        Assert.Equal(expected, string.Join(' ', steps.Select(step => (step.Through ? "~" : "") + step.Shot)));
    }

    [Theory]
    [InlineData("101 ~102 999 104", 9, 3, "there is no shot 999")]
    [InlineData("~101 102", 0, 4, "cannot begin on an arc")]
    [InlineData("101 ~102", 4, 4, "cannot end on an arc")]
    [InlineData("101 ~ ", 4, 1, "must follow the ~")]
    [InlineData("101 ~~102 103", 4, 5, "there are two")]
    [InlineData("101 102 102", 8, 3, "follows itself")]
    [InlineData("101", 0, 3, "at least two shots")]
    [InlineData("", 0, 0, "empty")]
    public void TryParse_WrongWord_PointsAtIt(string text, int start, int length, string says)
    {
        Assert.False(PathNotation.TryParse(text, Find, out _, out var fault));
        Assert.Equal((start, length), (fault!.Start, fault.Length));
        Assert.Contains(says, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Pointed_WrongWord_IsUnderlined()
    {
        PathNotation.TryParse("101 ~102 999", Find, out _, out var fault);
        Assert.Equal("101 ~102 999\n         ^^^\nHere there is no shot 999.", fault!.Pointed("101 ~102 999"));
    }
}
