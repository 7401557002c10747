using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class CrossingNotMeasuredTests
{
    private const string Check = "crossing-not-measured";

    private const string Pipe = "1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1";
    private const string Gas = "existing GAS G1 10 -10 4.5; 10 10 4.5";

    [Fact]
    public void Look_OldMainCrossed_IsFound() => Assert.Equal(
        "P1 crosses G1 at 10.0 m (there station 10.0 m), known from the design only, which has it 0.500 m lower: not measured.",
        CheckAssert.Single(DesignOf.Lines(Pipe).WithDesign(Gas), Check, Severity.Look, "1").Message);

    [Fact]
    public void Look_MeasuredThere_IsSilent() => CheckAssert.Silent(DesignOf.Lines(Pipe + "\n3 10 -2 4.5 GAS G1\n4 10 2 4.5 GAS G1").WithDesign(Gas), Check);

    [Fact]
    public void Look_StillToBeBuilt_IsSilent() => CheckAssert.Silent(DesignOf.Lines(Pipe).WithDesign("GAS G1 10 -10 4.5; 10 10 4.5"), Check);
}
