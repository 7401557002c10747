using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ConnectionMissingTests
{
    private const string Check = "connection-missing";

    [Fact]
    public void Look_AtTheChamber_IsFound() => Assert.StartsWith(
        "1 has 1 connection on record; OUT ends there and is none of them.",
        CheckAssert.Single(NodeTests.Inputs(NodeTests.In()), Check, Severity.Look, "1", "5").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_AllRight_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In(), NodeTests.Out()), Check);

    [Fact]
    public void Look_NothingSaid_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(), Check);
}
