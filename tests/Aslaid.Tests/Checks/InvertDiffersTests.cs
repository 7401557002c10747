using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class InvertDiffersTests
{
    private const string Check = "invert-differs";

    [Fact]
    public void Look_AtTheChamber_IsFound() => Assert.StartsWith(
        "Connection A of 1 has its invert at 3.800 m, IN ends there at 4 with 4.000 m: 0.200 m apart, limit ",
        CheckAssert.Single(NodeTests.Inputs(NodeTests.In(3.8)), Check, Severity.Look, "1", "4").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_AllRight_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In()), Check);

    [Fact]
    public void Look_NothingSaid_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In(3.8, 9, null)), Check);
}
