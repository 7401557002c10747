using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ArcNotProvenTests
{
    private const string Check = "arc-not-proven";

    private static string Arc(string ordinate) => $"1 0 0 5 KERB K1\n2 4 {ordinate} 5 KERB K1 through\n3 8 0 5 KERB K1";

    [Fact]
    public void Look_FlatterThanItsDoubt_IsFoundAndCured()
    {
        var inputs = ShotsOf.Lines(Arc("0.012"));
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "1", "2", "3");
        Assert.Equal("Arc 1, 2, 3 is not proven: 0.012 m off its chord, limit 0.031 m (3u). It runs straight through its shots.", finding.Message);
        CheckAssert.CuredByItsCorrection(inputs, Check);
    }

    [Fact]
    public void Look_ProvenArc_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(Arc("0.04")), Check);

    [Fact]
    public void Correction_LeavesOtherArcs()
    {
        var inputs = ShotsOf.Lines(Arc("0.012") + "\n4 10 2 5 KERB K1 through\n5 8 4 5 KERB K1");
        var run = Derivation.Derive(inputs.Then(Assert.Single(inputs.Find(Check)).Correction!)).Runs[0];
        Assert.Equal([false, false, false, true, false], run.Through.ToArray());
    }
}
