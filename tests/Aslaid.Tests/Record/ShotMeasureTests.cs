using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class ShotMeasureTests
{
    private static readonly AsBuiltRecord Site = Derivation.Derive(SampleInputs.Of(SampleSites.Clean(3)));

    public static TheoryData<QuantityKind> Measures => [QuantityKind.PlanLength, QuantityKind.SlopeLength, QuantityKind.Area];

    [Theory]
    [MemberData(nameof(Measures))]
    public void Of_EveryRun_HasValueAndUncertaintyOfTheRun(QuantityKind kind)
    {
        var compared = 0;
        for (var number = 0; number < Site.Runs.Count; number++)
        {
            var run = Site.Runs[number];
            var (value, u) = kind switch
            {
                QuantityKind.PlanLength => ((double?)run.PlanLength, run.UPlanLength),
                QuantityKind.SlopeLength => (run.SlopeLength, run.USlopeLength),
                _ => (run.Area, run.UArea),
            };
            if (ShotMeasure.Of(run, kind) is not { } measure) continue;
            Assert.Equal(value!.Value, measure.Value, 1e-9);
            Assert.Equal(u!.Value, measure.U(Site.Shots)!.Value, 1e-9);
            compared++;
        }

        Assert.True(compared > 3, $"Only {compared} runs were compared.");
    }

    [Fact]
    public void Plus_MinusItself_IsExactlyNothing()
    {
        var measure = ShotMeasure.Of(Site.Runs[0], QuantityKind.SlopeLength)!;
        var nothing = measure.Plus(measure, -1);
        Assert.Equal((0, 0), (nothing.Value, nothing.U(Site.Shots)));
    }

    // Two legs of a straight through one shot: the shared shot's errors cancel along the line, u² = u1² + u3² per axis.
    [Fact]
    public void Plus_LegsThatShareAShot_CountItOnce()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 KERB A\n2 10 0 5 KERB A\n2 - - - EDGE B\n3 25 0 5 EDGE B"));
        var sum = ShotMeasure.Of(record.Runs[0], QuantityKind.PlanLength)!.Plus(ShotMeasure.Of(record.Runs[1], QuantityKind.PlanLength)!);
        Assert.Equal(25, sum.Value, 1e-9);
        Assert.Equal(0.012, sum.U(record.Shots)!.Value, 1e-9);
    }

    [Fact]
    public void BySession_LengthWithinOneSession_AnswersToNoCommonShift()
    {
        foreach (var term in ShotMeasure.Of(Site.Runs[0], QuantityKind.SlopeLength)!.BySession(Site.Shots).Values)
            Assert.Equal(0, Math.Abs(term.East) + Math.Abs(term.North) + Math.Abs(term.Height), 1e-9);
    }
}
