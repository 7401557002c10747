using Aslaid.Record;
using Aslaid.Sheets;

namespace Aslaid.Tests;

public class AccuracyBasisTests
{
    /// <summary>Shots good to 0.014 m in plan (radial: 0.0099 m an axis) and 0.02 m in height, with a session of 0.010 m and 0.015 m: 2.448 and 1.960 times hold 95 %.</summary>
    [Fact]
    public void Of_NoLimits_SaysTheLargestAndThatNothingLimits() => Assert.Equal(
        "Largest 95 % uncertainty 0.030 m in plan, 0.049 m in height; no code here sets a limit; 0 state none.",
        AccuracyBasis.Of(SheetRecord.Of(SheetRecord.Small())));

    [Fact]
    public void Of_LimitTightened_CountsThoseOverIt()
    {
        var inputs = SheetRecord.Of(SheetRecord.Small()).Inputs;
        var codes = inputs.Codes.Entries.Select(entry => entry.Code == "WATER-MAIN" ? entry with { Plan95Max = 0.02 }
            : entry.Code == "STORM-DRAIN" ? entry with { Plan95Max = 0.04 } : entry);
        var record = Derivation.Derive(inputs with { Codes = new([.. codes]) });
        Assert.Contains("; 5 of 7 shots whose code sets a limit exceed it; 0 state none.", AccuracyBasis.Of(record), StringComparison.Ordinal);
    }
}
