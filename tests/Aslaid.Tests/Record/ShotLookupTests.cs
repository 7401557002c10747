using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class ShotLookupTests
{
    private static readonly ShotLookup Shots = new(ShotsOf.Lines("""
        --- North
        1 0 0 5 GROUND
        2 9 0 5 GROUND
        1:3 18 0 5 GROUND
        --- South
        1 27 0 5 GROUND
        """).Shots);

    [Theory]
    [InlineData("2", null, "1:3")]
    [InlineData("1@South", null, "2:2")]
    [InlineData("1", "North", "1:2")]
    [InlineData("2:2", null, "2:2")]
    public void Find_Name_GivesItsShot(string name, string? crew, string key) => Assert.Equal(key, Shots.Find(name, crew, out _)!.Value.ToString());

    [Theory]
    [InlineData("1", null, "2 shots are called 1")]
    [InlineData("9", null, "there is no shot 9")]
    [InlineData("1:3", null, "may also mean batch:line")]
    [InlineData("7:7", null, "there is no shot 7:7")]
    public void Find_NameOfNoneOrMany_SaysSo(string name, string? crew, string says)
    {
        Assert.Null(Shots.Find(name, crew, out var problem));
        Assert.Contains(says, problem, StringComparison.Ordinal);
    }
}
