using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class ControlDriftTests
{
    private const string Check = "control-drift";

    private static (double, double, double) After(int number, int from, double east, double height = 0) => number < from ? SessionOf.Noise(number) : (east, 0, height);

    [Fact]
    public void Look_SamePointLater_IsFoundAndLeads()
    {
        var inputs = SessionOf.Inputs((_, number) => After(number, 2, 0.09), [0, 1], [1, 0]);
        var finding = CheckAssert.Single(inputs, Check, Severity.Stop, "901", "902");
        Assert.Equal("From check shot 901 to 902 (both on M2) the misfit changes by 0.091 m in plan (E +0.091, N -0.002, H -0.001 m) in 5 minutes, limit 0.044 m: one of both moments is wrong, and nobody knows which.", finding.Message);
        Assert.Equal([Check], SessionOf.Leading(inputs));
    }

    [Fact]
    public void Look_InHeight_IsFound() => Assert.Contains("in height", Assert.Single(SessionOf.Inputs((_, number) => After(number, 2, 0, -0.1), [0, 1], [1, 0]).Find(Check)).Message, StringComparison.Ordinal);

    [Fact]
    public void Look_WithinHalfTheTolerance_IsFoundAsALook()
    {
        var lines = SessionOf.Lines((_, number) => (number < 2 ? 0 : 0.021, 0, 0), [0, 1], [1, 0]).Replace("u_plan=0.010", "u_plan=0.004", StringComparison.Ordinal);
        Assert.Equal(Severity.Look, Assert.Single(SessionOf.Inputs(lines).Find(Check)).Severity);
    }

    [Fact]
    public void Look_OneMarkMissed_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((mark, _) => (mark == 3 ? 0.12 : 0, 0, 0)), Check);

    [Fact]
    public void Look_ShiftedAlike_IsSilent() => CheckAssert.Silent(SessionOf.Inputs((_, number) => (0.2 + SessionOf.Noise(number).East, 0, 0), [0, 1], [1, 0]), Check);

    /// <summary>One session, twelve check shots, noise as stated times a factor.</summary>
    private static RecordInputs Coarse(int seed, double factor, double step = 0)
    {
        var random = new Random(seed);
        return SessionOf.Inputs((_, number) => (factor * 0.0071 * Deviate() + (number < 6 ? 0 : step), factor * 0.0071 * Deviate(), factor * 0.012 * Deviate()), [0, 1, 2, 3, 0, 1], [1, 0, 3, 2, 1, 0]);

        double Deviate() => Normal.Quantile(random.NextDouble());
    }

    [Fact]
    public void Look_CheckShotsOfACoarseInstrumentScatterEverywhere_IsSilentAndTheInstrumentLeads()
    {
        var sites = Enumerable.Range(1, 200).Select(seed => SessionOf.Leading(Coarse(seed, 4))).ToArray();
        Assert.InRange(sites.Count(leading => leading.Contains("accuracy-optimistic")), 190, 200);
        Assert.InRange(sites.Count(leading => leading.Contains(Check)), 0, 4);
        Assert.InRange(sites.Average(leading => leading.Length), 0, 1.3);
    }

    [Fact]
    public void Look_StepInTheMiddleOfManyCheckShots_IsFoundAndLeads()
    {
        var sites = Enumerable.Range(1, 200).Select(seed => SessionOf.Leading(Coarse(seed, 1, 0.09))).ToArray();
        Assert.InRange(sites.Count(leading => leading.Contains(Check)), 196, 200);
        Assert.InRange(sites.Average(leading => leading.Length), 1, 1.1);
    }

    /// <summary>A tripod that sinks evenly is no step, and no coarse instrument.</summary>
    [Fact]
    public void Look_EvenCreepPastManyCheckShots_IsFoundAndLeads() => Assert.Equal([Check], SessionOf.Leading(SessionOf.Inputs(
        (_, number) => (0.012 * number + SessionOf.Noise(number).East, SessionOf.Noise(number).North, 0), [0, 1, 0, 1, 0, 1], [1, 0, 1, 0, 1, 0])));

    [Fact]
    public void Explains_TwoPointFitsOfABadCheckShot_AreNamed() =>
        Assert.All(["scale-off", "setup-rotated"], name => Assert.Contains(name, CheckCatalogue.All.Single(check => check.Name == Check).Explains));

    [Fact]
    public void Look_NoTimes_IsSilent() => CheckAssert.Silent(SessionOf.Inputs(SessionOf.Lines((_, number) => After(number, 2, 0.09), [0, 1], [1, 0], more: "time=-")), Check);
}
