using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class DesignCurveCutTests
{
    private const string Check = "design-curve-cut";

    private const string Curve = "PIPE W1 -10 0 5; 0 0 5; ~14.3494 5.9437 5; 20.2932 20.2932 5; 20.2932 30 5"; // a quarter turn of radius 20.2932

    [Fact]
    public void Look_TwoChords_IsFoundTwice()
    {
        var findings = DesignOf.Lines("1 -10 0 5 PIPE P1\n2 0 0 5 PIPE P1\n3 14.3494 5.9437 5 PIPE P1\n4 20.2932 20.2932 5 PIPE P1").WithDesign(Curve).Find(Check);
        Assert.Equal(["2 3", "3 4"], findings.Select(finding => string.Join(' ', finding.ShotIds)));
        Assert.All(findings, finding => Assert.Equal(20.2932 * (1 - Math.Cos(Math.PI / 8)), finding.Measured!.Value, 1e-3)); // the sagitta of half the curve
        Assert.Matches(@"^P1 cuts across the curve of W1 of the design \(radius 20\.29\d m\) from 2 to 3: a chord of 15\.53\d m leaves it by 1\.54\d m at station 17\.9\d m, limit 0\.025 m\.$", findings[0].Message);
    }

    [Fact]
    public void Look_ATrueArc_IsSilent() => CheckAssert.Silent(DesignOf.Lines("1 -10 0 5 PIPE P1\n2 0 0 5 PIPE P1\n3 14.3494 5.9437 5 PIPE P1 through\n4 20.2932 20.2932 5 PIPE P1").WithDesign(Curve), Check);
}
