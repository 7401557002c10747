using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class PlainTextTests
{
    [Theory]
    [InlineData("")]
    [InlineData("A. Person")]
    [InlineData("Žofie Łącka, 2. Kolonne – näher am Schacht")]
    [InlineData("測量 Ø 110 ½″")]
    [InlineData("אבג")] // letters that run leftward by themselves need no mark
    public void Demand_TextThatCanBeSeen_IsGivenBack(string text) => Assert.Equal(text, PlainText.Demand("--by", text));

    [Theory]
    [InlineData(0x00)]
    [InlineData(0x07)]
    [InlineData(0x09)]
    [InlineData(0x0A)]
    [InlineData(0x0D)]
    [InlineData(0x1B)] // starts a terminal's colour
    [InlineData(0x7F)]
    [InlineData(0x85)]
    [InlineData(0x200B)]
    [InlineData(0x200F)]
    [InlineData(0x2028)]
    [InlineData(0x2029)]
    [InlineData(0x202E)] // turns the direction of reading
    [InlineData(0x2066)]
    [InlineData(0xFEFF)]
    [InlineData(0xE0041)] // a tag, beyond the first plane
    public void Demand_CharacterThatCannotBeSeen_IsRefusedByItsCodePoint(int point)
    {
        var refused = Assert.Throws<ProjectException>(() => PlainText.Demand("--why", $"seen{char.ConvertFromUtf32(point)}by nobody"));
        Assert.StartsWith($"--why holds characters that cannot be seen: seen<U+{point:X4}>by nobody.", refused.Message, StringComparison.Ordinal);
    }
}
