using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class AttributeMissingTests
{
    private const string Check = "attribute-missing";

    private static RecordInputs Asking(string lines, params DeliveryItem[] items) => ShotsOf.Lines(lines) with { Delivery = new([.. items]) };

    [Fact]
    public void Look_RunsAndPointsWithout_IsFoundOnceForEachAttribute()
    {
        var inputs = Asking("""
            1 0 0 5 DUCT D1
            2 5 0 5 DUCT D1
            3 0 9 5 DUCT D2 straight material=PE
            4 5 9 5 DUCT D2
            5 0 20 5 CHAMBER
            6 9 20 5 CHAMBER - - lid=D400
            """, new("DUCT", "material", true), new("CHAMBER", "lid", true), new("CHAMBER", "owner", false), new("NO-CODE", "owner", true));
        var found = inputs.Find(Check);
        Assert.Equal(
            ["The delivery table requires material of DUCT; 1 run (D1) has none.", "The delivery table requires lid of CHAMBER; 1 shot (5) has none."],
            found.Select(finding => finding.Message));
        Assert.All(found, finding => Assert.Equal((Severity.Look, Reshoot.None), (finding.Severity, finding.Reshoot)));
        CheckAssert.Silent(inputs.Then(new AttributeSet("DUCT/D1", "material", "PVC")) with { Delivery = new([inputs.Delivery.Items[0]]) }, Check);
    }

    [Fact]
    public void Look_ManyRuns_IsFoundOnceWithTheFirstByName()
    {
        var finding = CheckAssert.Single(Asking(string.Join('\n', Enumerable.Range(1, 8).Select(i => $"{i}1 0 {9 * i} 5 KERB K{i}\n{i}2 5 {9 * i} 5 KERB K{i}")), new DeliveryItem("KERB", "stone", true)),
            Check, Severity.Look, "11", "21", "31", "41", "51", "61", "71", "81");
        Assert.Equal("The delivery table requires stone of KERB; 8 runs (K1, K2, K3, K4, K5, K6 and 2 more) have none.", finding.Message);
    }

    [Fact]
    public void Look_NothingAskedFor_IsSilent() => CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1"), Check);

    [Fact]
    public void Look_ColumnOfNumbersOrOtherCapitals_IsSilent() => CheckAssert.Silent(
        Asking("1 0 0 5 DUCT D1 straight Material=PE sats=12\n2 5 0 5 DUCT D1", new("DUCT", "material", true), new("DUCT", "sats", true)), Check);
}
