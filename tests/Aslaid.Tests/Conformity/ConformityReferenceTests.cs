using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>
/// Published probabilities, risks and capabilities. Global risks are integrals of these tests; what stands under them is the
/// product's probability of conformity of one measured value.
/// </summary>
public sealed class ConformityReferenceTests
{
    private const string Cases = "04_uncertainty_conformity.json";

    [Theory] // JCGM 106:2012, 7: Zener breakdown voltage, one limit; oil viscosity, two limits
    [InlineData("jcgm106_upper_limit")]
    [InlineData("jcgm106_two_sided")]
    public void PConforms_PublishedValue_Agrees(string id)
    {
        var (c, inputs) = Of(id);
        var limits = new Limits(inputs.Has("lower_limit", out var lower) ? lower.GetDouble() : null, inputs.Number("upper_limit"));
        var judgement = Judgement.OfTolerance(inputs.Number("y"), inputs.Number("u"), limits, 1);
        Assert.Equal(c.GetProperty("published").Number("p_conform"), judgement.PConforms!.Value, c.Number("tolerance"));
        Assert.Equal(c.GetProperty("recomputed").Number("p_conform"), judgement.PConforms!.Value, 5e-6);
        Assert.True(judgement.Within);
    }

    [Fact] // JCGM 106:2012, 8.3.2: guard band w = U = 2u, value at the acceptance limit
    public void PConforms_AtTheAcceptanceLimit_IsPublished()
    {
        var c = Reference.Case(Cases, "cases", "jcgm106_guard_r1");
        var limits = Limits.AtMost(1);
        var at = Judgement.OfTolerance(0, 0.05, limits, 1, coverage: 2).Acceptance!.Value.Upper;
        var judgement = Judgement.OfTolerance(at, 0.05, limits, 1, coverage: 2);
        Assert.Equal(0.9, at!.Value, 1e-12);
        Assert.Equal(Verdict.Conforms, judgement.Verdict);
        Assert.Equal(c.GetProperty("published").Number("p_conform_at_limit"), judgement.PConforms!.Value, c.Number("tolerance"));
        Assert.Equal(c.GetProperty("recomputed").Number("p_conform_at_limit"), judgement.PConforms!.Value, 5e-6);
    }

    [Fact] // JCGM 106:2012, 9.5.4: ball bearings, process gamma with shape 4 and scale 0.25
    public void GlobalRisks_OfAGammaProcess_ArePublished()
    {
        var (c, inputs) = Of("jcgm106_bearing");
        var (limit, accepted) = (inputs.Number("upper_limit"), Limits.AtMost(inputs.Number("acceptance_limit")));
        double Process(double value) => 256.0 / 6 * value * value * value * Math.Exp(-4 * value);
        double Accepted(double value) => PIn(value, inputs.Number("u_m"), accepted);

        var (published, recomputed, tolerance) = (c.GetProperty("published"), c.GetProperty("recomputed"), c.Number("tolerance"));
        var consumer = Integral.Of(value => Process(value) * Accepted(value), limit, 12);
        Assert.Equal(published.Number("p_out_of_tolerance"), Integral.Of(Process, limit, 14), tolerance);
        Assert.Equal(published.Number("consumer_risk"), consumer, tolerance);
        Assert.Equal(recomputed.Number("consumer_risk"), consumer, 1e-9);
        Assert.Equal(recomputed.Number("producer_risk"), Integral.Of(value => Process(value) * (1 - Accepted(value)), 0, limit), 1e-9);
    }

    [Fact] // draft NCSLI RP-19, tables of global false-accept risk
    public void GlobalRisks_OfTheRp19Table_ArePublished()
    {
        var c = Reference.Case(Cases, "cases", "rp19_risk_table");
        foreach (var row in c.GetProperty("published").EnumerateArray())
        {
            var process = 1 / Normal.Quantile((1 + row.Number("in_tolerance_prob")) / 2);
            var (accept, _, accepted) = Risks(process, process / 4, 1);
            Assert.Equal(row.Number("PFA_percent"), 100 * accept, c.Number("tolerance"));
            Assert.Equal(row.Number("conditional_PFA_percent"), 100 * accept / accepted, c.Number("tolerance"));
        }
    }

    [Fact] // D. Deaver, risk curves: process sd 4, measurement sd 1, limits ±8
    public void GlobalRisks_OfDeaversCurve_ArePublished()
    {
        var c = Reference.Case(Cases, "cases", "deaver_sl2_tur4");
        var (accept, reject, _) = Risks(4, 1, 8);
        Assert.Equal(c.GetProperty("published").Number("PFA"), accept, c.Number("tolerance"));
        Assert.Equal(c.GetProperty("published").Number("PFR"), reject, c.Number("tolerance"));
        Assert.Equal(c.GetProperty("recomputed").Number("PFA"), accept, 1e-7);
        Assert.Equal(c.GetProperty("recomputed").Number("PFR"), reject, 1e-7);
    }

    [Fact]
    public void GlobalRisks_FromWhatIsMeasured_AreThoseFromWhatIsTrue() => Gen.Select(Gen.Double[0.3, 2], Gen.Double[0.05, 0.5]).Sample((process, measurement) =>
    {
        // A measured value leaves a true one that is normal: its mean and deviation by process and measurement together (JCGM 106, 6.4).
        var (limits, spread) = (new Limits(-1, 1), double.Hypot(process, measurement));
        var share = process * process / (spread * spread);
        var accept = Integral.Of(value => Density(value, spread) * (1 - PIn(share * value, Math.Sqrt(share) * measurement, limits)), -1, 1);
        Assert.Equal(Risks(process, measurement, 1).Accept, accept, 1e-8);
    }, iter: 30);

    [Fact] // process capability and specific risk, limits 9 and 11, sd 0.4
    public void Capability_Published_Agrees()
    {
        var c = Reference.Case(Cases, "cases", "cpk_centred_and_off_centre");
        var tolerance = c.Number("tolerance");
        foreach (var row in c.GetProperty("published").EnumerateArray())
        {
            var mean = row.Number("mean");
            Assert.Equal(row.Number("cpk"), new Limits(9, 11).Room(mean) / (3 * 0.4), tolerance);
            Assert.Equal(row.Number("risk_total"), 1 - PIn(mean, 0.4, new(9, 11)), tolerance);
            Assert.Equal(row.Number("risk_low"), 1 - PIn(mean, 0.4, Limits.AtLeast(9)), tolerance);
            Assert.Equal(row.Number("risk_high"), 1 - PIn(mean, 0.4, Limits.AtMost(11)), tolerance);
        }
    }

    /// <summary>Risks of a normal process about the middle of ± limit, measured without guard band: false accept, false reject, accepted at all.</summary>
    private static (double Accept, double Reject, double Accepted) Risks(double process, double measurement, double limit)
    {
        var limits = new Limits(-limit, limit);
        var far = limit + 10 * measurement;
        var accept = 2 * Integral.Of(value => Density(value, process) * PIn(value, measurement, limits), limit, far);
        var reject = Integral.Of(value => Density(value, process) * (1 - PIn(value, measurement, limits)), -limit, limit);
        return (accept, reject, PIn(0, double.Hypot(process, measurement), limits));
    }

    private static double PIn(double value, double u, Limits limits) => Judgement.OfTolerance(value, u, limits, 0).PConforms!.Value;

    private static double Density(double value, double sd) => Math.Exp(-value * value / (2 * sd * sd)) / (sd * Math.Sqrt(double.Tau));

    private static (JsonElement Case, JsonElement Inputs) Of(string id)
    {
        var c = Reference.Case(Cases, "cases", id);
        return (c, c.GetProperty("inputs"));
    }
}
