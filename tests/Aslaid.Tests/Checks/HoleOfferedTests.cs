using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class HoleOfferedTests
{
    private const string Check = "hole-offered";

    /// <summary>An island of 20 by 10 m with half-round noses, and a pit of 2 by 2 m.</summary>
    private const string Island = """
        1 0 0 5 ISLAND IS-1
        2 20 0 5 ISLAND IS-1
        3 25 5 5 ISLAND IS-1 through
        4 20 10 5 ISLAND IS-1
        5 0 10 5 ISLAND IS-1
        6 -5 5 5 ISLAND IS-1 through
        1 - - - ISLAND IS-1

        """;

    private static string Pit(double east, string label = "PIT-1") => FormattableString.Invariant($"""
        11 {east} 4 5 ISLAND {label}
        12 {east + 2} 4 5 ISLAND {label}
        13 {east + 2} 6 5 ISLAND {label}
        14 {east} 6 5 ISLAND {label}
        11 - - - ISLAND {label}
        """);

    private static readonly HoleDecided Hole = new("ISLAND/PIT-1", "ISLAND/IS-1", true);

    private static double Gross => 200 + 25 * Math.PI;

    private static Quantity Area(RecordInputs inputs) => Derivation.Derive(inputs).Quantities.Single(quantity => quantity.Kind == QuantityKind.Area);

    [Theory]
    [InlineData(8)]
    [InlineData(21.5)] // within the bulge of the nose
    public void Look_APitWithinAnIsland_IsFoundAndTakenOff(double east)
    {
        var inputs = ShotsOf.Lines(Island + Pit(east));
        var finding = CheckAssert.Single(inputs, Check, Severity.Look, "11", "12", "13", "14", "11");
        Assert.Equal("PIT-1, 4.00 m2, lies within ISLAND/IS-1: while nobody says that it is a hole, its area counts in both.", finding.Message);
        Assert.Equal(Hole, finding.Correction);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        CheckAssert.Silent(inputs.Then(Hole with { IsHole = false }), Check);
    }

    [Theory]
    [InlineData(30)]
    [InlineData(24)] // across the kerb
    public void Look_BesideOrAcross_IsSilent(double east) => CheckAssert.Silent(ShotsOf.Lines(Island + Pit(east)), Check);

    [Fact]
    public void Area_NetAndGross_AreInQuantities()
    {
        var inputs = ShotsOf.Lines(Island + Pit(8));
        Assert.Equal(Gross + 4, Area(inputs).Value, 1e-6);
        var net = Area(inputs.Then(Hole));
        Assert.Equal(Gross - 4, net.Value, 1e-6); // a hole of the same code is no area of its own
        Assert.Equal(Gross + 4, net.Gross!.Value, 1e-6);
        Assert.True(net.U > 0);
        Assert.Equal(Area(inputs), Area(inputs.Then(Hole).Then(new Withdrawn(1))));
        Assert.Equal(Area(inputs), Area(inputs.Then(Hole).Then(Hole with { IsHole = false })));
    }

    /// <summary>A session that shifts as a whole moves area and hole alike: the net area has the uncertainty of the shots alone.</summary>
    [Fact]
    public void NetArea_HasTheUncertaintyOfAMonteCarlo()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 ISLAND A\n2 20 0 5 ISLAND A\n3 20 10 5 ISLAND A\n4 0 10 5 ISLAND A\n1 - - - ISLAND A\n" + Pit(8)).Then(new HoleDecided("ISLAND/PIT-1", "ISLAND/A", true)));
        var (draws, sum) = (new MonteCarlo(record, 5), 0.0);
        int[] outer = [0, 1, 2, 3], inner = [5, 6, 7, 8];
        draws.Still();
        var still = Net();
        Assert.Equal(196, still, 1e-6);
        for (var draw = 0; draw < MonteCarlo.Draws; draw++)
        {
            draws.Draw();
            sum += (Net() - still) * (Net() - still);
        }

        Assert.Equal(1, Math.Sqrt(sum / MonteCarlo.Draws) / record.Quantities.Single(quantity => quantity.Kind == QuantityKind.Area).U!.Value, 0.02);

        double Net() => Ring(outer) - Ring(inner);
        double Ring(int[] rows) => Enumerable.Range(0, 4).Sum(i => (draws.At(rows[i]) - draws.At(rows[0])).Cross(draws.At(rows[(i + 1) % 4]) - draws.At(rows[0]))) / 2;
    }

    [Fact]
    public void Hole_ThatLiesElsewhere_IsUnresolved()
    {
        Assert.Contains("ISLAND/PIT-1 does not lie within ISLAND/IS-1", Assert.Single(Derivation.Derive(ShotsOf.Lines(Island + Pit(30)).Then(Hole)).Unresolved), StringComparison.Ordinal);
        Assert.Contains("there is no run ISLAND/X", Assert.Single(Derivation.Derive(ShotsOf.Lines(Island).Then(Hole with { Run = "ISLAND/X" })).Unresolved), StringComparison.Ordinal);
    }
}
