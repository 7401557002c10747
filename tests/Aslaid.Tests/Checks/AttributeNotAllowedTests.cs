using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class AttributeNotAllowedTests
{
    private const string Check = "attribute-not-allowed";

    private static RecordInputs Asking(string lines, params DeliveryItem[] items) => ShotsOf.Lines(lines) with { Delivery = new([.. items]) };

    [Fact]
    public void Look_WordThatIsNotListed_IsFound()
    {
        var inputs = Asking("1 0 0 5 DUCT D1 straight material=CLAY\n2 5 0 5 DUCT D1\n3 0 9 5 DUCT D2 straight material=PE\n4 5 9 5 DUCT D2", new DeliveryItem("DUCT", "material", false) { Words = ["PE", "PVC"] });
        Assert.Equal("material of DUCT is CLAY; allowed are PE, PVC (1 run (D1)).", CheckAssert.Single(inputs, Check, Severity.Look, "1").Message);
        CheckAssert.Silent(inputs.Then(new AttributeSet("DUCT/D1", "material", "PVC")), Check);
    }

    [Fact]
    public void Look_NumberOutOfRange_IsFound()
    {
        var item = new DeliveryItem("CHAMBER", "size", false) { Least = 0.3, Most = 2 };
        Assert.Equal("size of CHAMBER is 2.5; allowed is 0.3 to 2 (2 shots (2, 3)).",
            CheckAssert.Single(Asking("1 0 0 5 CHAMBER - - size=2\n2 9 0 5 CHAMBER - - size=2.5\n3 18 0 5 CHAMBER - - size=wide", item), Check, Severity.Look, "2", "3").Message);
    }

    [Fact]
    public void Look_NegativeDepth_IsFoundWithoutADeliveryTable() => Assert.Equal(
        "depth_m of DUCT is -0.8; a size is never below 0 (1 run (D1)).",
        CheckAssert.Single(ShotsOf.Lines("1 0 0 5 DUCT D1 straight depth_m=0.7\n2 5 0 5 DUCT D1 straight depth_m=-0.8"), Check, Severity.Look, "1").Message);

    [Fact]
    public void Look_AllowedOrNotAskedFor_IsSilent()
    {
        CheckAssert.Silent(Asking("1 0 0 5 DUCT D1 straight material=PE\n2 5 0 5 DUCT D1 straight depth_m=0.8 od_m=wide", new DeliveryItem("DUCT", "material", true) { Words = ["PE"] }), Check);
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 DUCT D1 straight material=CLAY\n2 5 0 5 DUCT D1"), Check);
    }
}
