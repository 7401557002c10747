using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ConnectionDirectionTests
{
    private const string Check = "connection-direction";

    [Fact]
    public void Look_AtTheChamber_IsFound() => Assert.StartsWith(
        "Connection A of 1 points to 3.0 o'clock, IN leaves to 9.0 o'clock (12 is grid north): 6.0 hours apart, limit 1.0.",
        CheckAssert.Single(NodeTests.Inputs(NodeTests.In(4.0, 3)), Check, Severity.Look, "1").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_AllRight_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In(4.0, 9.5)), Check);

    [Fact]
    public void Look_NothingSaid_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In(4.0, null)), Check);
}
