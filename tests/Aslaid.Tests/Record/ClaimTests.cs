using Aslaid.Record;
using Aslaid.Testing;
using CsCheck;

namespace Aslaid.Tests;

public class ClaimTests
{
    private const string Days = """
        --- North
        1 0 0 5 DUCT PD-1 - trench_depth_m=0.8
        2 8 0 5 DUCT PD-1 - trench_depth_m=0.9
        3 16 0 5 DUCT PD-1 - trench_depth_m=1.7
        4 30 40 5 GROUND
        5 24 0 5 DUCT PD-1 - trench_depth_m=1.6
        """;

    private static AsBuiltRecord At(RecordInputs inputs, int position) => Derivation.Derive(inputs with { Journal = [.. inputs.Journal.Where(entry => entry.Position <= position)] });

    private static Claim[] Of(RecordInputs inputs) => [.. Claims.Of(inputs.Journal, position => At(inputs, position))];

    [Fact]
    public void Claim_ByDepthBand_TakesTheDeeperEndOfEachLeg()
    {
        var lines = ClaimTake.Of(Derivation.Derive(ShotsOf.Lines(Days)));
        Assert.Equal(8, lines[new(null, "DUCT", QuantityKind.PlanLength, "0.0 to 1.5 m")], 1e-9);
        Assert.Equal(16, lines[new(null, "DUCT", QuantityKind.PlanLength, "1.5 to 3.0 m")], 1e-9);
        Assert.Equal(1, lines[new(null, "GROUND", QuantityKind.Count, "")]);
    }

    [Fact]
    public void Claim_OfAPeriodAfterAStretchWasSetAside_HasANegativeCorrection()
    {
        var inputs = ShotsOf.Lines(Days).Then(new RoleGiven("A. Person", "engineer"));
        inputs = inputs.Then(new ClaimMade("2026-03", 1)).Then(new SetAside([new(1, 6)])).Then(new ClaimMade("2026-04", 3));
        var claims = Of(inputs);
        Assert.Equal(["2026-03", "2026-04", null], claims.Select(claim => claim.Period));
        var deep = Assert.Single(claims[1].Lines, line => line.Line.Band == "1.5 to 3.0 m");
        Assert.Equal((16, -8, 8), (deep.Previous, deep.Now, deep.ToDate));
        Assert.All(claims[2].Lines, line => Assert.Equal(0, line.Now));
        Assert.Equal([null], Of(inputs.Then(new Withdrawn(2)).Then(new Withdrawn(4))).Select(claim => claim.Period));
    }

    /// <summary>Whatever happens between claims: previous and this period are to date, and the next period begins where this one ends.</summary>
    [Fact]
    public void Claims_OfAnyHistory_AddUp() => Gen.Int[0, 4].Array[1, 12].Sample(picks =>
    {
        var inputs = ShotsOf.Lines(Days);
        foreach (var pick in picks)
        {
            inputs = inputs.Then(pick switch
            {
                0 => new ClaimMade($"P{inputs.Journal.Length}", Math.Max(1, inputs.Journal.Length)),
                1 => new SetAside([new(1, 2 + inputs.Journal.Length % 4)]),
                2 => new Restored([new(1, 2 + inputs.Journal.Length % 4)]),
                3 => new AttributeSet("DUCT/PD-1@North", "status", inputs.Journal.Length % 2 == 0 ? "existing" : "new"),
                _ => new AttributeSet("DUCT/PD-1@North", "trench_depth_m", "2.2"),
            });
        }

        var claims = Of(inputs);
        for (var claim = 0; claim < claims.Length; claim++)
        {
            foreach (var line in claims[claim].Lines)
            {
                Assert.Equal(line.ToDate, line.Previous + line.Now, 1e-9);
                if (claim > 0) Assert.Equal(claims[claim - 1].Lines.Where(other => other.Line == line.Line).Sum(other => other.ToDate), line.Previous);
            }
        }
    }, iter: 150);

    [Fact]
    public void Lengths_BetweenChambers_LeaveTheirSizeOut()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 CHAMBER\n1 - - - DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 CHAMBER\n3 - - - DUCT D1\n4 24 0 5 DUCT D1");
        inputs = inputs with { Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "CHAMBER" ? entry with { Width = 1.2 } : entry)]) };
        var between = inputs with { Settings = inputs.Settings with { NodeLeftOutShare = 1 } };
        Quantity Length(RecordInputs of) => Derivation.Derive(of).Quantities.Single(quantity => quantity.Kind == QuantityKind.PlanLength);
        Assert.Equal(24, Length(inputs).Value, 1e-9);
        Assert.Equal(24 - 0.6 - 1.2, Length(between).Value, 1e-9);
        Assert.EndsWith("through chambers", Length(inputs).Rule, StringComparison.Ordinal);
        Assert.EndsWith("between chambers", Length(between).Rule, StringComparison.Ordinal);
        Assert.Equal(22.2, ClaimTake.Of(Derivation.Derive(between)).Where(line => line.Key.Kind == QuantityKind.PlanLength).Sum(line => line.Value), 1e-9);
    }
}
