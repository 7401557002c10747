namespace Aslaid.Record;

/// <summary>
/// How many standard uncertainties a value must be off before a test of many may speak: all tests of a site by which chance alone
/// could raise an alarm share half a per cent of wrong alarms (DEFAULT). 4.9 for 600 shots, about what ten checks leave to one.
/// </summary>
internal static class AlarmBudget
{
    /// <summary>Wrong alarms by chance that a whole site may have.</summary>
    private const double OfASite = 0.005;

    /// <summary>Checks that test each shot, leg or join against chance.</summary>
    private const int Checks = 10;

    /// <summary>Two-sided, in standard uncertainties; at least three.</summary>
    /// <param name="tests">How many values the check tests on this site.</param>
    public static double Sigmas(int tests) => Math.Max(3, -Normal.Quantile(OfASite / Checks / (2.0 * Math.Max(tests, 1))));

    /// <summary>The same for the size of a vector in plan, in standard uncertainties per axis: as seldom passed by chance (Rayleigh).</summary>
    public static double Radial(double sigmas) => Math.Sqrt(-2 * Math.Log(2 * Normal.Above(sigmas)));
}
