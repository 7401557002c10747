using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class JudgementTests
{
    private static readonly Limits TwoSided = new(-0.03, 0.05);

    private static readonly Gen<(double Value, double U, Limits Limits, double Share)> Any = Gen.Select(
        Gen.Double[-0.2, 0.2], Gen.Double[0.001, 0.06], Gen.Select(Gen.Double[-0.1, 0], Gen.Double[0, 0.1], Gen.Int[0, 2]), Gen.Double[0, 1],
        (value, u, limits, share) => (value, u, new Limits(limits.Item3 == 1 ? null : limits.Item1, limits.Item3 == 2 ? null : limits.Item2), share));

    [Fact]
    public void OfTolerance_FullGuardBand_VerdictFollowsTheProbability() => Any.Sample(any =>
    {
        var judgement = Judgement.OfTolerance(any.Value, any.U, any.Limits, 1);
        switch (judgement.Verdict)
        {
            case Verdict.Conforms: Assert.True(judgement.Within & judgement.PConforms > 0.949); break;
            case Verdict.DoesNotConform: Assert.True(!judgement.Within & judgement.PConforms < 0.0251); break;
            case Verdict.MethodUnfit: Assert.True(judgement.PConforms < 0.951); break;
        }
    });

    [Fact]
    public void OfTolerance_NarrowerBand_NeverTurnsAProvenAnswer() => Any.Sample(any =>
    {
        var (full, less) = (Judgement.OfTolerance(any.Value, any.U, any.Limits, 1), Judgement.OfTolerance(any.Value, any.U, any.Limits, any.Share));
        if (full.Verdict != Verdict.NotProven) Assert.Equal(full.Verdict, less.Verdict);
        Assert.Equal((full.Within, full.PConforms), (less.Within, less.PConforms));
    });

    [Fact]
    public void OfTolerance_Mirrored_IsTheSame() => Any.Sample(any =>
    {
        var (one, other) = (Judgement.OfTolerance(any.Value, any.U, any.Limits, any.Share), Judgement.OfTolerance(-any.Value, any.U, new(-any.Limits.Upper, -any.Limits.Lower), any.Share));
        Assert.Equal((one.Verdict, one.Within), (other.Verdict, other.Within));
        Assert.Equal(one.PConforms!.Value, other.PConforms!.Value, 1e-12);
    });

    [Fact]
    public void OfTolerance_ValueWithinItsAcceptance_Conforms() => Any.Sample(any =>
    {
        var judgement = Judgement.OfTolerance(any.Value, any.U, any.Limits, any.Share);
        if (judgement.Verdict != Verdict.MethodUnfit) Assert.Equal(judgement.Acceptance!.Value.Hold(any.Value) && judgement.Within == true, judgement.Verdict == Verdict.Conforms);
    });

    [Theory] // limits −30 and +50 mm, U = 19.6 mm at u = 10 mm
    [InlineData(0.0304, Verdict.Conforms)]
    [InlineData(0.0305, Verdict.NotProven)]
    [InlineData(0.0695, Verdict.NotProven)]
    [InlineData(0.0697, Verdict.DoesNotConform)]
    [InlineData(-0.0104, Verdict.Conforms)]
    [InlineData(-0.0105, Verdict.NotProven)]
    [InlineData(-0.0497, Verdict.DoesNotConform)]
    public void OfTolerance_UnequalLimits_AreJudgedEachByItself(double value, Verdict expected) =>
        Assert.Equal(expected, Judgement.OfTolerance(value, 0.010, TwoSided, 1).Verdict);

    [Theory]
    [InlineData(0.05, Verdict.Conforms)]
    [InlineData(0.0500009, Verdict.Conforms)]
    [InlineData(0.0500011, Verdict.DoesNotConform)]
    public void OfTolerance_NoGuardBand_IsTheBareLimit(double value, Verdict expected)
    {
        var judgement = Judgement.OfTolerance(value, 0.010, TwoSided, 0);
        Assert.Equal(expected, judgement.Verdict);
        Assert.Equal(expected == Verdict.Conforms, judgement.Within);
    }

    [Fact]
    public void OfTolerance_NoUncertainty_IsNeverAPass()
    {
        var judgement = Judgement.OfTolerance(0.01, null, TwoSided, 0);
        Assert.Equal((true, Verdict.NotProven, null, null), (judgement.Within, judgement.Verdict, judgement.PConforms, judgement.Acceptance));
    }

    [Fact]
    public void OfTolerance_Exact_IsProven()
    {
        Assert.Equal((Verdict.Conforms, 1.0), Told(Judgement.OfTolerance(0.05, 0, TwoSided, 1)));
        Assert.Equal((Verdict.DoesNotConform, 0.0), Told(Judgement.OfTolerance(0.051, 0, TwoSided, 1)));

        static (Verdict, double?) Told(Judgement judgement) => (judgement.Verdict, judgement.PConforms);
    }

    [Theory] // half the width is 40 mm: U = 39.2 mm may prove something, 41.2 mm nothing
    [InlineData(0.01, 0.020, 1, Verdict.Conforms)]
    [InlineData(0.01, 0.021, 1, Verdict.MethodUnfit)]
    [InlineData(0.01, 0.021, 0, Verdict.MethodUnfit)]
    [InlineData(0.09, 0.021, 0, Verdict.MethodUnfit)]
    [InlineData(0.0913, 0.021, 0, Verdict.DoesNotConform)]
    public void OfTolerance_NothingCouldConform_MethodUnfitUnlessBeyondDoubt(double value, double u, double share, Verdict expected) =>
        Assert.Equal(expected, Judgement.OfTolerance(value, u, TwoSided, share).Verdict);

    [Fact]
    public void OfTolerance_OneLimit_IsNeverUnfit()
    {
        Assert.Equal(Verdict.NotProven, Judgement.OfTolerance(5, 10, Limits.AtLeast(2), 1).Verdict);
        Assert.Equal(Verdict.Conforms, Judgement.OfTolerance(500, 10, Limits.AtLeast(2), 1).Verdict);
    }

    [Fact]
    public void OfTolerance_NothingMeasured_IsNotProvenOrUnfit()
    {
        var judgement = Judgement.OfTolerance(null, 0.01, TwoSided, 1);
        Assert.Equal((null, Verdict.NotProven, null), (judgement.Within, judgement.Verdict, judgement.PConforms));
        Assert.Equal(Verdict.MethodUnfit, Judgement.OfTolerance(null, 0.03, TwoSided, 1).Verdict);
    }

    [Theory] // radial: 2.448 × 10 mm = 24.5 mm inside 50 mm
    [InlineData(0.0255, 0.010, Verdict.Conforms)]
    [InlineData(0.0256, 0.010, Verdict.NotProven)]
    [InlineData(0.0746, 0.010, Verdict.DoesNotConform)]
    [InlineData(0.0100, 0.021, Verdict.MethodUnfit)]
    public void OfPlace_UsesTheCircle(double distance, double sigma, Verdict expected)
    {
        var judgement = Judgement.OfPlace(distance, sigma, 0.05, 1);
        Assert.Equal(expected, judgement.Verdict);
        Assert.Equal(Math.Sqrt(2) * sigma, judgement.U!.Value, 1e-15);
        Assert.Equal(CircularNormal.Within(0.05, distance, sigma), judgement.PConforms!.Value, 1e-15);
    }

    [Fact]
    public void OfPlace_NotKnownOrExact_IsNotProvenOrProven()
    {
        Assert.Equal(Verdict.NotProven, Judgement.OfPlace(0.01, null, 0.05, 1).Verdict);
        Assert.Equal(1, Judgement.OfPlace(0.05, 0, 0.05, 1).PConforms);
    }

    [Theory]
    [InlineData(0.05, true, Verdict.Conforms)]
    [InlineData(0.0501, false, Verdict.DoesNotConform)]
    [InlineData(null, null, Verdict.NotProven)]
    public void OfAccuracy_JudgesTheUncertaintyItself(double? u95, bool? within, Verdict expected)
    {
        var judgement = Judgement.OfAccuracy(u95, 0.05);
        Assert.Equal((within, expected, u95, null, null), (judgement.Within, judgement.Verdict, judgement.Value, judgement.U, judgement.PConforms));
    }

    [Fact]
    public void LimitsOfHeight_EachWayByItself()
    {
        CodeEntry Entry(double? both, double? high, double? low) => new("C", CodeKind.Point) { ToleranceHeight = both, ToleranceHigh = high, ToleranceLow = low };
        Assert.Equal(new Limits(-0.02, 0.02), Limits.OfHeight(Entry(0.02, null, null)));
        Assert.Equal(new Limits(-0.02, 0.01), Limits.OfHeight(Entry(0.02, 0.01, null)));
        Assert.Equal(new Limits(-0.03, 0), Limits.OfHeight(Entry(null, 0, 0.03)));
        Assert.Equal(new Limits(-0.03, null), Limits.OfHeight(Entry(null, null, 0.03)));
        Assert.True(Limits.OfHeight(Entry(null, null, null)).IsNone);
    }
}
