using System.Collections.Immutable;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class JudgementsTests
{
    private const string Arc = "1 0 0 5 KERB K1\n2 8 8 5 KERB K1 through\n3 0 16 5 KERB K1";

    private static ImmutableArray<Judged> Of(string lines, string requirement, Settings? settings = null) =>
        [.. Judgements.Of(Derivation.Derive(ShotsOf.Lines(lines) with { Settings = settings ?? ShotsOf.Settings })).Where(judged => judged.Requirement.Name == requirement)];

    [Fact]
    public void PlanAccuracy_OfARun_IsThatOfItsWorstShotWithWhatTheSessionShares()
    {
        var judged = Assert.Single(Of("1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1 straight u_plan=0.020\n3 9 0 5 DUCT D1", "plan-accuracy"));
        Assert.Equal(("DUCT", 1, 5.0), (judged.Code, judged.Shot, judged.From!.Value));
        Assert.Equal("DUCT/D1", judged.Run!.Value.Key);
        Assert.Equal(Normal.Circle95 * double.Hypot(0.020, 0.010) / Math.Sqrt(2), judged.Judgement.Value!.Value, 1e-9);
        Assert.Equal((true, Verdict.Conforms, 0.05), (judged.Judgement.Within, judged.Judgement.Verdict, judged.Judgement.Limits.Upper!.Value));
    }

    /// <summary>1.960·√(0.015² + 0.015²) = 0.042 m would do; counted twice until check shots prove it, 0.066 m does not.</summary>
    [Fact]
    public void HeightAccuracy_StatedAndNotProvenByCheckShots_IsNotProven()
    {
        var judged = Assert.Single(Of("1 0 0 5 GROUND - alone", "height-accuracy", Settings.Default));
        Assert.Equal(Normal.Within95 * double.Hypot(0.030, 0.015), judged.Judgement.Value!.Value, 1e-9);
        Assert.Equal((null, Verdict.NotProven), (judged.Judgement.Within, judged.Judgement.Verdict));
    }

    [Fact]
    public void HeightAccuracy_OfAPoint_HasNoChainage()
    {
        var judged = Assert.Single(Of("1 0 0 5 GROUND - alone u_height=0.030", "height-accuracy"));
        Assert.Equal((null, null, 0), (judged.Run, judged.From, judged.Shot));
        Assert.Equal(Normal.Within95 * double.Hypot(0.030, 0.015), judged.Judgement.Value!.Value, 1e-9);
        Assert.Equal(Verdict.DoesNotConform, judged.Judgement.Verdict);
    }

    [Theory]
    [InlineData("u_plan=-", "plan-accuracy")]
    [InlineData("u_height=-", "height-accuracy")]
    public void Accuracy_OneShotWithout_IsNotProven(string lacking, string requirement)
    {
        var judged = Assert.Single(Of($"1 0 0 5 DUCT D1\n2 5 0 5 DUCT D1 straight {lacking}\n3 9 0 5 DUCT D1", requirement));
        Assert.Equal((1, Verdict.NotProven, null), (judged.Shot, judged.Judgement.Verdict, judged.Judgement.Within));
    }

    [Fact]
    public void HeightAccuracy_HeightMissing_IsNotProven() =>
        Assert.Equal(Verdict.NotProven, Assert.Single(Of("1 0 0 5 DUCT D1\n2 5 0 - DUCT D1\n3 9 0 5 DUCT D1", "height-accuracy")).Judgement.Verdict);

    [Fact]
    public void Accuracy_OneShotWithoutAndOneTooBad_DoesNotConform() => Assert.Equal(
        Verdict.DoesNotConform, Assert.Single(Of("1 0 0 5 DUCT D1 straight u_plan=-\n2 5 0 5 DUCT D1 straight u_plan=0.2\n3 9 0 5 DUCT D1", "plan-accuracy")).Judgement.Verdict);

    [Fact]
    public void Radius_OfAnArc_HasBothAnswers()
    {
        var judged = Assert.Single(Of(Arc, "radius"));
        Assert.Equal(new Limits(2, 150), judged.Judgement.Limits);
        Assert.Equal(8, judged.Judgement.Value!.Value, 1e-6);
        Assert.Equal((true, Verdict.Conforms), (judged.Judgement.Within, judged.Judgement.Verdict));
        Assert.Equal(0, judged.From!.Value);
        Assert.Equal(8 * Math.PI, judged.To!.Value, 1e-6);
    }

    [Fact]
    public void Radius_WithinItsDoubt_IsWithinAndNotProvenUnlessTheLimitIsBare()
    {
        const string lines = "1 0 0 5 KERB K1\n2 2.004 2.004 5 KERB K1 through\n3 0 4.008 5 KERB K1";
        var full = Assert.Single(Of(lines, "radius")).Judgement;
        Assert.Equal((true, Verdict.NotProven), (full.Within, full.Verdict));
        Assert.InRange(full.PConforms!.Value, 0.5, 0.8);
        Assert.Equal(Verdict.Conforms, Assert.Single(Of(lines, "radius", new() { GuardBand = 0 })).Judgement.Verdict);
    }

    [Fact]
    public void Explanation_OfARun_HasItsVerdicts()
    {
        var record = Derivation.Derive(ShotsOf.Lines(Arc + "\n4 30 0 5 KERB K2\n5 34 0 5 KERB K2"));
        var lines = Explanation.Of(record, record.Runs[0]).Select(line => line.Text).ToList();
        Assert.Contains("height-accuracy at 0.00 m, shot 1: 0.042 m, at most 0.050 m: within its limits, conforms", lines);
        Assert.Single(lines, line => line.StartsWith("radius at 0.00 m, shot 2: 8.000 ± 0.0", StringComparison.Ordinal)
            && line.EndsWith(" m, 2.000 to 150.000 m: within its limits, conforms (probability 1.000)", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_NothingLimited_IsEmpty() => Assert.Empty(Judgements.Of(Derivation.Derive(ShotsOf.Lines("1 0 0 5 EDGE E\n2 5 0 5 EDGE E"))));

    [Fact]
    public void Count_SumsToAll_InOrderOfTheCatalogue()
    {
        var all = Judgements.Of(Derivation.Derive(ShotsOf.Lines(Arc + "\n4 20 0 5 GROUND - alone u_plan=0.2\n5 30 0 5 GROUND - alone u_height=-")));
        var counts = Judgements.Count(all);
        Assert.Equal(["plan-accuracy", "height-accuracy", "radius"], counts.Select(count => count.Requirement.Name));
        Assert.Equal((2, 1, 0, 0), (counts[0].Conform, counts[0].DoNotConform, counts[0].NotProven, counts[0].MethodUnfit));
        Assert.Equal((2, 0, 1, 0), (counts[1].Conform, counts[1].DoNotConform, counts[1].NotProven, counts[1].MethodUnfit));
        Assert.Equal(all.Length, counts.Sum(count => count.Conform + count.DoNotConform + count.NotProven + count.MethodUnfit));
    }

    [Fact]
    public void EveryRequirement_IsInTheCatalogueOnce()
    {
        var written = typeof(IRequirement).Assembly.GetTypes().Where(type => type is { IsInterface: false, IsAbstract: false } && type.IsAssignableTo(typeof(IRequirement)));
        Assert.Equal(written.Select(type => type.Name).Order(StringComparer.Ordinal), RequirementCatalogue.All.Select(each => each.GetType().Name).Order(StringComparer.Ordinal));
        Assert.All(RequirementCatalogue.All, each => Assert.True(each.Name.Length * each.Title.Length * each.Unit.Length > 0));
    }
}
