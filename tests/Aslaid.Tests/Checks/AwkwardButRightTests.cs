using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>What looks wrong and is not: no stop.</summary>
public class AwkwardButRightTests
{
    public static TheoryData<string, string> Sites => new()
    {
        { "no accuracy and no time", "1 0 0 5 DUCT D1 straight u_plan=- u_height=- time=-\n2 8 0 5 DUCT D1 straight u_plan=- u_height=- time=-" },
        { "codes between codes, without labels", "1 0 0 5 KERB\n2 0 0.9 4 DUCT\n3 6 0 5 KERB\n4 6 0.9 4 DUCT\n5 12 0 5 KERB\n6 12 0.9 4 DUCT" },
        { "a whole job exported again the day after", "--- North\n1 0 0 5 GROUND\n2 9 0 5 GROUND\n--- North\n1 0 0 5 GROUND\n2 9 0 5 GROUND" },
        { "a detail measured ten times within minutes", string.Join('\n', Enumerable.Range(1, 10).Select(i => FormattableString.Invariant($"{i} {0.002 * i} 0 {5.003 + 0.0017 * i:F4} LAMP-COLUMN"))) },
        { "touching ducts", "1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1\n4 0 0.11 5 DUCT D2\n5 8 0.11 5 DUCT D2\n6 16 0.11 5 DUCT D2" },
        { "face and back of a kerb", "1 0 0 5 KERB K1\n2 0 0.15 5 EDGE B1\n3 8 0 5 KERB K1\n4 8 0.15 5 EDGE B1" },
        { "jointed pipes laid as chords", "1 0 0 5 DUCT D1\n2 6 0.3 5 DUCT D1\n3 12 1.2 5 DUCT D1\n4 18 2.7 5 DUCT D1\n5 24 4.8 5 DUCT D1" },
        { "an end that goes on one day", "1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1" },
        { "a run shot backwards by another crew", "--- North\n1 0 0 5 KERB K1\n2 8 0 5 KERB K1\n--- South\n1 16 0 5 KERB K1\n2 8 0 5 KERB K1" },
        { "a hairpin", "1 0 0 5 EDGE E1\n2 20 0 5 EDGE E1\n3 21 1 5 EDGE E1 through\n4 20 2 5 EDGE E1\n5 0 2 5 EDGE E1" },
        { "a crossing of its own path", "1 0 0 5 EDGE E1\n2 9 9 5 EDGE E1\n3 9 0 5 EDGE E1\n4 0 9 5 EDGE E1" },
        { "a shore at the height of the sea", "1 0 0 0.35 DUCT D1\n2 8 0 0 DUCT D1\n3 16 0 -0.2 DUCT D1\n4 3 3 0 CHAMBER" },
        { "a total station beside a receiver", "1 0 0 5 GROUND - - fix=fixed sats=14 pdop=1.2\n2 9 0 5 GROUND - - sats=0 pdop=0\n3 18 0 5 GROUND" },
        { "a pole that leans on purpose", "1 0 0 5 DUCT D1 straight pole=2 tilt=31 tilt_compensated=yes\n2 8 0 5 DUCT D1 straight pole=2 tilt=28 tilt_compensated=yes" },
        { "files along a road of twelve kilometres", "1 0 0 5 GROUND\n9 9 0 5 GROUND\n--- North\n2 4000 0 5 GROUND\n3 4009 0 5 GROUND\n--- North\n4 8000 0 5 GROUND\n5 8009 0 5 GROUND\n--- North\n6 12000 0 5 GROUND\n7 12009 0 5 GROUND" },
        { "fixed by any word", "1 0 0 5 GROUND fix=FIXED\n2 5 0 5 GROUND fix=4\n3 9 0 5 GROUND fix=RTK-Fixed" },
    };

    [Theory]
    [MemberData(nameof(Sites))]
    public void Look_AwkwardButRight_NoStop(string what, string lines)
    {
        var table = Derivation.Derive(ShotsOf.Lines(lines)).Findings;
        Assert.Empty(Enumerable.Range(0, table.Count).Select(number => table[number]).Where(finding => finding.Severity == Severity.Stop)
            .Select(finding => $"{what}: {finding.Check.Name}: {finding.Message}"));
    }
}
