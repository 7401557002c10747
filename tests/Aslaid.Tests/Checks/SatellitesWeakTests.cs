using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class SatellitesWeakTests
{
    private const string Check = "satellites-weak";

    [Fact]
    public void Look_FewSatellites_IsFound()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("1 0 0 5 GROUND - - sats=12 pdop=1.2\n2 9 0 5 GROUND - - sats=5 pdop=3.9"), Check, Severity.Look, "2");
        Assert.Equal("5 satellites, limit 6 (2).", finding.Message);
        Assert.Equal((5.0, 6.0), (finding.Measured, finding.Allowed!.Value));
    }

    [Fact]
    public void Look_WeakShotsInARow_IsFoundOnceWithTheWorst()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("""
            1 0 0 5 DUCT D1 straight fix=fixed sats=14 pdop=1.4
            2 5 0 5 DUCT D1 straight fix=fixed sats=5 pdop=4.5
            3 10 0 5 DUCT D1 straight fix=fixed sats=4 pdop=6.1
            4 15 0 5 DUCT D1 straight fix=fixed sats=14 pdop=1.4
            """), Check, Severity.Look, "2", "3");
        Assert.Equal("4 satellites, limit 6; PDOP 6.1, limit 4.0 (2, 3 on D1 from 0.0 m to 15.0 m).", finding.Message);
        Assert.Equal(Reshoot.Open, finding.Reshoot);
    }

    [Fact]
    public void Look_HighDilutionAlone_IsFound() =>
        Assert.Equal("PDOP 4.1, limit 4.0 (1).", CheckAssert.Single(ShotsOf.Lines("1 0 0 5 GROUND - - pdop=4.1"), Check, Severity.Look, "1").Message);

    [Fact]
    public void Look_AtTheLimitsOrNoSatellites_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - sats=6 pdop=4"), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - fix=float sats=4 pdop=9"), Check); // solution-not-fixed tells of it
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 GROUND - - sats=0 pdop=0\n2 9 0 5 GROUND"), Check); // a total station
    }
}
