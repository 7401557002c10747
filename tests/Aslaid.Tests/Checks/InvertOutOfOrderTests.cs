using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class InvertOutOfOrderTests
{
    private const string Check = "invert-out-of-order";

    [Fact]
    public void Look_AtTheChamber_IsFound() => Assert.StartsWith(
        "At 1 the outlet B at 4.200 m lies 0.200 m above the inlet A at 4.000 m; 0.010 m may be the reading.",
        CheckAssert.Single(NodeTests.Inputs(NodeTests.In(), NodeTests.Out(4.2)), Check, Severity.Stop, "1").Message, StringComparison.Ordinal);

    [Fact]
    public void Look_AllRight_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In(), NodeTests.Out()), Check);

    [Fact]
    public void Look_NothingSaid_IsSilent() => CheckAssert.Silent(NodeTests.Inputs(NodeTests.In(null), NodeTests.Out(4.2)), Check);
}
