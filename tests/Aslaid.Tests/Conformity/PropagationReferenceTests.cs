using System.Text.Json;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>
/// Published propagations, carried by the product's own <see cref="Propagation"/>: each input quantity takes the place of a shot's
/// height. Effective degrees of freedom, second-order terms and coverage of rectangular inputs are not the product's business.
/// </summary>
public sealed class PropagationReferenceTests
{
    private const string Cases = "04_uncertainty_conformity.json";

    [Fact] // JCGM 100:2008, H.1: end gauge
    public void Take_EndGauge_GivesPublishedUncertainty()
    {
        var c = Reference.Case(Cases, "cases", "gum_h1");
        var (published, inputs) = (c.GetProperty("published"), c.GetProperty("inputs_nm_and_SI"));
        var (gauge, uGauge) = (inputs.GetProperty("ls")[0].GetDouble(), inputs.GetProperty("ls")[1].GetDouble());
        double[] difference = [.. inputs.GetProperty("u_d_components").EnumerateArray().Select(part => part[0].GetDouble())];
        var temperature = gauge * inputs.Number("alpha_s") * Rectangular(inputs.Number("dtheta_half_width"));
        var expansion = gauge * inputs.Number("theta_mean") * Rectangular(inputs.Number("dalpha_half_width"));

        var parts = published.GetProperty("components_nm");
        Assert.Equal(parts.Number("d"), U(difference), 0.05);
        Assert.Equal(parts.Number("dtheta"), U(-temperature), 0.05);
        Assert.Equal(parts.Number("dalpha"), U(-expansion), 0.05);
        var all = U([uGauge, .. difference, -temperature, -expansion]);
        Assert.Equal(published.Number("u_c_nm"), all, 0.5);
        Assert.Equal(c.GetProperty("recomputed").Number("u_c_nm"), all, 0.0005);
    }

    [Fact] // JCGM 100:2008, H.2: resistance and reactance, the means correlated
    public void Take_SharedReadings_GivesPublishedUncertaintiesAndCorrelations()
    {
        var c = Reference.Case(Cases, "cases", "gum_h2");
        var data = c.GetProperty("data");
        var (volt, ampere, phase) = (Numbers(data, "V_volt"), Numbers(data, "I_mA").Select(mA => mA / 1000).ToArray(), Numbers(data, "phi_rad"));
        var (v, i, phi) = (volt.Average(), ampere.Average(), phase.Average());
        // The five sets of readings are what the three means share: each set is one input, met three times by a result.
        double[][] By(double byVolt, double byAmpere, double byPhase) => [Deviations(volt, byVolt), Deviations(ampere, byAmpere), Deviations(phase, byPhase)];
        var (resistance, reactance, impedance) = (
            By(Math.Cos(phi) / i, -v * Math.Cos(phi) / (i * i), -v * Math.Sin(phi) / i),
            By(Math.Sin(phi) / i, -v * Math.Sin(phi) / (i * i), v * Math.Cos(phi) / i),
            By(1 / i, -v / (i * i), 0));

        var (published, recomputed) = (c.GetProperty("published"), c.GetProperty("recomputed"));
        var within = c.GetProperty("tolerance");
        Assert.Equal(published.GetProperty("R")[1].GetDouble(), U(resistance), within.Number("u"));
        Assert.Equal(published.GetProperty("X")[1].GetDouble(), U(reactance), within.Number("u"));
        Assert.Equal(published.GetProperty("Z")[1].GetDouble(), U(impedance), within.Number("u"));
        Assert.Equal(recomputed.GetProperty("R")[1].GetDouble(), U(resistance), 1e-5);
        Assert.Equal(recomputed.GetProperty("X")[1].GetDouble(), U(reactance), 1e-5);
        Assert.Equal(recomputed.GetProperty("Z")[1].GetDouble(), U(impedance), 1e-5);
        var correlations = published.GetProperty("r_out");
        Assert.Equal(correlations.Number("R_X"), Correlation(resistance, reactance), within.Number("r"));
        Assert.Equal(correlations.Number("R_Z"), Correlation(resistance, impedance), within.Number("r"));
        Assert.Equal(correlations.Number("X_Z"), Correlation(reactance, impedance), within.Number("r"));
    }

    [Fact] // NIST Technical Note 1900, E13: linear thermal expansion
    public void Take_ThermalExpansion_GivesPublishedUncertainty()
    {
        var c = Reference.Case(Cases, "cases", "nist1900_e13");
        var inputs = c.GetProperty("inputs");
        var (l0, l1, t0, t1) = (inputs.GetProperty("L0"), inputs.GetProperty("L1"), inputs.GetProperty("T0"), inputs.GetProperty("T1"));
        var (warm, length) = (Value(t1) - Value(t0), Value(l0));
        var alpha = (Value(l1) - length) / (length * warm);
        var u = U(UOf(l1) / (length * warm), -Value(l1) / (length * length * warm) * UOf(l0), -alpha / warm * UOf(t1), alpha / warm * UOf(t0));

        var published = c.GetProperty("published");
        Assert.Equal(published.Number("u"), u, 0.05e-6);
        Assert.Equal(c.GetProperty("recomputed").Number("u"), u, 5e-12);
        Assert.Equal(published.GetProperty("interval95")[0].GetDouble(), alpha - Normal.Within95 * u, 5e-8);
        Assert.Equal(published.GetProperty("interval95")[1].GetDouble(), alpha + Normal.Within95 * u, 5e-8);
    }

    [Fact] // JCGM 101:2008, 9.2.3: four rectangular inputs of unit deviation; 95 % by the first-order law
    public void Take_FourRectangularInputs_GivesFirstOrderInterval()
    {
        var c = Reference.Case(Cases, "cases", "jcgm101_four_rectangular");
        var u = U(1, 1, 1, 1);
        Assert.Equal(c.GetProperty("published").Number("u"), u, 1e-12);
        Assert.Equal(c.GetProperty("published").GetProperty("first_order_interval95")[1].GetDouble(), Normal.Within95 * u, c.Number("tolerance"));
    }

    /// <summary>Standard uncertainty of a sum, each part its input's uncertainty times its sensitivity.</summary>
    private static double U(params double[] parts) => U([parts]);

    /// <summary>Standard uncertainty of a sum; rows meet the same inputs.</summary>
    private static double U(double[][] rows)
    {
        var inputs = ShotsOf.Lines(string.Join('\n', rows[0].Select((_, input) => FormattableString.Invariant($"{input} {9 * input} 0 5 GROUND"))));
        var shots = Derivation.Derive(inputs with { Settings = ShotsOf.Settings with { SessionUPlan = 0, SessionUHeight = 0 } }).Shots;
        var propagation = new Propagation(shots);
        foreach (var row in rows) propagation.Add([.. row.Select((part, input) => new ShotTerm(input, 0, 0, part / shots.SigmaHeight[input]))]);
        return propagation.Take();
    }

    /// <summary>From the uncertainty of the sum.</summary>
    private static double Correlation(double[][] one, double[][] other)
    {
        var (uOne, uOther, uBoth) = (U(one), U(other), U([.. one, .. other]));
        return (uBoth * uBoth - uOne * uOne - uOther * uOther) / (2 * uOne * uOther);
    }

    /// <summary>What each reading adds to the error of the mean, times a sensitivity: their squares sum to the variance of the mean.</summary>
    private static double[] Deviations(double[] readings, double sensitivity) =>
        [.. readings.Select(reading => sensitivity * (reading - readings.Average()) / Math.Sqrt(readings.Length * (readings.Length - 1)))];

    private static double Rectangular(double halfWidth) => halfWidth / Math.Sqrt(3);

    private static double[] Numbers(JsonElement element, string name) => [.. element.GetProperty(name).EnumerateArray().Select(number => number.GetDouble())];

    private static double Value(JsonElement pair) => pair[0].GetDouble();

    private static double UOf(JsonElement pair) => pair[1].GetDouble();
}
