namespace Aslaid.Tests;

public sealed class FirstTest
{
    [Fact]
    public void Sum() => Assert.Equal(2, 1 + 1);
}
